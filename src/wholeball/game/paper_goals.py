"""Finds a moment for each goal of a paper scorecard, where the card itself has none.

The moments say nothing about the game: they are the same for the same card, far enough apart
that no goal looks entered twice, and a mercy rule ends the game only where the card's score has
been reached. A goal that is added or taken out leaves the others where they are, as a rule.
"""

from collections.abc import Iterable, Sequence
from itertools import chain
from typing import Final, NamedTuple

from wholeball.game.goals import DOUBLE_TAP_SECONDS
from wholeball.game.happenings import Goal
from wholeball.game.paper import PaperCard, PaperGoal
from wholeball.game.rules import GameRules
from wholeball.game.state import Score
from wholeball.kernel.identity import Side

APART: Final = DOUBLE_TAP_SECONDS + 1
ROOM: Final = 2 * APART - 1
"""Seconds of a period that each of its goals needs, wherever the others stand."""
_BASES: Final[dict[Side, int]] = {"home": 2, "away": 3}
_NEVER: Final = 100_000


class PlacedGoal(NamedTuple):
    """A goal and its clock within its period."""

    clock: int
    goal: Goal


def seconds_of(rules: GameRules, period: int) -> int:
    """Return how long a period is; overtime that the rulebook does not have is as a period."""
    return rules.seconds_of(period) or rules.period_seconds


def played_seconds(card: PaperCard, rules: GameRules, period: int) -> int:
    """Return how much of a period was played: all, or all but what was left at its end."""
    is_last = period == len(card.scores)
    left = card.minutes_left if is_last and card.minutes_left else 0
    return max(seconds_of(rules, period) - 60 * left, 0)


def placed_goals(card: PaperCard, rules: GameRules) -> dict[int, tuple[PlacedGoal, ...]]:
    """Return the goals of each period, each at a clock of its own, in the order of the clock."""
    found = {}
    lead = 0
    for period, score in enumerate(card.scores, start=1):
        found[period] = _Period(card, rules, period, lead).goals()
        lead += score.home - score.away
    return found


class _Period:
    """Places the goals of one period, which begins with a lead of the home side."""

    def __init__(self, card: PaperCard, rules: GameRules, period: int, lead: int) -> None:
        self._rules = rules
        self._period = period
        self._lead = lead
        self._played = played_seconds(card, rules, period)
        is_mercy = card.ended == "mercy" and period == len(card.scores)
        self._is_timed = is_mercy and card.minutes_left is not None
        named = [goal for goal in card.goals if goal.period == period and _is_told(goal)]
        self._timed = [goal for goal in named if goal.minute is not None]
        self._free = _untimed(card.scores[period - 1], named)

    def goals(self) -> tuple[PlacedGoal, ...]:
        placed = sorted(self._spread(), key=lambda one: one.clock)
        if not self._timed and (self._is_timed or self._outlasts_mercy(placed)):
            return self._held_back() or tuple(placed)
        return tuple(placed)

    def _spread(self) -> list[PlacedGoal]:
        """Place timed goals in their minutes, and the others at clocks of their side's own."""
        placed: list[PlacedGoal] = []
        for goal in self._timed:
            clock = 60 * ((goal.minute or 1) - 1)
            placed.append(PlacedGoal(_clear(clock, placed, most=_NEVER), _goal(goal)))
        counts: dict[Side, int] = {"home": 0, "away": 0}
        for free in self._free:
            counts[free.side] += 1
            part, whole = _fraction(counts[free.side], _BASES[free.side])
            clock = self._played * part // whole
            placed.append(PlacedGoal(_clear(clock, placed, most=self._played), free))
        return placed

    def _outlasts_mercy(self, placed: Sequence[PlacedGoal]) -> bool:
        """Tell whether a mercy rule would have ended the game before one of its goals."""
        leads = self._leads(one.goal for one in placed)
        return any(
            one.clock >= self._true_from(lead) for one, lead in zip(placed, leads, strict=False)
        )

    def _held_back(self) -> tuple[PlacedGoal, ...]:
        """Place goals before a mercy rule is true by those before; empty where none can be.

        The lead is kept as small as can be until the last goal, which is the one that ends a
        game whose end is known.
        """
        goals = self._evened()
        leads = self._leads(goals)
        clocks: list[int] = []
        later = self._played + APART
        for index in range(len(goals) - 1, -1, -1):
            even = self._played * (index + 1) // (len(goals) + 1)
            if self._ends_it(index, goals, leads):
                even = self._played
            later = min(even, self._true_from(leads[index]) - 1, later - APART)
            clocks.append(later)
        if later < 1:
            return ()
        return tuple(map(PlacedGoal, reversed(clocks), goals))

    def _ends_it(self, index: int, goals: Sequence[Goal], leads: Sequence[int]) -> bool:
        """Tell whether the goal of that index is the one that the mercy rule waited for."""
        is_last = index == len(goals) - 1
        return is_last and self._is_timed and self._true_from(leads[-1]) < self._played

    def _evened(self) -> list[Goal]:
        """Return the goals so that the side that is behind scores as long as it has goals."""
        waiting = {side: [goal for goal in self._free if goal.side == side] for side in _BASES}
        lead, order = self._lead, []
        while any(waiting.values()):
            behind: Side = "away" if lead > 0 else "home"
            ahead: Side = "home" if lead > 0 else "away"
            side = behind if waiting[behind] else ahead
            order.append(waiting[side].pop(0))
            lead += 1 if side == "home" else -1
        return order

    def _leads(self, goals: Iterable[Goal]) -> list[int]:
        """Return the home side's lead before each goal, and after the last."""
        leads = [self._lead]
        for goal in goals:
            leads.append(leads[-1] + (1 if goal.side == "home" else -1))
        return leads

    def _true_from(self, lead: int) -> int:
        """Return the clock from which a mercy rule is true with that lead."""
        if self._period > self._rules.periods:
            return _NEVER
        seconds = self._rules.period_seconds
        whole = seconds * (self._rules.periods - self._period + 1)
        clocks = (whole - most for least, most in self._rules.ladder if abs(lead) >= least)
        found = min(clocks, default=_NEVER)
        return found if found <= seconds else _NEVER


def _is_told(goal: PaperGoal) -> bool:
    """Tell whether a card says more of a goal than the score does."""
    return goal.minute is not None or goal.number is not None or goal.own or goal.penalty


def _untimed(score: Score, named: Sequence[PaperGoal]) -> list[Goal]:
    """Return the goals without a minute: those whose scorer is known, then the others."""
    free = [_goal(goal) for goal in named if goal.minute is None]
    home = score.home - sum(goal.side == "home" for goal in named)
    away = score.away - sum(goal.side == "away" for goal in named)
    unnamed = [Goal(side=side, timed=False) for side in _BASES]
    return free + unnamed[:1] * home + unnamed[1:] * away


def _goal(goal: PaperGoal) -> Goal:
    return Goal(
        side=goal.side,
        number=goal.number,
        own=goal.own,
        penalty=goal.penalty,
        timed=goal.minute is not None,
    )


def _fraction(count: int, base: int) -> tuple[int, int]:
    """Return where the goal of that count stands in its period, as a part of a whole.

    The digits of the count, read backwards, are the digits after the point: each new goal
    falls into the largest gap. Source: van der Corput, Verteilungsfunktionen (1935).
    """
    part, whole = 0, 1
    while count:
        count, digit = divmod(count, base)
        part, whole = part * base + digit, whole * base
    return part, whole


def _clear(clock: int, placed: Sequence[PlacedGoal], *, most: int) -> int:
    """Return the first clock from there, and then from the start, that is apart from others."""
    taken = [one.clock for one in placed]
    wanted = max(clock, 1)
    for one in chain(range(wanted, most + 1), range(1, wanted)):
        if all(abs(one - other) >= APART for other in taken):
            return one
    message = f"no room for a goal among {len(taken)} within {most} s; the card was not checked"
    raise ValueError(message)
