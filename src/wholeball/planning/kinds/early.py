"""Has the kinds about what comes first: rounds in the order of the weeks, early starts of a night."""

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Final

from wholeball.planning.days import clock, day
from wholeball.planning.kind import AnyKind, Found, Kind, Params
from wholeball.planning.placed import Placed
from wholeball.planning.problem import TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.rulebook.sentence import counted


class Early(Params):
    """A kind with nothing more to say."""


def due_weeks(problem: TimetableProblem) -> Mapping[int, int]:
    """Return the week by which each round of the league is to be over; both count as they do.

    One round is for each week that has places, from the first on. Where rounds have more games
    than their weeks have places, each is due once there are places for it and all before it;
    what there are no weeks for is due in the last.
    """
    places = Counter(
        problem.week_of(start.night) for start, slots in problem.starts.items() for _ in slots
    )
    games = Counter(one.round for one in problem.pairings if one.pool is not None)
    due: dict[int, int] = {}
    weeks, at, room, needed = sorted(places), 0, 0, 0
    for index, number in enumerate(sorted(games)):
        needed += games[number]
        while at < len(weeks) and (at <= index or room < needed):
            room += places[weeks[at]]
            at += 1
        due[number] = weeks[at - 1] if weeks else 0
    return due


def _late(rule: Rule, params: Early, placed: Placed) -> Iterator[Found]:
    """Count by how many weeks each game of the league is after the week of its round."""
    del rule, params
    due = due_weeks(placed.problem)
    for one in placed.games:
        if one.pairing.pool is None:
            continue
        week, by = placed.problem.week_of(one.start.night), due[one.pairing.round]
        if week > by:
            late = counted(week - by, "week")
            says = f"Game {one.game} of round {one.pairing.round} is {late} after its round."
            yield Found(about=one.game, games=(one.game,), times=week - by, says=says)


def _empty(rule: Rule, params: Early, placed: Placed) -> Iterator[Found]:
    """Count the starts of a night that stay empty before one with games."""
    del rule, params
    used = {one.start for one in placed.games}
    last = {start.night: start for start in sorted(used)}
    for start in placed.problem.starts:
        if start not in used and start < last.get(start.night, start):
            when = f"{day(start.night)}, {clock(start.at)}"
            about = f"{start.night} {clock(start.at)}"
            yield Found(about=about, games=(), says=f"{when} is empty before a later start.")


EARLY: Final[tuple[AnyKind, ...]] = (
    Kind(
        name="round_by_round",
        params=Early,
        strengths=("wish",),
        says=lambda rule, params: (  # noqa: ARG005
            "Rounds are played in order, one a week from the first on, as far as there are places."
        ),
        breaks=_late,
        teams="none",
        stages=False,
    ),
    Kind(
        name="no_gap",
        params=Early,
        strengths=("wish",),
        says=lambda rule, params: (  # noqa: ARG005
            "No start of a night stays empty before one with games."
        ),
        breaks=_empty,
        teams="none",
        stages=False,
    ),
)
