"""Says what a kind of rule is to a model: where it lets games be, and what it adds."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from wholeball.solvers.timetable.build import Build
from wholeball.solvers.timetable.question import Read, Where

Adds = Callable[[Build, Read], None]
GAMES: Final = ("game", "games")
PAIRS_OF_GAMES: Final = ("pair of games", "pairs of games")


@dataclass(frozen=True, slots=True, kw_only=True)
class Elastic:
    """The elastic part of a kind: how a must of it gives way, and by what.

    `units` names one unit and several. `adds` and `by_night` put in what the kind asks with a
    column that counts the units; without them, a game in a slot that the kind takes from it is
    a unit, once for each team that the rule concerns.
    """

    units: tuple[str, str]
    adds: Adds | None = None
    by_night: Adds | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """The model part of a kind.

    `where` says which slots the kind takes from games or makes dear; `adds` puts in what else
    it asks, `by_night` what it asks where only nights are decided: the same, less, or nothing.
    `elastic` is there for each kind that can be a must.
    """

    kind: str
    where: Where | None = None
    adds: Adds | None = None
    by_night: Adds | None = None
    elastic: Elastic | None = None
