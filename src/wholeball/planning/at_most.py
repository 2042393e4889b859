"""Says how many games a rule lets a team play at most, given the most of each of its nights."""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Callable, Mapping
from datetime import date, timedelta
from typing import Any, Final, TypeAlias

from wholeball.planning.problem import TimetableProblem

Nights: TypeAlias = Mapping[date, int]
"""The most games that a team can play on each night."""


def _whole_season(problem: TimetableProblem, params: Any, most: Nights) -> int:
    del problem, params
    return sum(most.values())


def _by_week(problem: TimetableProblem, params: Any, most: Nights) -> int:
    weeks: dict[int, int] = defaultdict(int)
    for night, here in most.items():
        weeks[problem.week_of(night)] += here
    most_a_week: int = params.most
    return sum(min(most_a_week, here) for here in weeks.values())


def _by_rest(problem: TimetableProblem, params: Any, most: Nights) -> int:
    """Return the most games on nights with so many free days between; a search over nights."""
    del problem
    nights = sorted(most)
    best = [0]
    for night in nights:
        before = bisect_right(nights, night - timedelta(days=params.days + 1))
        best.append(max(best[-1], most[night] + best[before]))
    return best[-1]


def _by_window(problem: TimetableProblem, params: Any, most: Nights) -> int:
    """Lay windows end to end over the season; the kind looks at none that reaches out of it."""
    windows: dict[int, int] = defaultdict(int)
    free = 0
    first, last = problem.first_day, problem.last_day
    is_short = (last - first).days + 1 < params.days
    for night, here in most.items():
        if is_short or not first <= night <= last:
            free += here
        else:
            windows[(night - first).days // params.days] += here
    most_a_window: int = params.most
    return free + sum(min(most_a_window, here) for here in windows.values())


LIMITS: Final[Mapping[str, Callable[[TimetableProblem, Any, Nights], int]]] = {
    "games_a_night": _whole_season,
    "games_a_week": _by_week,
    "rest_days": _by_rest,
    "games_in_days": _by_window,
}
"""How many games a limit lets a team play at most, given the most of each night."""
