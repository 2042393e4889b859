"""States the sizes of one field of play, and refuses sizes that contradict each other."""

from collections.abc import Iterator
from dataclasses import dataclass, fields
from operator import attrgetter
from typing import Final, Literal

from wholeball.kernel.faults import WholeballError
from wholeball.kernel.units import NONE, Tenths, in_unit, tenths
from wholeball.pitch.kept_away import Distances

MAY_BE_NONE = frozenset(
    {
        "goal_area_depth",
        "goal_area_side",
        "penalty_area_depth",
        "penalty_area_side",
        "penalty_mark",
        "penalty_arc_radius",
        "centre_circle_radius",
        "corner_radius",
    }
)
SHOWN_BY: Final = {
    "centre_circle_radius": "distances.kick_off",
    "penalty_arc_radius": "distances.penalty",
}
"""The distance that each of these lines shows (IFAB Laws of the Game, Laws 1.7, 8.1, 14.1)."""
HALVED = ("length", "width", "goal_width")
WIDEST_LINE = tenths(5, "in")
"""12 cm or 5 in, the wider of the two (IFAB Laws of the Game, Laws 1.2 and 1.10)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradiction:
    """Sizes that do not go together: the keys of `FieldPlan`, why, all in words, and the cure.

    A "fault" cannot be laid out; a "doubt" can, but the Laws or common sense speak against it.
    """

    keys: tuple[str, ...]
    because: str
    says: str
    cure: str
    level: Literal["fault", "doubt"] = "fault"


class ImpossibleField(WholeballError):
    """A field that cannot be laid out, with every contradiction in it."""

    def __init__(self, contradictions: tuple[Contradiction, ...]) -> None:
        """Take at least one contradiction of level "fault"."""
        self.contradictions = contradictions
        super().__init__(
            " ".join(f"{each.says} {each.cure}" for each in contradictions),
            fix="No field was laid out.",
            code="impossible_field",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldPlan:
    """The sizes of a field; in tenths of a millimetre, and 0 for a marking it does not have.

    Length, width, areas and radii go to the outer edge of the line; goal width and height are
    inside the frame; the sides of the areas are counted from the inside of each post; the
    penalty mark is counted from the goal line.

    Raises:
        ImpossibleField: sizes contradict each other; all of them are named.
    """

    length: Tenths
    width: Tenths
    line_width: Tenths
    goal_width: Tenths
    goal_height: Tenths
    post_width: Tenths
    goal_area_depth: Tenths = NONE
    goal_area_side: Tenths = NONE
    penalty_area_depth: Tenths = NONE
    penalty_area_side: Tenths = NONE
    penalty_mark: Tenths = NONE
    penalty_arc_radius: Tenths = NONE
    centre_circle_radius: Tenths = NONE
    corner_radius: Tenths = NONE
    distances: Distances

    def __post_init__(self) -> None:
        found = tuple(each for each in contradictions(self) if each.level == "fault")
        if found:
            raise ImpossibleField(found)


def contradictions(plan: FieldPlan) -> tuple[Contradiction, ...]:
    """Return all that contradicts; an empty tuple is a pass. A plan that exists has doubts only."""
    return (
        *_sizes(plan),
        *_goal(plan),
        *_areas(plan),
        *_marks(plan),
        *_circles(plan),
        *_laws(plan),
    )


def _sizes(plan: FieldPlan) -> Iterator[Contradiction]:
    sizes = (field.name for field in fields(plan) if field.name != "distances")
    distances = tuple(f"distances.{field.name}" for field in fields(plan.distances))
    for key in (*sizes, *distances):
        least = 0 if key in MAY_BE_NONE or key in distances else 1
        if _size(plan, key) < least:
            yield _clash(plan, key, because="is too small", cure="Give a length above 0.")
    for key in HALVED:
        if getattr(plan, key) % 2:
            yield _clash(
                plan, key, because="has no exact half", cure="Give it to whole 0.2 millimetres."
            )


def _goal(plan: FieldPlan) -> Iterator[Contradiction]:
    if plan.goal_width + 2 * plan.post_width > plan.width:
        yield _clash(
            plan,
            "goal_width",
            "width",
            because="leave no room for the goal and its posts",
            cure="Make the goal narrower or the field wider.",
        )


def _areas(plan: FieldPlan) -> Iterator[Contradiction]:
    for area in ("goal_area", "penalty_area"):
        depth, side = f"{area}_depth", f"{area}_side"
        if (getattr(plan, depth) > 0) != (getattr(plan, side) > 0):
            yield _clash(
                plan,
                depth,
                side,
                because="describe half an area",
                cure="Give both, or 0 for both where there is no such area.",
            )
        if plan.goal_width + 2 * getattr(plan, side) > plan.width:
            yield _clash(
                plan,
                side,
                "width",
                because="make the area wider than the field",
                cure="Bring the side of the area nearer to the post.",
            )
        if 2 * getattr(plan, depth) >= plan.length - plan.line_width:
            yield _clash(
                plan,
                depth,
                "length",
                because="make the area reach the halfway line",
                cure="Make the area less deep.",
            )
    yield from _nesting(plan)


def _nesting(plan: FieldPlan) -> Iterator[Contradiction]:
    if plan.penalty_area_depth == 0:
        return
    for part in ("depth", "side"):
        inner, outer = f"goal_area_{part}", f"penalty_area_{part}"
        if getattr(plan, inner) > getattr(plan, outer):
            yield _clash(
                plan,
                inner,
                outer,
                because="put the goal area outside the penalty area",
                cure="Make the goal area smaller.",
            )


def _marks(plan: FieldPlan) -> Iterator[Contradiction]:
    if 2 * plan.penalty_mark >= plan.length:
        yield _clash(
            plan,
            "penalty_mark",
            "length",
            because="put the penalty mark on the halfway line or beyond",
            cure="Bring the mark nearer to the goal.",
        )
    if 0 < plan.penalty_area_depth < plan.penalty_mark:
        yield _clash(
            plan,
            "penalty_mark",
            "penalty_area_depth",
            because="put the penalty mark outside the penalty area",
            cure="Check both.",
            level="doubt",
        )
    if plan.penalty_arc_radius > 0:
        yield from _arc(plan)


def _arc(plan: FieldPlan) -> Iterator[Contradiction]:
    for key in ("penalty_mark", "penalty_area_depth"):
        if getattr(plan, key) == 0:
            yield _clash(
                plan,
                "penalty_arc_radius",
                key,
                because="leave the penalty arc nothing to be drawn from",
                cure="Give both, or no arc.",
            )
    rest = plan.penalty_area_depth - plan.penalty_mark
    if plan.penalty_arc_radius <= abs(rest):
        yield _clash(
            plan,
            "penalty_arc_radius",
            "penalty_area_depth",
            because="keep the arc from meeting the line of the penalty area",
            cure="Make the radius larger, or give 0 for no arc.",
        )
    half = plan.goal_width // 2 + plan.penalty_area_side
    if plan.penalty_arc_radius**2 > half**2 + rest**2:
        yield _clash(
            plan,
            "penalty_arc_radius",
            "penalty_area_side",
            because="make the arc wider than the penalty area",
            cure="Make the radius smaller.",
        )


def _circles(plan: FieldPlan) -> Iterator[Contradiction]:
    for key in ("centre_circle_radius", "corner_radius"):
        if 2 * getattr(plan, key) > min(plan.width, plan.length):
            yield _clash(
                plan,
                key,
                "width" if plan.width <= plan.length else "length",
                because="make the circle wider than the field",
                cure="Make the radius smaller.",
            )
    for key, kept in SHOWN_BY.items():
        distance = _size(plan, kept)
        if distance and _size(plan, key) not in {0, distance}:
            yield _clash(
                plan,
                key,
                kept,
                because="let the line show another distance than players must keep",
                cure="Make them equal (IFAB Laws of the Game, Laws 8.1 and 14.1), or keep both.",
                level="doubt",
            )


def _laws(plan: FieldPlan) -> Iterator[Contradiction]:
    if plan.length <= plan.width:
        yield _clash(
            plan,
            "length",
            "width",
            because="make the touchline no longer than the goal line",
            cure="Law 1.3 of the Laws of the Game asks for a longer touchline.",
            level="doubt",
        )
    for key in ("line_width", "post_width"):
        if getattr(plan, key) > WIDEST_LINE:
            yield _clash(
                plan,
                key,
                because="is more than 12 cm or 5 in",
                cure="Laws 1.2 and 1.10 of the Laws of the Game allow no more.",
                level="doubt",
            )
    if plan.line_width != plan.post_width:
        yield _clash(
            plan,
            "line_width",
            "post_width",
            because="differ",
            cure="Law 1.10 of the Laws of the Game wants goal line and posts equally wide.",
            level="doubt",
        )


def _clash(
    plan: FieldPlan,
    *keys: str,
    because: str,
    cure: str,
    level: Literal["fault", "doubt"] = "fault",
) -> Contradiction:
    values = [f"{key} {in_unit(_size(plan, key), 'm')}" for key in keys]
    return Contradiction(
        keys=keys,
        because=because,
        says=f"{' and '.join(values)} {because}.",
        cure=cure,
        level=level,
    )


def _size(plan: FieldPlan, key: str) -> Tenths:
    size: Tenths = attrgetter(key)(plan)
    return size
