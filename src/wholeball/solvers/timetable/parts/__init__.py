"""Is the registry of model parts: one a kind of rule."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from wholeball.planning.problem import TimetableProblem
from wholeball.solvers.timetable.build import Build, Places
from wholeball.solvers.timetable.part import Part
from wholeball.solvers.timetable.parts.limits import LIMITS
from wholeball.solvers.timetable.parts.order import ORDER
from wholeball.solvers.timetable.parts.pairs import PAIRS
from wholeball.solvers.timetable.parts.season import SEASON
from wholeball.solvers.timetable.parts.times import TIMES
from wholeball.solvers.timetable.question import Question

PARTS: Final[Mapping[str, Part]] = MappingProxyType(
    {part.kind: part for part in (*TIMES, *LIMITS, *PAIRS, *ORDER, *SEASON)}
)


def asked(problem: TimetableProblem) -> Question:
    """Return a question ready to be built.

    Raises:
        KeyError: it has a rule of an unknown kind.
        ValidationError: a rule has parameters that its kind has not.
    """
    wheres = {kind: part.where for kind, part in PARTS.items() if part.where is not None}
    return Question(problem, wheres)


def built(
    question: Question,
    places: Places,
    *,
    by_night: bool = False,
    is_lean: bool = True,
    missing: int | None = None,
) -> Build:
    """Return the model of a question with every rule in it."""
    build = Build(question, places, by_night=by_night, is_lean=is_lean, missing=missing)
    for read in question.rules:
        part = PARTS[read.rule.kind]
        adds = part.by_night if by_night else part.adds
        if adds is not None:
            adds(build, read)
    return build
