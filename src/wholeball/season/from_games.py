"""Takes a game's result from its state, and from what was ruled about it afterwards."""

from collections import Counter
from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Final

from wholeball.game.happenings import EventId
from wholeball.game.state import CardLine, Ended, GameState
from wholeball.kernel.identity import GameId, PersonId, Side
from wholeball.league.fixture import Fixture
from wholeball.season.average import mean
from wholeball.season.result import CardCounts, How, Result
from wholeball.season.ruled import changed, holding
from wholeball.season.ruling import Ruling

_HOW: Final[dict[Ended, How | None]] = {
    "full_time": "played",
    "mercy": "played",
    "overtime": "played",
    "golden_goal": "played",
    "kicks": "played",
    "complete": "played",
    "forfeit": "forfeit",
    "default": "default",
    "double_forfeit": "double_forfeit",
    "annulled": "annulled",
    "to_coordinator": None,
}
"""How a game counts by how it ended; None where a person has still to say."""


def result_of(
    fixture: Fixture,
    state: GameState,
    rulings: Iterable[Ruling] = (),
    *,
    persons: Mapping[EventId, PersonId] | None = None,
) -> Result | None:
    """Return what a game counts as, or None while it goes on or waits for a person.

    `persons` says whom a yellow or red was shown to, by its entry, where that is known.

    A ruling about the game replaces what was played; the score played is kept beside it. One
    that it stands gives a game that waits the score it had; a game that goes on has none yet.
    """
    ruling = holding(rulings).get(fixture.game)
    how = _HOW[state.ending.how] if state.ending else None
    if how is None and ruling is None:
        return None
    if state.ending is None and ruling is not None and ruling.ruled == "stands":
        return None
    result = _as_ended(fixture, state, how or "played", persons or {})
    if ruling is None:
        return result
    played = state.score if state.by_period else None
    return changed(result, ruling, played=played, before=how)


def _as_ended(
    fixture: Fixture, state: GameState, how: How, persons: Mapping[EventId, PersonId]
) -> Result:
    stands = state.result or state.score
    by = state.ending.by if state.ending and how in ("forfeit", "default") else None
    is_otherwise = how != "played" or state.score != stands
    home, away = (cards_of(state.cards, side, persons) for side in ("home", "away"))
    home_ratings, away_ratings = _ratings(state, "home"), _ratings(state, "away")
    return Result(
        game=GameId(fixture.game),
        round=fixture.round,
        home=fixture.home,
        away=fixture.away,
        home_goals=stands.home,
        away_goals=stands.away,
        how=how,
        by=by,
        played_score=state.score if is_otherwise and state.by_period else None,
        kicks=_kicks(state, how),
        home_cards=home,
        away_cards=away,
        home_rating=mean(home_ratings),
        away_rating=mean(away_ratings),
        home_ratings=home_ratings,
        away_ratings=away_ratings,
        red_staff=frozenset(
            line.side
            for line in state.cards
            if line.colour == "red" and line.to == "team_official"
        ),
    )


def _kicks(state: GameState, how: How) -> tuple[int, int] | None:
    """Return the goals of the kicks that decided a game; none where a forfeit did so."""
    if state.kicks is None or state.kicks.winner is None or how != "played":
        return None
    return state.kicks.scored


def cards_of(
    lines: Iterable[CardLine], side: Side, persons: Mapping[EventId, PersonId] | None = None
) -> CardCounts:
    """Count a side's players by what they were shown; each counts once.

    A player is the person whom the entry was about, or the number where nobody is known. A red
    that follows from yellows counts the player there, and those yellows no more. Lines without
    either are each somebody of their own; team officials are not players.
    """
    known = persons or {}
    shown: dict[object, Counter[str]] = {}
    for index, line in enumerate(lines):
        if line.side == side and line.to != "team_official":
            number = ("unknown", index) if line.number is None else line.number
            who = known.get(line.event, number)
            shown.setdefault(who, Counter())[_kind(line)] += 1
    counts = Counter(_sum(kinds) for kinds in shown.values())
    return CardCounts(
        yellow=counts["yellow"],
        second_yellow=counts["second_yellow"],
        straight_red=counts["straight_red"],
        yellow_and_straight_red=counts["yellow_and_straight_red"],
    )


def _kind(line: CardLine) -> str:
    if line.colour == "yellow":
        return "yellow"
    return "second_yellow" if line.second_caution else "straight_red"


def _sum(kinds: Counter[str]) -> str:
    if kinds["second_yellow"]:
        return "second_yellow"
    if kinds["straight_red"]:
        return "yellow_and_straight_red" if kinds["yellow"] else "straight_red"
    return "yellow"


def _ratings(state: GameState, side: Side) -> tuple[Fraction, ...]:
    return tuple(Fraction(one.hundredths, 100) for one in state.ratings if one.side == side)
