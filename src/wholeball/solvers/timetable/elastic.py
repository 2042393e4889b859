"""Counts by how much rules must give way before there is a timetable: each break counts one.

A must that is loosened is a wish that costs one each time it is not met, so the same model parts
say what it asks. What is left to pay is the least number of breaks.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil
from typing import Final

from wholeball.planning.check import check
from wholeball.planning.problem import TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.solvers.timetable import fields, places, sat
from wholeball.solvers.timetable.narrow import Chosen, fits
from wholeball.solvers.timetable.parts import PARTS, asked, built
from wholeball.solvers.timetable.sat import Limits

WORK: Final = 4.0
"""How long the fewest breaks are searched for, in CP-SAT's own measure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GivesWay:
    """The rules that are broken, each how often, in a timetable of few breaks.

    `least` is how many breaks there are in any timetable at least, by proof.
    """

    breaks: tuple[tuple[Rule, int], ...]
    least: int

    @property
    def total(self) -> int:
        """How many breaks there are in all."""
        return sum(times for _, times in self.breaks)


def giving_way(problem: TimetableProblem) -> GivesWay | None:
    """Return what gives way; None where nothing was found in the time, or none can.

    `problem` has musts alone.
    """
    musts = {one.rule: one for one in problem.rules}
    loose = replace(problem, rules=tuple(_loosened(problem.rules)))
    question = asked(loose)
    if not all(question.free.values()):
        return None
    while True:
        build = built(question, places.starts(question))
        answer = sat.solved(build.rows, Limits(workers=1, work=WORK))
        if not answer.values:
            return None
        chosen = Chosen(places=build.placed(answer.values), cost=answer.cost)
        if fits(question, chosen):
            break
    found = check(loose, fields.placements(question, chosen.places))
    times: dict[str, int] = {}
    for line in found.lines:
        times[line.rule] = times.get(line.rule, 0) + line.times
    return GivesWay(
        breaks=tuple((musts[name], count) for name, count in times.items()),
        least=0 if build.is_narrower else max(0, ceil(answer.bound - 1e-6)),
    )


def _loosened(rules: tuple[Rule, ...]) -> Iterator[Rule]:
    for rule in rules:
        elastic = PARTS[rule.kind].elastic
        yield rule if elastic is None else elastic(rule)
