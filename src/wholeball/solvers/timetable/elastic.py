"""Counts by how much rules must give way before there is a timetable, rule by rule.

Every kind has an elastic part, which counts the units by which a must of it gives way. The fewest
units in all are searched for in whole numbers; where a season is too large for that, or nothing
is found in the time, a relaxation of its nights says how many there are at least.
"""

from collections import defaultdict
from dataclasses import dataclass
from math import ceil
from typing import Final

from wholeball.kernel.identity import GameId
from wholeball.planning.problem import TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.rulebook.sentence import counted
from wholeball.solvers.timetable import highs, places, sat
from wholeball.solvers.timetable.build import Breaks
from wholeball.solvers.timetable.parts import asked, elastic_of, loosened
from wholeball.solvers.timetable.question import Question
from wholeball.solvers.timetable.sat import Limits

WORK: Final = 4.0
"""How long the fewest units are searched for, in CP-SAT's own measure."""
SECONDS: Final = 30.0
"""How long a relaxation may take: what it says is more than has been said already."""
COLUMNS: Final = 60_000
"""Up to how many columns a season is answered in whole numbers."""
EPS: Final = 1e-6
"""What a relaxation may be off by."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GivesWay:
    """The rules that give way, each by how much, in a timetable in which they do so least.

    Any timetable needs `least` in all, by proof. Of a relaxation alone only the rules are known
    that give way in it: their amounts are None.
    """

    breaks: tuple[tuple[Rule, int | None], ...]
    least: int

    @property
    def total(self) -> int | None:
        """How much gives way in all, where a timetable is known."""
        amounts = [amount for _, amount in self.breaks if amount is not None]
        return sum(amounts) if len(amounts) == len(self.breaks) else None


def giving_way(problem: TimetableProblem) -> GivesWay | None:
    """Return what gives way, or else what does in a relaxation; None where that has no answer.

    `problem` has musts alone.
    """
    return fewest(problem) or _relaxed(problem)


def fewest(problem: TimetableProblem) -> GivesWay | None:
    """Return what gives way in a timetable; None where none is found in the time.

    That is so where games do not fit even without rules. `problem` has musts alone.
    """
    question = asked(problem)
    everywhere = places.starts(Question(problem, {}))
    if sum(map(len, everywhere.values())) > COLUMNS:
        return None
    build = loosened(question, everywhere, _breaks(question))
    found = sat.solved(build.rows, Limits(workers=1, work=WORK))
    if build.is_wider or not found.values:
        return None
    given = build.given(found.values)
    return GivesWay(
        breaks=tuple(
            (rule, round(given[rule.rule])) for rule in problem.rules if given[rule.rule]
        ),
        least=0 if build.is_narrower else max(0, ceil(found.bound - EPS)),
    )


def in_units(rule: Rule, amount: int) -> str:
    """Say by how much a rule gives way: "2 games"."""
    return counted(amount, *elastic_of(rule).units)


def _breaks(question: Question) -> Breaks:
    """Return what games that have not been played break in which slots."""
    found: dict[GameId, list[tuple[str, int]]] = defaultdict(list)
    for read in question.rules:
        for game, mask in question.taken(read):
            if game not in question.problem.played:
                found[game].append((read.rule.rule, mask))
    return found


def _relaxed(problem: TimetableProblem) -> GivesWay | None:
    question = asked(problem)
    nights = places.nights(Question(problem, {}))
    build = loosened(question, nights, _breaks(question), by_night=True)
    try:
        found = highs.relaxed(build.rows, seconds=SECONDS)
    except TimeoutError:
        return None
    if found is None:
        return None
    given = build.given(found.values.tolist())
    return GivesWay(
        breaks=tuple((one, None) for one in problem.rules if given.get(one.rule, 0) > EPS),
        least=max(0, ceil(found.cost - EPS)),
    )
