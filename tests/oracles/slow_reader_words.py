"""Holds what every chapter of the slow reader uses: a situation, an answer, spots and drops.

A is the side that acts, offends, touched the ball last or takes the restart; B is the other.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from wholeball.rulebook.book import Rulebook

SIDE_OF: Final = {"A": "B", "B": "A"}
NEAR_GOAL: Final = {
    "goal_area_line": "goal_area_line_nearest",
    "penalty_area_line": "penalty_area_line_nearest",
    "penalty_mark": "penalty_mark",
    "where_it_happened": "offence",
}
"""Where an attackers' indirect kick in the goal area is taken, by the rulebook's value."""


class NotAskedError(Exception):
    """A fact that the reader needs is no part of the situation."""


class Situation:
    """The facts of a situation, asked for by name, and the rulebook it falls under."""

    def __init__(self, facts: Mapping[str, str], book: Rulebook) -> None:
        """Keep the facts and the rulebook."""
        self._facts = facts
        self.book = book

    def __call__(self, name: str) -> str:
        """Return the value of a fact.

        Raises:
            NotAskedError: the situation does not say.
        """
        if name not in self._facts:
            raise NotAskedError(name)
        return self._facts[name]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What play goes on with, whether a goal counts, and what is shown to whom."""

    restart: str
    taker: str = "none"
    spot: str = "none"
    goal: str = "none"
    sanction: str = "none"
    whom: str = "none"

    def costing(self, sanction: str, whom: str) -> "Answer":
        """Return the same answer with something shown to somebody."""
        return replace(self, sanction=sanction, whom=whom if sanction != "none" else "none")


PLAY_ON: Final = Answer(restart="play_on")
UNCHANGED: Final = Answer(restart="unchanged", spot="same_place")
RESULT_STANDS: Final = Answer(restart="natural")
ABANDON: Final = Answer(restart="abandon")
PERIOD_OVER: Final = Answer(restart="period_over")


def goal_for(side: str) -> Answer:
    """A goal counts, and the side that conceded it kicks off (Laws 8.1 and 10.1)."""
    conceded = SIDE_OF[side]
    return Answer(restart="kick_off", taker=conceded, spot="centre_mark", goal=side)


def corner() -> Answer:
    """B gets a corner kick (Law 17)."""
    return Answer(restart="corner_kick", taker="B", spot="corner_nearest")


def goal_kick() -> Answer:
    """B gets a goal kick (Law 16)."""
    return Answer(restart="goal_kick", taker="B", spot="goal_area")


def throw_in(spot: str) -> Answer:
    """B gets a throw-in (Law 15)."""
    return Answer(restart="throw_in", taker="B", spot=spot)


def again(kind: str) -> Answer:
    """A takes the restart again, where it was (a mark for the kicks that have one)."""
    marks = {"kick_off": "centre_mark", "penalty_kick": "penalty_mark"}
    return Answer(restart="retake", taker="A", spot=marks.get(kind, "same_place"))


def waiting(kind: str) -> Answer:
    """The restart that was being taken waits and is then taken as before (Law 8)."""
    return replace(UNCHANGED, spot=again(kind).spot)


def penalty() -> Answer:
    """B gets a penalty kick (Law 14)."""
    return Answer(restart="penalty_kick", taker="B", spot="penalty_mark")


def free_kick(case: Situation, kind: str, taker: str = "B") -> Answer:
    """A free kick where it happened, unless a goal area moves it (Law 13.2)."""
    takers_own = {"A": "own", "B": "opp"}[taker]
    where = "neither" if _is_far_from_goal_areas(case) else case("goal_area")
    if where == "neither":
        spot = "offence"
    elif where == takers_own:
        spot = "goal_area"
    elif kind == "indirect_free_kick":
        spot = NEAR_GOAL[case.book.free_kick.near_goal.spot]
    else:
        spot = "offence"
    return Answer(restart=kind, taker=taker, spot=spot)


def _is_far_from_goal_areas(case: Situation) -> bool:
    """Tell whether it happened at the penalty mark, or by a thrower on the touchline."""
    if case("moment") != "taking":
        return False
    is_thrower = case("kind") == "throw_in" and case("seen") == "near"
    return case("kind") == "penalty_kick" or is_thrower


def indirect(case: Situation, taker: str = "B") -> Answer:
    """An indirect free kick on the field."""
    return free_kick(case, "indirect_free_kick", taker)


def direct(case: Situation, taker: str = "B") -> Answer:
    """A direct free kick on the field."""
    return free_kick(case, "direct_free_kick", taker)


def drop(case: Situation) -> Answer:
    """A dropped ball, as the Laws have it since 2025/26 (Law 8.2)."""
    at = case("ball_at")
    if at != "elsewhere":
        keeper = "toucher" if at == "own_area" else "other"
        return Answer(restart="dropped_ball", taker=keeper, spot="goalkeeper_in_penalty_area")
    taker = "other" if case("would") == "other" else "toucher"
    return Answer(restart="dropped_ball", taker=taker, spot="ball_when_stopped")
