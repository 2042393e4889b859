"""Adds one player to a roster by hand, corrects one, and takes one out whom no game knows."""

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from itertools import count
from typing import Final

from wholeball.files.fewer_rows import without_row
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.given_list import GivenList
from wholeball.files.other_cells import with_cells
from wholeball.files.rosters import COLUMNS, FILE, cells_of_rosters
from wholeball.files.student_ids import IdKey
from wholeball.files.table import MOST_BYTES
from wholeball.files.team_names import PERSONS
from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.player import Player, person_of
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.sentence import listed
from wholeball.season.appearances import GameSheet
from wholeball.season.fees import fees_of
from wholeball.store.changes import is_private
from wholeball.store.record import DatabaseRecord
from wholeball.store.team_access import follow_person
from wholeball.usecases.add_to_roster import Added, add_to_roster
from wholeball.usecases.named_rows import listed_some, normal, text_of

GIVEN: Final = "the player"
"""What faults of a player who is added call the list of one row that they stand on."""
_GIVEN_COLUMNS: Final = ("student_id", "name", "number", "captain")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayerTold:
    """What a roster says of a player."""

    name: str
    number: int | None
    is_captain: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayerAt:
    """A player by the place on the roster, from 1, and by the name that stood there when looked at.

    `for_staff` tells that a coordinator asks; captains are told less, and may less.
    """

    team: str
    place: int
    name: str
    for_staff: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Corrected:
    """Whom a correction was about: the name as it is kept, and who is captain no more."""

    name: str
    no_more: str
    follows_name: bool


def add_player(  # noqa: PLR0913 - each comes from somewhere else
    record: LeagueRecord,
    team: str,
    told: PlayerTold,
    *,
    student: str,
    key: IdKey,
    day: date,
    for_staff: bool,
) -> Added:
    """Add one player on a day; of the student id only its code is kept, and its end.

    Raises:
        InputFaults: everything that stands against it, as `add_to_roster` says it of a list.
        WholeballError: no such team; another key; the captain waits for a fee.
    """
    with record.held():
        if told.is_captain and not for_staff:
            _refuse_waiting(read_folder(record), team)
        added = add_to_roster(record, _list_of(told, student), team=team, key=key, day=day)
        if added.already:
            raise _fault(
                "student_id",
                f"This id is on the roster of {team} already.",
                "Correct that player instead.",
                GIVEN,
            )
    return added


def correct_player(record: LeagueRecord, at: PlayerAt, told: PlayerTold) -> Corrected:
    """Correct name, number and captain of a player; who was captain is no more.

    Whom other files call by team and name is called so there too: all of it, or nothing.

    Raises:
        InputFaults: the number is worn, or the season would have a fault.
        WholeballError: the player is not there any more, a recorded game would know somebody
            else by it, or the captain waits for a fee.
    """
    with record.held():
        read = read_folder(record)
        player, team, name = _found(read, at), TeamId(at.team), normal(told.name)
        _refuse_worn(read, at, told.number)
        others = [one for one in read.rosters[team] if one is not player]
        was = next((one for one in others if one.is_captain), None) if told.is_captain else None
        if told.is_captain != player.is_captain and not at.for_staff:
            _refuse_waiting(read, at.team)
        changed = {FILE: _roster_text(record, at, told, name)}
        old, new = (f"{team}: {one}" for one in (player.name, name))
        if old != new:
            changed |= _called(record, old, new)
        _write(record, read, changed, player.name)
    return Corrected(
        name=name,
        no_more="" if was is None else was.name,
        follows_name=player.person is None and old != new,
    )


def correct_player_on_site(record: DatabaseRecord, at: PlayerAt, told: PlayerTold) -> Corrected:
    """Correct a player, and let roles and invitations follow who is known by name alone.

    Raises:
        InputFaults: as `correct_player` says.
        WholeballError: as `correct_player` says.
    """
    with record.held():
        done = correct_player(record, at, told)
        if done.follows_name:
            follow_person(record.season, f"{at.team}: {at.name}", f"{at.team}: {done.name}")
    return done


def drop_player(record: LeagueRecord, at: PlayerAt) -> None:
    """Take a player off a roster whom no recorded game knows, and nothing calls by team and name.

    Raises:
        InputFaults: the season would have a fault; nothing was written.
        WholeballError: the player is not there any more, or something knows them.
    """
    with record.held():
        read = read_folder(record)
        player = _found(read, at)
        if player.is_captain and not at.for_staff:
            _refuse_waiting(read, at.team)
        words = f"{at.team}: {player.name}"
        _refuse_named(tuple(_called(record, words, f"{words}'")), player, at)
        lines = cells_of_rosters(text_of(record, FILE))[1].lines
        row = [one.row for one in lines if one.need("team", str) == at.team][at.place - 1]
        text = without_row(text_of(record, FILE), row, what="This player")
        _write(record, read, {FILE: text}, player.name)


def player_at(read: SeasonFolder, team: str, place: int) -> Player | None:
    """Return the player at a place of a roster, from 1, or None where there is none."""
    players = read.rosters.get(TeamId(team), ())
    return players[place - 1] if 1 <= place <= len(players) else None


def games_of(read: SeasonFolder, team: str, player: Player) -> tuple[GameId, ...]:
    """Return the recorded games that know a player of a team."""
    who = (person_of(TeamId(team), player), TeamId(team))
    return tuple(
        one.fixture.game
        for one in read.sheets
        if who in ((each.person, each.team) for each in one.appeared)
        or who in ((each.person, each.team) for each in one.cards)
    )


def _list_of(told: PlayerTold, student: str) -> GivenList:
    """Return a player as a list of one row, so that it is judged as every list is."""
    out = io.StringIO()
    number = "" if told.number is None else f"{told.number}"
    row = (student, told.name, number, "yes" if told.is_captain else "")
    csv.writer(out, lineterminator="\n").writerows((_GIVEN_COLUMNS, row))
    return GivenList(GIVEN, out.getvalue().encode())


def _found(read: SeasonFolder, at: PlayerAt) -> Player:
    player = player_at(read, at.team, at.place)
    if player is None or player.name != at.name:
        raise WholeballError(
            f"{at.name} does not stand there any more: the roster was changed meanwhile.",
            fix="Nothing was changed. Look at the roster as it is now.",
            code="gone",
        )
    return player


def _refuse_worn(read: SeasonFolder, at: PlayerAt, number: int | None) -> None:
    for place, one in enumerate(read.rosters[TeamId(at.team)], start=1):
        if number is not None and place != at.place and one.number == number:
            raise _fault(
                "number",
                f"{one.name} wears number {number} already.",
                "Give another number, or leave it empty.",
                FILE,
            )


def _refuse_waiting(read: SeasonFolder, team: str) -> None:
    """Let nobody get round a fee by which the captain waits."""
    if fees_of(read.season, read.fees).captain_may_not_play(TeamId(team)):
        raise WholeballError(
            f"Who is captain of {team} stays as it is for now.",
            fix="Nothing was changed. See the coordinator.",
            code="waits",
        )


def _refuse_named(files: tuple[str, ...], player: Player, at: PlayerAt) -> None:
    """Refuse to take out who is called by team and name elsewhere; captains are not told where."""
    if files:
        where = f": {listed(files)}" if at.for_staff else ""
        cure = "Take it out there first." if at.for_staff else "See the coordinator."
        raise WholeballError(
            f"Something is kept of {player.name} by team and name{where}.",
            fix=f"Nothing was changed. {cure}",
            code="named",
        )


def _roster_text(record: LeagueRecord, at: PlayerAt, told: PlayerTold, name: str) -> bytes:
    """Return the rosters with a player's cells changed, and one captain in the team."""
    data = text_of(record, FILE)
    lines = cells_of_rosters(data)[1].lines
    mine = [index for index, one in enumerate(lines) if one.need("team", str) == at.team]
    here = mine[at.place - 1]
    new: dict[int, Mapping[str, str]] = {}
    if told.is_captain:
        new = {
            index: {"captain": ""}
            for index in mine
            if lines[index].get("captain", str) == "yes"
        }
    number = "" if told.number is None else f"{told.number}"
    new[here] = {"name": name, "number": number, "captain": "yes" if told.is_captain else ""}
    rows = count()
    return with_cells(data, lambda _: new.get(next(rows) % len(lines), {}), columns=COLUMNS)


def _called(record: LeagueRecord, old: str, new: str) -> dict[str, bytes]:
    """Return the texts that call somebody by team and name, with other words for them."""
    texts = {name: record.read(name, MOST_BYTES) for name in PERSONS if record.has(name)}

    def cells(row: Mapping[str, str]) -> dict[str, str]:
        is_meant = row.get("person", "").casefold() == old.casefold()
        return {"person": new} if is_meant else {}

    told = {name: with_cells(data, cells) for name, data in texts.items()}
    return {name: data for name, data in told.items() if data != texts[name]}


def _write(
    record: LeagueRecord, before: SeasonFolder, changed: Mapping[str, bytes], name: str
) -> None:
    """Write texts by which every recorded game still knows whom it knew."""
    after = read_folder(record, instead=changed)
    sheets = {one.fixture.game: one for one in after.sheets}
    lost = tuple(
        one.fixture.game
        for one in before.sheets
        if not _known(one) <= _known(sheets[one.fixture.game])
    )
    if lost:
        games = "game" if len(lost) == 1 else "games"
        raise WholeballError(
            f"What was recorded of {games} {listed_some(lost)} knows {name} as the roster has "
            "them now, and would know nobody or somebody else.",
            fix="Nothing was changed. Where a scorecard is wrong, correct that first. Whoever "
            "appeared stays on the roster: the coordinator can block them under Clearances.",
            code="recorded",
        )
    record.write(changed, private=frozenset(filter(is_private, changed)))


def _known(sheet: GameSheet) -> set[tuple[object, ...]]:
    """Return whom a game knows: who appeared with which number, and who was shown what."""
    appeared = ((one.side, one.person, one.number) for one in sheet.appeared if one.person)
    shown = ((one.event, one.person) for one in sheet.cards if one.person)
    return {*appeared, *shown}


def _fault(column: str, says: str, cure: str, file: str) -> InputFaults:
    place = Place(file=file, column=column)
    return InputFaults([Fault(code="duplicate", place=place, says=says, cure=cure)])
