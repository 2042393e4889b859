"""Changes what teams and players without a team asked for at sign-up, and takes it out."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from wholeball.files.alone import COLUMNS as ALONE_COLUMNS
from wholeball.files.alone import FILE as ALONE_FILE
from wholeball.files.cells import Column
from wholeball.files.fewer_rows import without_rows
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.other_cells import with_cells
from wholeball.files.sign_ups import COLUMNS, FILE
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.league.record import LeagueRecord
from wholeball.usecases.named_rows import named, normal, refuse_gone, text_of


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamTold:
    """What a team asked for, as somebody says it; without `players` nobody knows how many."""

    team: str
    block: str
    at: datetime
    captain: str = ""
    players: int | None = None
    colours: str = ""
    second_colours: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class AloneTold:
    """What a player without a team asked for, as somebody says it."""

    name: str
    block: str
    at: datetime


def change_sign_up(record: LeagueRecord, block: str, team: str, told: TeamTold) -> None:
    """Change what a team asked for.

    Raises:
        InputFaults: the team asks for that block already, it is called otherwise in the season,
            or the season would have a fault; nothing was written.
        WholeballError: the sign-up is not there any more.
    """
    with record.held():
        read = read_folder(record)
        asked = [(str(one.block), str(one.team)) for one in read.sign_ups]
        _refuse_gone((block, team), asked)
        _refuse_renamed(read, team, told.team)
        others = [one for one in asked if one != (block, team)]
        _refuse_twice(FILE, (told.block, normal(told.team)), others)
        _write(record, FILE, COLUMNS, {"block": block, "team": team}, _team_cells(told))


def drop_sign_up(record: LeagueRecord, block: str, team: str) -> None:
    """Take out what a team asked for.

    Raises:
        InputFaults: the season would have a fault without it; nothing was written.
        WholeballError: the sign-up is not there any more.
    """
    with record.held():
        asked = [(str(one.block), str(one.team)) for one in read_folder(record).sign_ups]
        _refuse_gone((block, team), asked)
        _take_out(record, FILE, {"block": block, "team": team})


def change_alone(record: LeagueRecord, block: str, person: str, told: AloneTold) -> None:
    """Change what a player without a team asked for.

    Raises:
        InputFaults: the player asks for that block already, or the season would have a fault;
            nothing was written.
        WholeballError: the sign-up is not there any more.
    """
    with record.held():
        asked = [(str(one.block), str(one.person)) for one in read_folder(record).alone]
        _refuse_gone((block, person), asked)
        others = [one for one in asked if one != (block, person)]
        _refuse_twice(ALONE_FILE, (told.block, person), others)
        cells = {"name": normal(told.name), "block": told.block, "at": _moment(told.at)}
        _write(record, ALONE_FILE, ALONE_COLUMNS, {"block": block, "person": person}, cells)


def drop_alone(record: LeagueRecord, block: str, person: str) -> None:
    """Take out what a player without a team asked for.

    Raises:
        InputFaults: the season would have a fault without it; nothing was written.
        WholeballError: the sign-up is not there any more.
    """
    with record.held():
        asked = [(str(one.block), str(one.person)) for one in read_folder(record).alone]
        _refuse_gone((block, person), asked)
        _take_out(record, ALONE_FILE, {"block": block, "person": person})


def _write(
    record: LeagueRecord,
    file: str,
    columns: Sequence[Column],
    key: Mapping[str, str],
    cells: Mapping[str, str],
) -> None:
    is_it = _finds(key)
    text = with_cells(
        text_of(record, file), lambda row: cells if is_it(row) else {}, columns=columns
    )
    read_folder(record, instead={file: text})
    record.write({file: text})


def _take_out(record: LeagueRecord, file: str, key: Mapping[str, str]) -> None:
    text = without_rows(text_of(record, file), _finds(key))
    read_folder(record, instead={file: text})
    record.write({file: text})


def _finds(key: Mapping[str, str]) -> Callable[[Mapping[str, str]], bool]:
    """Return what tells the row of a key, which no other row has."""
    return lambda row: all(named(row, column) == told for column, told in key.items())


def _team_cells(told: TeamTold) -> dict[str, str]:
    return {
        "team": normal(told.team),
        "block": told.block,
        "at": _moment(told.at),
        "captain": told.captain,
        "players": "" if told.players is None else f"{told.players}",
        "colours": told.colours,
        "second_colours": told.second_colours,
    }


def _moment(at: datetime) -> str:
    return f"{at:%Y-%m-%d %H:%M}"


def _refuse_gone(key: tuple[str, str], asked: Sequence[tuple[str, str]]) -> None:
    block, name = key
    names = [each for of, each in asked if of == block]
    refuse_gone(name, names, what="This sign-up")


def _refuse_twice(
    file: str, wanted: tuple[str, str], others: Sequence[tuple[str, str]]
) -> None:
    """Refuse to have somebody ask for one block twice, whatever the capitals of a team."""
    block, name = wanted
    if (block, name.casefold()) not in [(of, each.casefold()) for of, each in others]:
        return
    raise InputFaults(
        [
            Fault(
                code="duplicate",
                place=Place(file=file, column="block"),
                says=f"{name} asks for {block} already.",
                value=block,
                cure="Choose another block, or take one of the two sign-ups out.",
            )
        ]
    )


def _refuse_renamed(read: SeasonFolder, team: str, name: str) -> None:
    """Refuse another name for a team that plays: all that names it would not follow."""
    plays = [one.team for one in read.season.league.teams]
    if team not in plays or normal(name) == team:
        return
    raise InputFaults(
        [
            Fault(
                code="in_season",
                place=Place(file=FILE, column="team"),
                says=f"{team} is a team of the season.",
                value=name,
                cure=f"Write {team}, and correct the name on the team's own page.",
            )
        ]
    )
