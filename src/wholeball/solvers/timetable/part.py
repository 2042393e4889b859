"""Says what a kind of rule is to a model: where it lets games be, and what it adds."""

from collections.abc import Callable
from dataclasses import dataclass

from wholeball.solvers.timetable.build import Build
from wholeball.solvers.timetable.question import Read, Where

Adds = Callable[[Build, Read], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """The model part of a kind.

    `where` says which slots the kind takes from games or makes dear; `adds` puts in what else
    it asks, `by_night` what it asks where only nights are decided: the same, less, or nothing.
    """

    kind: str
    where: Where | None = None
    adds: Adds | None = None
    by_night: Adds | None = None
