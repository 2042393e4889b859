"""Shows who is suspended and why, and who is not cleared to play; for staff only."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from typing import TypeAlias

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.kernel.days import day_of_season
from wholeball.kernel.identity import GameId, PersonId, TeamId
from wholeball.league.record import LeagueRecord
from wholeball.reports.fee_words import owed_words
from wholeball.reports.person_words import article_name, cause_words, still_words, unless_words
from wholeball.reports.suspensions_pdf import Names
from wholeball.season.fees import fees_of
from wholeball.season.suspension import Suspension
from wholeball.usecases.local_day import local_day
from wholeball.usecases.night_papers import names_of
from wholeball.usecases.season_people import discipline_of

_Barred: TypeAlias = dict[tuple[GameId, ...], list[str]]
"""Games that bar somebody, by those before them that would have to serve what is left."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SuspensionLine:
    """A suspension in words; `barred` says in which games to come the person may not play.

    `article` is how people cite what brought it.
    """

    person: PersonId
    name: str
    teams: str
    why: str
    still: str
    article: str
    waits: bool
    is_open: bool
    served: tuple[str, ...]
    barred: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CaptainWaits:
    """A captain who may not play until the team has settled its fees; no name where none is known."""

    name: str
    team: TeamId
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SuspensionsShown:
    """All suspensions as of a day, those that hold first, and captains who wait for a fee."""

    league: str
    on: date
    lines: tuple[SuspensionLine, ...]
    breaches: tuple[str, ...]
    waiting: tuple[CaptainWaits, ...] = ()

    @property
    def open(self) -> int:
        """How many hold."""
        return sum(one.is_open for one in self.lines)


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockLine:
    """A block at the gate, without a reason: nobody keeps one here."""

    person: PersonId
    name: str
    teams: str
    since: str
    first: date
    until: str
    holds: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class OnList:
    """A person of the rosters who may be chosen."""

    person: PersonId
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearancesShown:
    """The blocks at the gate, those that hold first, and everybody who may be blocked.

    Beside them stand the captains who wait for a fee.
    """

    league: str
    on: date
    blocks: tuple[BlockLine, ...]
    people: tuple[OnList, ...]
    waiting: tuple[CaptainWaits, ...] = ()

    @property
    def holding(self) -> int:
        """How many hold."""
        return sum(one.holds for one in self.blocks)


def show_suspensions(record: LeagueRecord, *, at: datetime) -> SuspensionsShown:
    """Return all suspensions as they stand today.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season.
    """
    read = read_folder(record)
    return suspensions_of(read, local_day(read, at))


def suspensions_of(read: SeasonFolder, on: date) -> SuspensionsShown:
    """Return all suspensions of a season as it was read."""
    found, names = discipline_of(read, on), names_of(read)
    open_ones = [one for one in found.suspensions if one.holds_on(on)]
    over = [one for one in found.suspensions if not one.holds_on(on)]
    barred: dict[PersonId, _Barred] = {}
    for game in sorted(read.timetable, key=lambda one: (one.day, one.start, one.game)):
        for one in found.barred.get(game.game, ()):
            says = f"game {game.game}, {day_of_season(game.day)}"
            barred.setdefault(one.person, {}).setdefault(one.unless, []).append(says)
    return SuspensionsShown(
        league=read.season.league.name,
        on=on,
        lines=tuple(
            _line(one, read, names, barred.get(one.person, {}), on)
            for one in (*open_ones, *over)
        ),
        breaches=tuple(
            f"Game {one.game}: {names.of(one.person, one.team)} appeared for {one.team}."
            for one in found.breaches
        ),
        waiting=tuple(_waiting(read)),
    )


def _line(
    one: Suspension, read: SeasonFolder, names: Names, barred: _Barred, on: date
) -> SuspensionLine:
    where = "everywhere" if one.league is None else f"in {one.league}"
    cause = cause_words(one, read.season.rulebook)
    holds = one.holds_on(on)
    return SuspensionLine(
        person=one.person,
        name=names.of(one.person),
        teams=names.teams(one.person),
        why=f"{cause[0].upper()}{cause[1:]}, {where}, from {day_of_season(one.day)}.",
        still=still_words(one),
        article=article_name(one.article, read.season.rulebook),
        waits=one.waits and holds,
        is_open=holds,
        served=tuple(f"game {each.game}, {day_of_season(each.day)}" for each in one.served),
        barred=tuple(_barred_words(barred, waits=one.waits)) if holds else (),
    )


def _barred_words(barred: _Barred, *, waits: bool) -> Iterator[str]:
    """Yield in which games a person may not play: surely, and unless games before them serve."""
    until = "Until the meeting is held, may" if waits else "May"
    for unless, games in barred.items():
        unsure = unless_words(unless).removeprefix(", ")
        start = (
            f"{unsure[0].upper()}{unsure[1:]}, may not play either"
            if unsure
            else f"{until} not play"
        )
        yield f"{start}: {'; '.join(games)}."


def show_clearances(record: LeagueRecord, *, at: datetime) -> ClearancesShown:
    """Return who is blocked at the gate, and nothing about why.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season.
    """
    read = read_folder(record)
    on, names = local_day(read, at), names_of(read)
    blocks = [
        BlockLine(
            person=one.person,
            name=names.of(one.person),
            teams=names.teams(one.person),
            since=day_of_season(one.since),
            first=one.since,
            until="" if one.until is None else day_of_season(one.until),
            holds=one.holds_on(on),
        )
        for one in read.not_cleared
    ]
    return ClearancesShown(
        league=read.season.league.name,
        on=on,
        blocks=tuple(sorted(blocks, key=lambda one: not one.holds)),
        people=tuple(_people(names)),
        waiting=tuple(_waiting(read)),
    )


def _waiting(read: SeasonFolder) -> Iterator[CaptainWaits]:
    """Yield the captains of teams that owe a fee, where captains wait for it."""
    ledger = fees_of(read.season, read.fees)
    for team in ledger.open_by_team() if ledger.captain_waits else ():
        captains = (one.name for one in read.rosters.get(team, ()) if one.is_captain)
        yield CaptainWaits(
            name=next(captains, ""),
            team=team,
            says=str(owed_words(ledger, team, read.season.rulebook)),
        )


def _people(names: Names) -> Iterator[OnList]:
    """Yield everybody on a roster, by name."""
    called = sorted((names.of(person), person) for person in names.lines)
    for name, person in called:
        yield OnList(person=person, says=f"{name}, {names.teams(person)}")
