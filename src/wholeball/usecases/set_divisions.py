"""Sets the divisions of a season: adds one, changes one, takes one out."""

from collections.abc import Iterator
from typing import Final

from wholeball.files.any_cell import neutral
from wholeball.files.blocks import COLUMNS as BLOCK_COLUMNS
from wholeball.files.blocks import FILE as BLOCKS_FILE
from wholeball.files.bracket import FILE as BRACKET_FILE
from wholeball.files.divisions import COLUMNS, FILE
from wholeball.files.fewer_rows import without_rows
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.more_rows import with_rows
from wholeball.files.other_cells import with_cells, with_names
from wholeball.files.planning_toml import FILE as PLANNING_FILE
from wholeball.files.teams import COLUMNS as TEAM_COLUMNS
from wholeball.files.teams import FILE as TEAMS_FILE
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import DivisionId
from wholeball.league.fixture import Seeded
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.sentence import counted, listed
from wholeball.usecases.named_rows import (
    listed_some,
    named,
    normal,
    refuse_gone,
    refuse_twice,
    text_of,
)
from wholeball.usecases.show_divisions import DivisionTold, teams_in

_NAMED: Final = {
    BRACKET_FILE: ("its bracket is drawn", "Take the draw back first: Season, Changes."),
    TIMETABLE_FILE: (
        "games of the timetable are for its bracket",
        "Let those games have other sides first.",
    ),
    PLANNING_FILE: (
        "play-offs that are planned for are for its bracket",
        "Let those games have other sides first.",
    ),
}
"""Why a division stays as it is called where a file names its bracket, and what to do first."""


def add_division(record: LeagueRecord, told: DivisionTold) -> None:
    """Add a division, after those that there are.

    Raises:
        InputFaults: there is one of that name, or the season would have a fault; nothing was
            written.
    """
    with record.held():
        refuse_twice(told.division, _names(read_folder(record)), column="division", file=FILE)
        row = tuple(_cells(told)[column.name] for column in COLUMNS)
        text = with_rows(text_of(record, FILE), [tuple(map(neutral, row))], columns=COLUMNS)
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def change_division(record: LeagueRecord, division: str, told: DivisionTold) -> None:
    """Change what is said of a division; its blocks and its teams follow another name.

    Raises:
        InputFaults: there is one of that name, or the season would have a fault; nothing was
            written.
        WholeballError: it is not there any more, or something names it that does not follow.
    """
    with record.held():
        read = read_folder(record)
        refuse_gone(division, _names(read), what="This division")
        others = [one for one in _names(read) if one != division]
        refuse_twice(told.division, others, column="division", file=FILE)
        changed = {
            FILE: with_cells(
                text_of(record, FILE),
                lambda row: _cells(told) if row["division"] == division else {},
                columns=COLUMNS,
            )
        }
        if normal(told.division) != division:
            _refuse_named(read, division, what="keeps its name")
            changed |= _renamed(record, division, normal(told.division))
        read_folder(record, instead=changed)
        record.write(changed)


def drop_division(record: LeagueRecord, division: str) -> None:
    """Take a division out.

    Raises:
        InputFaults: the season would have a fault without it; nothing was written.
        WholeballError: it is not there any more, or has teams, blocks or a bracket.
    """
    with record.held():
        read = read_folder(record)
        refuse_gone(division, _names(read), what="This division")
        _refuse_filled(read, DivisionId(division))
        _refuse_named(read, division, what="stays")
        text = without_rows(
            text_of(record, FILE), lambda row: named(row, "division") == division
        )
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def _names(read: SeasonFolder) -> list[str]:
    return [one.division for one in read.season.league.divisions]


def _cells(told: DivisionTold) -> dict[str, str]:
    return {
        "division": told.division,
        "league": told.league,
        "level": told.level,
        "kind": told.kind,
    }


def _renamed(record: LeagueRecord, old: str, new: str) -> dict[str, bytes]:
    """Return the files that name a division, with another name in its place."""
    return {
        file: with_names(text, "division", old, new, columns=columns)
        for file, columns in ((BLOCKS_FILE, BLOCK_COLUMNS), (TEAMS_FILE, TEAM_COLUMNS))
        if (text := text_of(record, file))
    }


def _refuse_filled(read: SeasonFolder, division: DivisionId) -> None:
    league = read.season.league
    teams = teams_in(read, division)
    blocks = tuple(one.block for one in league.blocks if one.division == division)
    cures = []
    if teams:
        cures.append("Put its teams into another division under Teams and pools first.")
    if blocks:
        cures.append("Take its blocks out first.")
    if cures:
        parts = (
            (f"{counted(len(teams), 'team')} ({listed_some(teams)})" if teams else ""),
            (f"{counted(len(blocks), 'block')} ({listed_some(blocks)})" if blocks else ""),
        )
        raise WholeballError(
            f"Division {division} has {listed(tuple(filter(None, parts)))}.",
            fix=" ".join(("Nothing was changed.", *cures)),
            code="filled",
        )


def _refuse_named(read: SeasonFolder, division: str, *, what: str) -> None:
    """Refuse what would leave a bracket without its division."""
    found = [_NAMED[file] for file in dict.fromkeys(_naming(read, division))]
    if found:
        cures = dict.fromkeys(cure for _, cure in found)
        raise WholeballError(
            f"Division {division} {what}: {listed(tuple(why for why, _ in found))}.",
            fix=" ".join(("Nothing was changed.", *cures)),
            code="named",
        )


def _naming(read: SeasonFolder, division: str) -> Iterator[str]:
    """Yield the files that name a bracket like a division."""
    if division in read.brackets:
        yield BRACKET_FILE
    said = read.planning.said
    planned = () if said is None else said.play_offs
    for file, games in ((TIMETABLE_FILE, read.open_fixtures), (PLANNING_FILE, planned)):
        for game in games:
            for side in (game.home, game.away):
                if isinstance(side, Seeded) and side.bracket == division:
                    yield file
