"""Draws the sizes of a field beside it: one row a size, so that no label covers another."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import sqrt
from typing import Literal

from wholeball.kernel.units import Unit, in_unit
from wholeball.pitch.plan import FieldPlan
from wholeball.reports.field_frame import (
    ACCENT,
    Frame,
    dot,
    line,
    path,
    text_width,
    words,
)

ROW = 18.0
LANE = 20.0
"""Left of the field and below it: where its length and its width stand."""
RULER = 9.0
ELBOW = 18.0
GAP = 5.0
HAIR = 0.75
TICK = 2.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """One size to be shown, and where: x and y on the field, `drop` pixels further down.

    depth: from the upper goal line to y; radius: from `centre` to (x, y); across: from -x to
    x; plain: what it is cannot be drawn from above, or is too thin.
    """

    name: str
    length: int
    kind: Literal["depth", "radius", "across", "plain"]
    x: float
    y: float
    drop: float = 0.0
    centre: tuple[float, float] = (0.0, 0.0)


def sizes_of(plan: FieldPlan, *, net: float) -> list[Size]:
    """Return the sizes that the field has, from its upper end down; `net` is in pixels."""
    found = [*_depths(plan), *_radii(plan), *_plain(plan, net), *_across(plan, net)]
    return sorted(
        (size for size in found if size.length), key=lambda size: (-size.y, size.drop)
    )


def column_width(sizes: Sequence[Size], unit: Unit) -> float:
    """Return how much room the labels need right of the field, in pixels."""
    names = max(text_width(size.name) for size in sizes)
    return RULER + ELBOW + _values_width(sizes, unit) + GAP + names


def draw_sizes(frame: Frame, sizes: Sequence[Size], unit: Unit) -> Iterator[str]:
    """Draw every size with its leader and label, then length and width of the field."""
    values = frame.right + RULER + ELBOW + _values_width(sizes, unit)
    for size, row in zip(sizes, label_rows(frame, sizes), strict=True):
        yield from _measured(frame, size)
        text = in_unit(size.length, unit)
        x, y = frame.x(size.x), frame.y(size.y) + size.drop
        elbow, start = frame.right + RULER, values - text_width(text) - GAP
        leader = f"{line(x, y, elbow, y)}L{elbow + ELBOW - GAP:.2f} {row:.2f}H{start:.2f}"
        yield path(leader, kind="leader", colour=ACCENT, width=HAIR)
        yield words(values, row, text, kind="value", anchor="end")
        yield words(values + GAP, row, size.name, kind="name")
    yield from _length(frame, unit)
    yield from _width(frame, unit, y=width_row(frame, sizes))


def label_rows(frame: Frame, sizes: Sequence[Size]) -> list[float]:
    """Return the height of each label: as near to its size as the rows above it allow."""
    wanted = [frame.y(size.y) + size.drop for size in sizes]
    rows = [wanted[0]]
    for want in wanted[1:]:
        rows.append(max(want, rows[-1] + ROW))
    rows[-1] = wanted[-1]
    for upper in range(len(rows) - 2, -1, -1):
        rows[upper] = min(rows[upper], rows[upper + 1] - ROW)
    return rows


def width_row(frame: Frame, sizes: Sequence[Size]) -> float:
    """Return the height at which the width of the field stands."""
    return frame.bottom + max(size.drop for size in sizes) + LANE


def _depths(plan: FieldPlan) -> Iterator[Size]:
    half = plan.goal_width / 2
    for name, depth, x in (
        ("goal area", plan.goal_area_depth, half + plan.goal_area_side),
        ("penalty mark", plan.penalty_mark, 0),
        ("penalty area", plan.penalty_area_depth, half + plan.penalty_area_side),
    ):
        yield Size(name=name, length=depth, kind="depth", x=x, y=plan.length - depth)


def _radii(plan: FieldPlan) -> Iterator[Size]:
    mark, middle = plan.length - plan.penalty_mark, plan.length / 2
    arc, circle = plan.penalty_arc_radius, plan.centre_circle_radius
    aslant, corner = circle / sqrt(2), plan.corner_radius / sqrt(2)
    right = plan.width / 2
    for name, radius, x, y, centre in (
        ("penalty arc", arc, 0, mark - arc, (0, mark)),
        ("centre circle", circle, aslant, middle - aslant, (0, middle)),
        ("corner arc", plan.corner_radius, right - corner, corner, (right, 0)),
    ):
        yield Size(name=name, length=radius, kind="radius", x=x, y=y, centre=centre)


def _plain(plan: FieldPlan, net: float) -> Iterator[Size]:
    side, post = plan.width / 2, plan.goal_width / 2
    yield Size(name="lines", length=plan.line_width, kind="plain", x=side, y=plan.length / 4)
    yield Size(
        name="goal height", length=plan.goal_height, kind="plain", x=post, y=0, drop=net / 2
    )


def _across(plan: FieldPlan, net: float) -> Iterator[Size]:
    drop = net / 2
    for name, side, depth in (
        ("goal", 0, plan.goal_height),
        ("goal area", plan.goal_area_side, plan.goal_area_depth),
        ("penalty area", plan.penalty_area_side, plan.penalty_area_depth),
    ):
        if depth:
            drop += ROW
            wide = plan.goal_width + 2 * side
            yield Size(name=name, length=wide, kind="across", x=wide / 2, y=0, drop=drop)


def _values_width(sizes: Sequence[Size], unit: Unit) -> float:
    return max(text_width(in_unit(size.length, unit)) for size in sizes)


def _measured(frame: Frame, size: Size) -> Iterator[str]:
    """Draw what the size is measured from and to."""
    x, y = frame.x(size.x), frame.y(size.y) + size.drop
    match size.kind:
        case "depth":
            ruler = frame.right + RULER
            draws = line(frame.right, frame.top, ruler, frame.top)
            draws += line(ruler, frame.top, ruler, y)
            yield path(draws, kind="size", colour=ACCENT, width=HAIR)
            yield dot(ruler, y, kind="size", colour=ACCENT, radius=TICK / 1.5)
        case "radius":
            start = (frame.x(size.centre[0]), frame.y(size.centre[1]))
            yield path(line(*start, x, y), kind="size", colour=ACCENT, width=1.25)
            yield dot(x, y, kind="size", colour=ACCENT, radius=TICK / 1.5)
        case "across":
            left = frame.x(-size.x)
            draws = line(left, y, x, y)
            for end in (left, x):
                draws += line(end, frame.bottom, end, y + TICK)
            yield path(draws, kind="size", colour=ACCENT, width=HAIR)
        case "plain":
            yield dot(x, y, kind="size", colour=ACCENT, radius=TICK / 1.5)


def _length(frame: Frame, unit: Unit) -> Iterator[str]:
    """Draw the length of the field on its left, read from below upwards."""
    x, middle = frame.left - LANE / 2, (frame.top + frame.bottom) / 2
    text = in_unit(frame.plan.length, unit)
    half = text_width(text) / 2 + GAP
    draws = line(x, frame.top, x, middle - half) + line(x, middle + half, x, frame.bottom)
    for y in (frame.top, frame.bottom):
        draws += line(x - TICK, y, frame.left, y)
    yield path(draws, kind="size", colour=ACCENT, width=HAIR)
    turn = f"rotate(-90 {x:.2f} {middle:.2f})"
    yield f'<g transform="{turn}">{words(x, middle, text, kind="value", anchor="middle")}</g>'


def _width(frame: Frame, unit: Unit, *, y: float) -> Iterator[str]:
    """Draw the width of the field below it."""
    middle = (frame.left + frame.right) / 2
    text = in_unit(frame.plan.width, unit)
    half = text_width(text) / 2 + GAP
    draws = line(frame.left, y, middle - half, y) + line(middle + half, y, frame.right, y)
    for x in (frame.left, frame.right):
        draws += line(x, frame.bottom, x, y + TICK)
    yield path(draws, kind="size", colour=ACCENT, width=HAIR)
    yield words(middle, y, text, kind="value", anchor="middle")
