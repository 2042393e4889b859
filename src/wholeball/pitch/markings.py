"""Lists every marking of a field and its size, in words."""

from wholeball.kernel.units import Unit, in_unit
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
        _distance(plan, unit),
    )


def _distance(plan: FieldPlan, unit: Unit) -> str:
    kept = in_unit(plan.restart_distance, unit) if plan.restart_distance else "no distance"
    return f"Opponents keep {kept} from the ball at a free kick."


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
