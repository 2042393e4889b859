"""Checks a season folder: its doubts, and what its games say that a person should look at."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from wholeball.files.fees import FILE as FEES_FILE
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.game_log import log_name
from wholeball.files.rosters import FILE as ROSTERS_FILE
from wholeball.kernel.faults import Fault, Level, Place
from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.player import Player
from wholeball.league.record import LeagueRecord
from wholeball.reports.dates import day
from wholeball.reports.fee_words import owed_words
from wholeball.reports.person_words import article_name, reason_words, unknown_words
from wholeball.rulebook.sentence import counted, listed
from wholeball.season.appearances import GameSheet, team_of
from wholeball.season.discipline import leagues_of
from wholeball.season.fees import fees_of
from wholeball.season.found_ineligible import Ineligible, found_ineligible
from wholeball.season.to_come import to_come
from wholeball.usecases.alike_names import alike_rows
from wholeball.usecases.check_bracket import bracket_remarks
from wholeball.usecases.check_timetable import timetable_remarks
from wholeball.usecases.crew_doubts import crew_doubts
from wholeball.usecases.season_people import OnRoster, known_of, on_rosters
from wholeball.usecases.unwritten_forfeits import unwritten_forfeits


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What is doubtful about a season or worth a note; empty where nothing is wrong."""

    read: SeasonFolder
    remarks: tuple[Fault, ...]
    ineligible: tuple[Ineligible, ...]


def check_season(record: LeagueRecord, *, on: date) -> Checked:
    """Return all that a person should look at; for staff only.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder.
    """
    read = read_folder(record)
    names = on_rosters(read)
    found = found_ineligible(known_of(read, on), on)
    past = [one for one in read.timetable if one.day < on]
    return Checked(
        read=read,
        remarks=(
            *read.remarks,
            *_perhaps_one(read),
            *unknown_people(read),
            *(fault for sheet in read.sheets for fault in _of_sheet(read, sheet, record)),
            *(fault for sheet in read.sheets for fault in _resumed(sheet, record)),
            *(fault for sheet in read.sheets for fault in _on_both_sides(sheet, names)),
            *(_ineligible(one, read, names, record) for one in found),
            *timetable_remarks(read, record),
            *bracket_remarks(read, record),
            *unwritten_forfeits(to_come(read.season, past)),
            *_fees(read),
            *crew_doubts(read),
        ),
        ineligible=found,
    )


def name_of(
    person: PersonId, team: TeamId, names: Mapping[PersonId, Iterable[OnRoster]]
) -> str:
    """Return a person's name as a team's roster has it, or any, or the code."""
    lines = list(names.get(person, ()))
    own = next((one for one in lines if one.team == team), None)
    return own.name if own else lines[0].name if lines else person


def unknown_people(read: SeasonFolder) -> Iterator[Fault]:
    """Doubt each entry of a game whose player nobody can tell."""
    for sheet in read.sheets:
        for one in sheet.unknown:
            says, cure = unknown_words(one)
            yield _of_game(sheet, "unknown_player", says, cure)


def _of_sheet(read: SeasonFolder, sheet: GameSheet, record: LeagueRecord) -> Iterator[Fault]:
    game = sheet.fixture.game
    if sheet.asked:
        says = f"{counted(len(sheet.asked), 'question')} about it still open."
        cure = f"Answer: {record.way('answer', game=game)}"
        yield _of_game(sheet, "open_questions", says, cure)
    ratings = read.season.rulebook.ratings
    article = article_name("ratings", read.season.rulebook)
    for rating in sheet.ratings if ratings.by != "nobody" else ():
        value = Decimal(rating.hundredths) / 100
        if value <= ratings.reason_at_or_below and not rating.reason.strip():
            team = team_of(sheet.fixture, rating.side)
            says = f"{team} is rated {value:f} without a reason ({article})."
            cure = f"Ask, and enter it again: {record.way('enter', game=game)}"
            yield _of_game(sheet, "rating_without_reason", says, cure)


def _resumed(sheet: GameSheet, record: LeagueRecord) -> Iterator[Fault]:
    """Doubt a night after the first whose day is not written down, or comes before the first."""
    game, first = sheet.fixture.game, sheet.fixture.day
    cure = f"Write it down: {record.way('resume', game=game)}"
    for on in sheet.resumed_on:
        if on is None:
            says = (
                "the game was resumed, and the day of the resumption is not written down; from"
            )
            says += " when what was shown that night suspends anybody cannot be told."
            yield _of_game(sheet, "resumed_when", says, cure)
        elif on < first:
            says = f"the game was resumed on {day(on)}, and is listed on {day(first)}."
            yield _of_game(sheet, "resumed_when", says, cure)


def _on_both_sides(
    sheet: GameSheet, names: Mapping[PersonId, tuple[OnRoster, ...]]
) -> Iterator[Fault]:
    for person in sorted(sheet.people("home") & sheet.people("away")):
        who = name_of(person, sheet.fixture.home, names)
        says = f"{who} is written down for {sheet.fixture.home} and for {sheet.fixture.away}."
        cure = "Compare with the scorecard; if two people share a code, mend rosters.csv."
        yield _of_game(sheet, "both_sides", says, cure)


def _ineligible(
    one: Ineligible,
    read: SeasonFolder,
    names: Mapping[PersonId, tuple[OnRoster, ...]],
    record: LeagueRecord,
) -> Fault:
    article = article_name(one.article, read.season.rulebook)
    why = listed(tuple(reason_words(reason) for reason in one.reasons))
    says = f"{name_of(one.person, one.team, names)} appeared for {one.team}, and {why}."
    level: Level = "doubt"
    if one.ruling is not None:
        cure, level = f"Ruling {one.ruling} is about this game.", "note"
    elif one.then == "forfeit":
        to = "away" if one.side == "home" else "home"
        way = record.way("award", game=one.game, to=to, ref=article)
        cure = f"The rulebook proposes a forfeit by {one.team}: {way}"
    elif one.then == "coordinator" and all(
        reason.code == "blocked_that_day" for reason in one.reasons
    ):
        cure = f"Look whether that was before the game; the coordinator decides ({article})."
    elif one.then == "coordinator":
        cure = f"The coordinator decides ({article})."
    else:
        cure = f"The result stands ({article}); it could be found until {day(one.last_day)}."
        level = "note"
    return Fault(
        code="ineligible",
        place=Place(file=log_name(one.game)),
        says=says,
        value=str(one.game),
        cure=cure,
        level=level,
    )


def _fees(read: SeasonFolder) -> Iterator[Fault]:
    """Note what each team still owes for forfeits, and for which games."""
    ledger = fees_of(read.season, read.fees)
    for team in ledger.open_by_team():
        yield Fault(
            code="fee_open",
            place=Place(file=FEES_FILE),
            says=str(owed_words(ledger, team, read.season.rulebook)),
            value=team,
            cure="Write what is paid or waived into fees.csv.",
            level="note",
        )


def _of_game(sheet: GameSheet, code: str, says: str, cure: str) -> Fault:
    game = sheet.fixture.game
    return Fault(
        code=code,
        place=Place(file=log_name(game)),
        says=says,
        value=str(game),
        cure=cure,
        level="doubt",
    )


def _perhaps_one(read: SeasonFolder) -> Iterator[Fault]:
    """Doubt two rows of one league that may be one person, where one of them has no code."""
    leagues = dict(leagues_of(read.season.league))
    for row, other in alike_rows(read.rosters, leagues):
        yield _alike(row.team, row.player, other.team, other.player)


def _alike(team: TeamId, one: Player, other_team: TeamId, other: Player) -> Fault:
    return Fault(
        code="perhaps_one_person",
        place=Place(file=ROSTERS_FILE, column="person"),
        says=f"{one.name} of {team} and {other.name} of {other_team} may be one person.",
        cure="If so, give both rows the same code in the column person; if not, one each.",
        level="doubt",
    )
