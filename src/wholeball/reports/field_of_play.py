"""Lays out the field of play that a rulebook states."""

from typing import Final

from wholeball.kernel.length import Length, system_of
from wholeball.kernel.units import Tenths
from wholeball.pitch.kept_away import Distances
from wholeball.pitch.plan import FieldPlan
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.checks.check import value_at

STATED_BY: Final = {
    "length": "field.length",
    "width": "field.width",
    "line_width": "field.lines_most",
    "goal_width": "field.goal.width",
    "goal_height": "field.goal.height",
    "post_width": "field.goal.posts_most",
    "goal_area_depth": "field.areas.goal_area",
    "goal_area_side": "field.areas.goal_area",
    "penalty_area_depth": "field.areas.penalty_area",
    "penalty_area_side": "field.areas.penalty_area",
    "penalty_mark": "field.areas.penalty_mark",
    "penalty_arc_radius": "field.areas.penalty_arc",
    "centre_circle_radius": "field.centre_circle",
    "corner_radius": "field.corner_arc",
    "distances.free_kick": "free_kick.distance",
    "distances.kick_off": "kick_off.distance",
    "distances.corner": "corner.distance",
    "distances.penalty": "penalty.distance",
    "distances.throw_in": "throw_in.distance",
    "distances.dropped_ball": "dropped_ball.distance",
}
"""The key of a rulebook that states each size of a field."""
_KEPT: Final = "distances."


def field_plan(book: Rulebook) -> FieldPlan:
    """Return a rulebook's field with its sizes in the system it is measured in.

    Raises:
        ImpossibleField: sizes contradict each other; all of them are named.
    """
    system = system_of(book.field.unit)

    def size(key: str) -> Tenths:
        stated: Length = value_at(book, key)
        return stated.measured(system).tenths

    sizes = {name: size(key) for name, key in STATED_BY.items()}
    kept = {name.removeprefix(_KEPT): sizes.pop(name) for name in STATED_BY if _KEPT in name}
    return FieldPlan(**sizes, distances=Distances(**kept))
