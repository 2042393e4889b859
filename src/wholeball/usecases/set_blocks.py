"""Sets the blocks of a season, when its divisions play: adds one, changes one, takes one out."""

from dataclasses import dataclass
from datetime import time

from wholeball.files.alone import COLUMNS as ALONE_COLUMNS
from wholeball.files.alone import FILE as ALONE_FILE
from wholeball.files.any_cell import neutral
from wholeball.files.blocks import COLUMNS, FILE
from wholeball.files.fewer_rows import without_rows
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.more_rows import with_rows
from wholeball.files.other_cells import with_cells, with_names
from wholeball.files.sign_ups import COLUMNS as SIGN_UP_COLUMNS
from wholeball.files.sign_ups import FILE as SIGN_UPS_FILE
from wholeball.files.teams import COLUMNS as TEAM_COLUMNS
from wholeball.files.teams import FILE as TEAMS_FILE
from wholeball.kernel.faults import WholeballError
from wholeball.league.division import Weekday
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


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockTold:
    """What somebody says of a block."""

    block: str
    division: str
    weekday: Weekday
    opens: time
    closes: time
    places: int


def add_block(record: LeagueRecord, told: BlockTold) -> None:
    """Add a block, after those that there are.

    Raises:
        InputFaults: there is one of that name, or the season would have a fault; nothing was
            written.
    """
    with record.held():
        refuse_twice(told.block, _names(read_folder(record)), column="block", file=FILE)
        row = tuple(neutral(_cells(told)[column.name]) for column in COLUMNS)
        text = with_rows(text_of(record, FILE), [row], columns=COLUMNS)
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def change_block(record: LeagueRecord, block: str, told: BlockTold) -> None:
    """Change what is said of a block; its teams and whoever asks for it follow another name.

    Raises:
        InputFaults: there is one of that name, or the season would have a fault; nothing was
            written.
        WholeballError: it is not there any more.
    """
    with record.held():
        names = _names(read_folder(record))
        refuse_gone(block, names, what="This block")
        others = [one for one in names if one != block]
        refuse_twice(told.block, others, column="block", file=FILE)
        changed = {
            FILE: with_cells(
                text_of(record, FILE),
                lambda row: _cells(told) if row["block"] == block else {},
                columns=COLUMNS,
            )
        }
        if normal(told.block) != block:
            changed |= _renamed(record, block, normal(told.block))
        read_folder(record, instead=changed)
        record.write(changed)


def drop_block(record: LeagueRecord, block: str) -> None:
    """Take a block out.

    Raises:
        InputFaults: the season would have a fault without it; nothing was written.
        WholeballError: it is not there any more, or somebody plays in it or asks for it.
    """
    with record.held():
        read = read_folder(record)
        refuse_gone(block, _names(read), what="This block")
        _refuse_filled(read, block)
        text = without_rows(text_of(record, FILE), lambda row: named(row, "block") == block)
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def _names(read: SeasonFolder) -> list[str]:
    return [one.block for one in read.season.league.blocks]


def _cells(told: BlockTold) -> dict[str, str]:
    return {
        "block": told.block,
        "division": told.division,
        "weekday": told.weekday,
        "from": f"{told.opens:%H:%M}",
        "until": f"{told.closes:%H:%M}",
        "places": f"{told.places}",
    }


def _renamed(record: LeagueRecord, old: str, new: str) -> dict[str, bytes]:
    """Return the files that name a block, with another name in its place."""
    return {
        file: with_names(text, "block", old, new, columns=columns)
        for file, columns in (
            (TEAMS_FILE, TEAM_COLUMNS),
            (SIGN_UPS_FILE, SIGN_UP_COLUMNS),
            (ALONE_FILE, ALONE_COLUMNS),
        )
        if (text := text_of(record, file))
    }


def _refuse_filled(read: SeasonFolder, block: str) -> None:
    teams = tuple(one.team for one in read.season.league.teams if one.block == block)
    asked = sum(one.block == block for one in read.sign_ups)
    alone = sum(one.block == block for one in read.alone)
    parts = []
    if teams:
        parts.append(f"{counted(len(teams), 'team')} ({listed_some(teams)})")
    if asked:
        parts.append(counted(asked, "sign-up"))
    if alone:
        parts.append(f"{counted(alone, 'player')} without a team")
    if not parts:
        return
    cures = ["Give its teams another block under Teams and pools first."] if teams else []
    if asked or alone:
        cures.append("Give whoever asks for it another block under Sign-ups, or take them out.")
    raise WholeballError(
        f"Block {block} has {listed(tuple(parts))}.",
        fix=" ".join(("Nothing was changed.", *cures)),
        code="filled",
    )
