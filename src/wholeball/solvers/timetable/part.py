"""Says what a kind of rule is to a model: where it lets games be, and what it adds."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from wholeball.planning.rule import Rule
from wholeball.solvers.timetable.build import Build
from wholeball.solvers.timetable.question import Read, Where

Adds = Callable[[Build, Read], None]
Elastic = Callable[[Rule], Rule]


def as_wish(rule: Rule) -> Rule:
    """Return a must as a wish: each time it is not met costs one."""
    return replace(rule, strength="wish", cost=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """The model part of a kind.

    `where` says which slots the kind takes from games or makes dear; `adds` puts in what else
    it asks, `by_night` what it asks where only nights are decided: the same, less, or nothing.
    `elastic` loosens a must of the kind so that it can give way; None where none can, since
    no plan makes sense without it, or there are wishes of the kind only.
    """

    kind: str
    where: Where | None = None
    adds: Adds | None = None
    by_night: Adds | None = None
    elastic: Elastic | None = None
