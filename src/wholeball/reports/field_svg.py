"""Draws a field plan to scale, every marking with its size, as one SVG picture."""

from collections.abc import Iterator, Sequence
from xml.sax.saxutils import escape

from wholeball.kernel.units import Unit, in_unit
from wholeball.pitch.areas import (
    Side,
    arc_ends,
    centre_circle,
    centre_mark,
    corners,
    field_box,
    goal_area,
    penalty_area,
    penalty_mark,
)
from wholeball.pitch.markings import markings
from wholeball.pitch.plan import FieldPlan
from wholeball.pitch.shapes import Box, Point, at
from wholeball.reports.field_frame import EDGE, INK, TEXT, Frame, dot, path, px
from wholeball.reports.field_sizes import (
    LANE,
    Size,
    column_width,
    draw_sizes,
    label_rows,
    sizes_of,
    width_row,
)

PAGE = 390.0
"""Width of the picture in its own units: a phone's, so that there a unit is a pixel."""
TALLEST = 520.0
MARGIN = 4.0
NET = 7.0
"""Depth at which nets are drawn, in pixels: no plan gives it."""
SVG = "http://www.w3.org/2000/svg"
SEEN = "Seen from above, the opponents' goal at the top."
FONT = "Wholeball Text, Liberation Sans, Arial, sans-serif"


def field_svg(plan: FieldPlan, unit: Unit, *, labels: bool = True) -> str:
    """Return the field as SVG, to scale but for the depth of the nets.

    The opponents' goal is above. The picture fills the width of what it is put into; its
    `desc` says in words all that it shows, with or without `labels`.
    """
    sizes = sizes_of(plan, net=NET) if labels else []
    frame = _frame(plan, sizes, unit)
    drawn = drawn_field(frame)
    top, bottom = 0.0, frame.bottom + NET + MARGIN
    if labels:
        drawn += draw_sizes(frame, sizes, unit)
        top = min(top, label_rows(frame, sizes)[0] - TEXT)
        bottom = width_row(frame, sizes) + TEXT
    return "\n".join([*_head(plan, unit, top=top, bottom=bottom), *drawn, "</svg>", ""])


def drawn_field(frame: Frame) -> list[str]:
    """Return every line, mark and net of a field that lies in a picture."""
    return [*_lines(frame), *_marks(frame), *_nets(frame)]


def _frame(plan: FieldPlan, sizes: Sequence[Size], unit: Unit) -> Frame:
    """Make the field as large as the labels leave room for, and put the rest on both sides."""
    left = LANE if sizes else 0
    right = column_width(sizes, unit) if sizes else 0
    room = PAGE - left - right - 2 * MARGIN
    scale = min(room / plan.width, TALLEST / plan.length)
    spare = (room - plan.width * scale) / 2
    return Frame(plan=plan, scale=scale, left=MARGIN + left + spare, top=MARGIN + NET)


def _head(plan: FieldPlan, unit: Unit, *, top: float, bottom: float) -> list[str]:
    title = f"Field of play, {in_unit(plan.length, unit)} by {in_unit(plan.width, unit)}"
    says = " ".join([SEEN, *markings(plan, unit)])
    view = f"0 {px(top)} {px(PAGE)} {px(bottom - top)}"
    letters = f'font-family="{FONT}" font-size="{px(TEXT)}"'
    return [
        f'<svg xmlns="{SVG}" class="field" role="img" viewBox="{view}" {letters}>',
        f"<title>{escape(title)}</title>",
        f"<desc>{escape(says)}</desc>",
    ]


def _lines(frame: Frame) -> Iterator[str]:
    plan = frame.plan
    box = field_box(plan)
    yield _box(frame, box)
    halfway = centre_mark(plan).y
    yield path(f"M{frame.at(Point(x=box.left, y=halfway))}H{px(frame.right)}", kind="pitch")
    for end in Side:
        for area in (goal_area(plan, end), penalty_area(plan, end)):
            if area is not None:
                yield _box(frame, area)
        yield from _arcs(frame, end)
    circle = centre_circle(plan)
    if circle is not None:
        x, y, r = frame.x(0), frame.y(halfway), circle.radius * frame.scale
        yield (
            f'<circle class="pitch" cx="{px(x)}" cy="{px(y)}" r="{px(r)}" fill="none" '
            f'stroke="{EDGE}" stroke-width="1.25"/>'
        )


def _box(frame: Frame, box: Box) -> str:
    left, right, far, near = (
        px(frame.x(box.left)),
        px(frame.x(box.right)),
        px(frame.y(box.far)),
        px(frame.y(box.near)),
    )
    return path(f"M{left} {far}H{right}V{near}H{left}Z", kind="pitch")


def _arcs(frame: Frame, end: Side) -> Iterator[str]:
    """Draw the penalty arc and the two corner arcs of one end."""
    plan = frame.plan
    ends = arc_ends(plan, end)
    if ends is not None:
        large = int(plan.penalty_mark > plan.penalty_area_depth)
        sweep = int(end is Side.OWN)
        yield _arc(frame, ends[0], ends[1], plan.penalty_arc_radius, f"{large} {sweep}")
    if plan.corner_radius:
        for corner in corners(plan, end):
            r = plan.corner_radius
            on_goal_line = at(corner.x + (r if corner.x < 0 else -r), corner.y)
            on_touchline = at(corner.x, corner.y + (r if end is Side.OWN else -r))
            sweep = int((corner.x > 0) == (end is Side.OWN))
            yield _arc(frame, on_goal_line, on_touchline, r, f"0 {sweep}")


def _arc(frame: Frame, start: Point, stop: Point, radius: int, flags: str) -> str:
    r = px(radius * frame.scale)
    return path(f"M{frame.at(start)}A{r} {r} 0 {flags} {frame.at(stop)}", kind="pitch")


def _marks(frame: Frame) -> Iterator[str]:
    marks = [centre_mark(frame.plan), *(penalty_mark(frame.plan, end) for end in Side)]
    for mark in marks:
        if mark is not None:
            yield dot(frame.x(mark.x), frame.y(mark.y), kind="pitch mark")


def _nets(frame: Frame) -> Iterator[str]:
    """Draw both goals: the frame in ink, the net as a few threads."""
    half = frame.plan.goal_width / 2
    left, right = frame.x(-half), frame.x(half)
    threads = [left + (right - left) * part / 6 for part in range(1, 6)]
    for line_y, back in ((frame.top, -NET), (frame.bottom, NET)):
        mesh = "".join(f"M{px(x)} {px(line_y)}v{px(back)}" for x in threads)
        mesh += f"M{px(left)} {px(line_y + back / 2)}H{px(right)}"
        yield path(mesh, kind="mesh", width=0.4)
        yield path(
            f"M{px(left)} {px(line_y)}v{px(back)}H{px(right)}v{px(-back)}",
            kind="net",
            colour=INK,
            width=1.75,
        )
