"""States what a game says of people: who appeared, who was shown yellow or red, and who nobody knows."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Final, Literal, NamedTuple, TypeAlias

from wholeball.game.event import Moment
from wholeball.game.happenings import EventId
from wholeball.game.state import (
    CardLine,
    GameState,
    ProtestLine,
    Question,
    Rating,
    Resumption,
)
from wholeball.kernel.identity import PersonId, Side, TeamId
from wholeball.league.fixture import Fixture
from wholeball.league.player import Rosters
from wholeball.season.result import Result
from wholeball.season.wearers import Found, Wearers, WhyUnknown

SIDES: Final[tuple[Side, Side]] = ("home", "away")
About: TypeAlias = Literal["check_in", "goal", "yellow", "red"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Appearance:
    """Somebody who was checked in, scored or was shown yellow or red as a player of a side."""

    person: PersonId | None
    team: TeamId
    side: Side
    number: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonCard:
    """A yellow or red, and whom it was shown to where that is known.

    A red is for another yellow (`second_caution`) or `straight`; `derived` follows from yellows
    that were written down. `event` is the entry that it was written down by. `night` is the
    night of the game, from 1: the second is the one on which it was resumed.
    """

    person: PersonId | None
    side: Side
    team: TeamId
    number: int | None
    colour: Literal["yellow", "red"]
    second_caution: bool = False
    derived: bool = False
    reason: str = ""
    event: EventId
    at: Moment
    night: int = 1

    @property
    def straight(self) -> bool:
        """Tell whether it is a red that no yellows brought."""
        return self.colour == "red" and not self.second_caution


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """An entry about a player whom no roster tells: which, of which side, and why not."""

    event: EventId
    side: Side
    team: TeamId
    number: int | None
    name: str
    why: WhyUnknown
    about: About


class CheckedIn(NamedTuple):
    """Whether anybody was checked in for the home side, and for the away side."""

    home: bool
    away: bool

    def of(self, side: Side) -> bool:
        """Tell whether a side's check-in was written down."""
        return self.home if side == "home" else self.away


NOBODY: Final = CheckedIn(home=False, away=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class GameSheet:
    """What one game says of people, and what a person has still to look at.

    `result` is None while it has none. `is_played` tells that there was play on the field,
    whatever the game counts as. `appeared` names each person of a side once; of a side whose
    check-in was not written down it has those only whom the scorecard names. `unknown` are the
    entries that nobody can be told from, `asked` the questions that nobody has answered.
    `resumed_on` are the days of the nights after the first, None where one is not written down.
    A game that is `to_go_on` was stopped, and is to be played on another night; one `to_rule_on`
    was broken off, and the coordinator says what it counts as.
    `protests` are those that were made, whether somebody has ruled on them or not.
    """

    fixture: Fixture
    result: Result | None
    is_played: bool
    appeared: tuple[Appearance, ...] = ()
    checked_in: CheckedIn = NOBODY
    cards: tuple[PersonCard, ...] = ()
    unknown: tuple[Unknown, ...] = ()
    asked: tuple[Question, ...] = ()
    ratings: tuple[Rating, ...] = ()
    is_certified: bool = False
    resumed_on: tuple[date | None, ...] = ()
    to_go_on: bool = False
    to_rule_on: bool = False
    protests: tuple[ProtestLine, ...] = ()

    @property
    def has_ended(self) -> bool:
        """Tell whether the game has a result."""
        return self.result is not None

    @property
    def shown_to(self) -> dict[EventId, PersonId]:
        """Whom each yellow and red was shown to, by its entry, where that is known."""
        return {one.event: one.person for one in self.cards if one.person is not None}

    def day_of(self, night: int) -> date | None:
        """Return the day of a night, None where nobody wrote it down; none is before the first."""
        first = self.fixture.day
        found = first if night == 1 else self.resumed_on[night - 2]
        return None if found is None else max(found, first)

    def people(self, side: Side) -> frozenset[PersonId]:
        """Return the persons known to have appeared for a side."""
        return frozenset(
            one.person for one in self.appeared if one.side == side and one.person is not None
        )


def sheet_of(
    fixture: Fixture,
    state: GameState,
    result: Result | None,
    rosters: Rosters,
    *,
    is_certified: bool = False,
) -> GameSheet:
    """Return what a game's state says of people, with every number put to a roster."""
    reader = _Reader(fixture, state, rosters)
    reader.read()
    return GameSheet(
        fixture=fixture,
        result=result,
        is_played=bool(state.by_period),
        appeared=tuple(reader.appeared),
        checked_in=CheckedIn(*(_is_checked_in(state, side) for side in SIDES)),
        cards=tuple(reader.cards),
        unknown=tuple(reader.unknown),
        asked=state.open_questions,
        ratings=state.ratings,
        is_certified=is_certified,
        resumed_on=tuple(
            None if one.on is None else date.fromisoformat(one.on) for one in state.resumptions
        ),
        to_go_on=state.phase == "broken_off",
        to_rule_on=state.ending is not None and state.ending.how == "to_coordinator",
        protests=state.protests,
    )


def sheet_of_result(fixture: Fixture, result: Result) -> GameSheet:
    """Return the sheet of a game of which only the result was written down: nobody is named."""
    was_played = result.how == "played" or result.played_score is not None
    return GameSheet(fixture=fixture, result=result, is_played=was_played)


def team_of(fixture: Fixture, side: Side) -> TeamId:
    """Return the team of a side."""
    return fixture.home if side == "home" else fixture.away


def _is_checked_in(state: GameState, side: Side) -> bool:
    return any(one.side == side for one in state.checked)


class _Entry(NamedTuple):
    """An entry about a player, as it was written down."""

    event: EventId
    side: Side
    number: int | None
    name: str
    about: About


class _Reader:
    """Goes through a state once; each person of a side appears once."""

    def __init__(self, fixture: Fixture, state: GameState, rosters: Rosters) -> None:
        self._state = state
        self._sides = {side: Wearers(team_of(fixture, side), rosters) for side in SIDES}
        self.appeared: list[Appearance] = []
        self.cards: list[PersonCard] = []
        self.unknown: list[Unknown] = []
        self._seen: set[tuple[Side, PersonId | int]] = set()

    def read(self) -> None:
        """Read the check-ins that name a player first: they say who wears a number here."""
        checked = [
            _Entry(one.event, one.side, one.number, one.player, "check_in")
            for one in self._state.checked
        ]
        for entry in checked:
            if entry.name:
                found = self._sides[entry.side].named(entry.name)
                if found.person is not None and entry.number is not None:
                    self._sides[entry.side].give(entry.number, found.person)
                self._appear(entry, found)
        for entry in (*(one for one in checked if not one.name), *self._scorers()):
            self._appear(entry, self._sides[entry.side].wearer(entry.number))
        for line in self._state.cards:
            self._card(line)

    def _scorers(self) -> Iterator[_Entry]:
        """Yield who scored; goals of which nobody wrote the number down say nothing."""
        for goal in self._state.goals:
            if goal.number is not None:
                side = _scorer_side(goal.side, is_own=goal.own)
                yield _Entry(goal.event, side, goal.number, "", "goal")

    def _card(self, line: CardLine) -> None:
        side = self._sides[line.side]
        entry = _Entry(line.event, line.side, line.number, "", line.colour)
        is_official = line.to == "team_official"
        found = Found(None, "team_official") if is_official else side.wearer(line.number)
        if line.to == "player":
            self._appear(entry, found)
        elif not is_official or line.colour == "red":
            self._doubt(entry, found)
        self.cards.append(
            PersonCard(
                person=found.person,
                side=line.side,
                team=side.team,
                number=line.number,
                colour=line.colour,
                second_caution=line.second_caution,
                derived=line.derived,
                reason=line.reason,
                event=line.event,
                at=line.at,
                night=_night(line, self._state.resumptions),
            )
        )

    def _appear(self, entry: _Entry, found: Found) -> None:
        self._doubt(entry, found)
        who = entry.number if found.person is None else found.person
        if who is not None:
            if (entry.side, who) in self._seen:
                return
            self._seen.add((entry.side, who))
        self.appeared.append(
            Appearance(
                person=found.person,
                team=self._sides[entry.side].team,
                side=entry.side,
                number=entry.number,
            )
        )

    def _doubt(self, entry: _Entry, found: Found) -> None:
        """Note once whom nobody can tell; a team without a roster is not asked about."""
        kept = self._sides[entry.side]
        is_known = (entry.side, entry.number) in {
            (one.side, one.number) for one in self.unknown if one.number is not None
        }
        if found.why is None or not kept.has_roster or (is_known and not entry.name):
            return
        self.unknown.append(
            Unknown(
                event=entry.event,
                side=entry.side,
                team=kept.team,
                number=entry.number,
                name=entry.name,
                why=found.why,
                about=entry.about,
            )
        )


def _night(line: CardLine, resumptions: tuple[Resumption, ...]) -> int:
    """Return the night of a yellow or red; at the moment of the stop it was shown before it."""
    return 1 + sum(one.at < line.at for one in resumptions)


def _scorer_side(side: Side, *, is_own: bool) -> Side:
    if not is_own:
        return side
    return "away" if side == "home" else "home"
