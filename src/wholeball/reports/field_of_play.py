"""Lays out the field of play that a rulebook states."""

from wholeball.kernel.length import Length, system_of
from wholeball.kernel.units import Tenths
from wholeball.pitch.plan import FieldPlan
from wholeball.rulebook.book import Rulebook


def field_plan(book: Rulebook) -> FieldPlan:
    """Return a rulebook's field with its sizes in the system it is measured in.

    Raises:
        ImpossibleField: sizes contradict each other; all of them are named.
    """
    field, areas, goal = book.field, book.field.areas, book.field.goal
    system = system_of(field.unit)

    def size(length: Length) -> Tenths:
        return length.measured(system).tenths

    return FieldPlan(
        length=size(field.length),
        width=size(field.width),
        line_width=size(field.lines_most),
        goal_width=size(goal.width),
        goal_height=size(goal.height),
        post_width=size(goal.posts_most),
        goal_area_depth=size(areas.goal_area),
        goal_area_side=size(areas.goal_area),
        penalty_area_depth=size(areas.penalty_area),
        penalty_area_side=size(areas.penalty_area),
        penalty_mark=size(areas.penalty_mark),
        penalty_arc_radius=size(areas.penalty_arc),
        centre_circle_radius=size(field.centre_circle),
        corner_radius=size(field.corner_arc),
        restart_distance=size(book.free_kick.distance),
    )
