"""Searches rules for a smallest clash: some that cannot all hold, though any fewer can."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from wholeball.planning.problem import TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.solvers.timetable import places, sat
from wholeball.solvers.timetable.parts import asked, built
from wholeball.solvers.timetable.sat import Limits

WORK: Final = 2.0
"""How long one set of rules is tried, in CP-SAT's own measure."""
OF_TEAMS: Final = ("absent", "block", "not_at", "fixed", "never_at_once", "games_on")
"""The kinds by which teams ask for something; they are let go of last, so that they are named."""


def clash(problem: TimetableProblem) -> tuple[str, ...] | None:
    """Return the names of rules that cannot all hold; None where no clash is proven.

    There are none of them where games do not even fit by themselves.

    Large groups are let go of first, then rules one by one; what teams ask for comes last.
    """
    rules = sorted(problem.rules, key=lambda one: one.kind in OF_TEAMS)
    if _can_hold(problem, rules) is not False:
        return None
    size = max(1, len(rules) // 2)
    while True:
        rules = _without_groups(problem, rules, size)
        if size == 1:
            return tuple(one.rule for one in rules)
        size = max(1, min(size, len(rules)) // 2)


def _without_groups(problem: TimetableProblem, rules: Sequence[Rule], size: int) -> list[Rule]:
    """Let go of each group of so many rules without which the rest still clash."""
    kept = list(rules)
    for first in range(0, len(rules), size):
        group = rules[first : first + size]
        fewer = [one for one in kept if one not in group]
        if len(fewer) < len(kept) and _can_hold(problem, fewer) is False:
            kept = fewer
    return kept


def can_hold(problem: TimetableProblem) -> bool | None:
    """Tell whether games fit in by all rules, fields apart; None where that takes too long."""
    return _can_hold(problem, problem.rules)


def _can_hold(problem: TimetableProblem, rules: Sequence[Rule]) -> bool | None:
    """Tell whether rules can all hold; None where the time is too short to know."""
    question = asked(replace(problem, rules=tuple(rules)))
    if not all(question.free.values()):
        return False
    build = built(question, places.starts(question))
    answer = sat.solved(build.rows, Limits(workers=1, work=WORK))
    if answer.status == "impossible":
        return None if build.is_narrower else False
    return True if answer.values else None
