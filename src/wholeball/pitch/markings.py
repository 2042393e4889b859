"""Lists every marking of a field and its size, in words."""

from collections.abc import Iterator

from wholeball.kernel.units import Unit, in_unit
from wholeball.pitch.kept_away import Distances
from wholeball.pitch.plan import FieldPlan


def markings(plan: FieldPlan, unit: Unit) -> tuple[str, ...]:
    """Return one sentence a marking, sizes in the unit; a missing marking is said to be so."""
    return (
        f"Field {in_unit(plan.length, unit)} long and {in_unit(plan.width, unit)} wide.",
        f"Lines {in_unit(plan.line_width, unit)} wide, with a halfway line and a centre mark.",
        _goals(plan, unit),
        _area(plan, unit, "Goal areas", plan.goal_area_depth, plan.goal_area_side),
        _area(plan, unit, "Penalty areas", plan.penalty_area_depth, plan.penalty_area_side),
        _sized("Penalty marks", plan.penalty_mark, unit, "from the goal line"),
        _sized("Penalty arcs", plan.penalty_arc_radius, unit, "from the penalty mark"),
        _sized("Centre circle", plan.centre_circle_radius, unit, "from the centre mark"),
        _sized("Corner arcs", plan.corner_radius, unit, "from the corner"),
        *_distances(plan.distances, unit),
    )


def _distances(distances: Distances, unit: Unit) -> Iterator[str]:
    """Say how far players keep away at each restart."""
    for who, size, where in (
        ("Opponents keep", distances.kick_off, "from the ball at kick-off"),
        ("Opponents keep", distances.free_kick, "from the ball at a free kick"),
        ("Opponents keep", distances.corner, "from the corner arc at a corner kick"),
        ("Opponents keep", distances.throw_in, "from where a throw-in is taken"),
        ("Other players keep", distances.penalty, "from the penalty mark at a penalty kick"),
        ("Other players keep", distances.dropped_ball, "from a dropped ball"),
    ):
        yield f"{who} {in_unit(size, unit) if size else 'no distance'} {where}."


def _goals(plan: FieldPlan, unit: Unit) -> str:
    inside = f"{in_unit(plan.goal_width, unit)} wide and {in_unit(plan.goal_height, unit)} high"
    return f"Goals {inside} inside, posts {in_unit(plan.post_width, unit)} wide."


def _area(plan: FieldPlan, unit: Unit, name: str, depth: int, side: int) -> str:
    if depth == 0:
        return f"No {name.lower()}."
    across = in_unit(plan.goal_width + 2 * side, unit)
    return (
        f"{name} {in_unit(depth, unit)} deep and {across} wide, "
        f"from {in_unit(side, unit)} outside each post."
    )


def _sized(name: str, size: int, unit: Unit, from_what: str) -> str:
    return f"{name} {in_unit(size, unit)} {from_what}." if size else f"No {name.lower()}."
