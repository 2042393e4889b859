"""Finds which teams can be held against which: those that a chain of officials links."""

from collections.abc import Hashable, Iterable, Sequence
from typing import TypeVar

_T = TypeVar("_T", bound=Hashable)
_R = TypeVar("_R", bound=Hashable)


def groups(
    teams: Sequence[_T], rated: Iterable[tuple[_T, _R]]
) -> tuple[tuple[tuple[_T, ...], frozenset[_R]], ...]:
    """Return the connected groups of teams and their raters, in the order of `teams`.

    Two teams are of one group where the same rater rated both, or a chain of such teams leads
    from one to the other. Between groups a difference of teams cannot be told from one of
    raters. A team that nobody rated is in none.
    """
    raters: dict[_T, set[_R]] = {}
    by_rater: dict[_R, set[_T]] = {}
    for team, rater in rated:
        raters.setdefault(team, set()).add(rater)
        by_rater.setdefault(rater, set()).add(team)
    found = []
    seen: set[_T] = set()
    for team in teams:
        if team in raters and team not in seen:
            reached = _reached(team, raters, by_rater)
            seen |= reached
            found.append(
                (
                    tuple(one for one in teams if one in reached),
                    frozenset(rater for one in reached for rater in raters[one]),
                )
            )
    return tuple(found)


def _reached(start: _T, raters: dict[_T, set[_R]], by_rater: dict[_R, set[_T]]) -> set[_T]:
    reached, waiting = {start}, [start]
    while waiting:
        team = waiting.pop()
        linked = {one for rater in raters[team] for one in by_rater[rater]} - reached
        reached |= linked
        waiting += linked
    return reached
