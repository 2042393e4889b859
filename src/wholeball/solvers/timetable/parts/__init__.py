"""Is the registry of model and elastic parts: one entry a kind of rule."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from wholeball.planning.problem import TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.solvers.timetable.build import Breaks, Build, Places
from wholeball.solvers.timetable.part import Elastic, Part
from wholeball.solvers.timetable.parts.early import EARLY
from wholeball.solvers.timetable.parts.limits import LIMITS
from wholeball.solvers.timetable.parts.order import ORDER
from wholeball.solvers.timetable.parts.pairs import PAIRS
from wholeball.solvers.timetable.parts.season import SEASON
from wholeball.solvers.timetable.parts.times import TIMES
from wholeball.solvers.timetable.question import Question

PARTS: Final[Mapping[str, Part]] = MappingProxyType(
    {part.kind: part for part in (*TIMES, *LIMITS, *PAIRS, *ORDER, *SEASON, *EARLY)}
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
    missing: int | None = None,
    is_wide: bool = False,
) -> Build:
    """Return the model of a question with every rule in it."""
    build = Build(question, places, by_night=by_night, missing=missing, is_wide=is_wide)
    for read in question.rules:
        part = PARTS[read.rule.kind]
        adds = part.by_night if by_night else part.adds
        if adds is not None:
            adds(build, read)
    return build


def loosened(
    question: Question, places: Places, breaks: Breaks, *, by_night: bool = False
) -> Build:
    """Return the model in which every rule may give way; its cost counts the units.

    `question` has musts alone, and `places` lets games be where rules forbid it: `breaks`.
    """
    build = Build(question, places, by_night=by_night, breaks=breaks)
    for read in question.rules:
        elastic = elastic_of(read.rule)
        adds = elastic.by_night if by_night else elastic.adds
        if adds is not None:
            adds(build, read)
    return build


def elastic_of(rule: Rule) -> Elastic:
    """Return the elastic part of a rule's kind.

    Raises:
        ValueError: rules of its kind are wishes, and give way anyway.
    """
    elastic = PARTS[rule.kind].elastic
    if elastic is None:
        raise ValueError(f"rule {rule.rule}: there is no must of the kind {rule.kind}")
    return elastic
