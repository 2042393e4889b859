"""Draws the timeline of a game downward, to scale, home at the left and away at the right."""

from collections.abc import Iterator
from textwrap import wrap
from typing import Final, NamedTuple
from xml.sax.saxutils import escape

from wholeball.kernel.identity import Side
from wholeball.reports.field_frame import px
from wholeball.reports.game_entries import capital
from wholeball.reports.game_told import NO_MINUTE
from wholeball.reports.timeline import Item, Kick, Stretch, Timeline, described
from wholeball.reports.timeline_marks import CUT, TEXT, fitted, label, line, mark

PAGE: Final = 390.0
"""Width of the picture in its own units: a phone's, so that there a unit is a pixel."""
MIDDLE: Final = PAGE / 2
MINUTE: Final = 10.0
"""Pixels a minute, the same in every period."""
LINE: Final = 16.0
CHANNEL: Final = 8.0
"""How far from the line a leader has come to the height of its label."""
MARK: Final = 18.0
WORDS: Final = 28.0
"""How far from the line marks and words stand."""
ROOM: Final = MIDDLE - WORDS - 2
GAP: Final = 30.0
KICK: Final = 25.0
A_ROW: Final = 14
"""Kicks from the mark in one row."""
LOOSE: Final = f"Yellow and red, {NO_MINUTE}"
SVG: Final = "http://www.w3.org/2000/svg"


class Drawn(NamedTuple):
    """Parts of a picture, and how far down they come."""

    parts: list[str]
    bottom: float


def timeline_svg(told: Timeline) -> str:
    """Return a timeline as SVG: a line a period, with breaks between, and kicks as two rows.

    Labels that would lie on each other are moved down, each with a leader to its moment. Its
    desc tells all that it shows.
    """
    drawn = _heads(told)
    for stretch in told.stretches:
        drawn = _below(drawn, _stretch(stretch, drawn.bottom, is_scaled=told.has_minutes))
    if told.loose:
        shown = _loose(told.loose, drawn.bottom, heading=LOOSE, strong=True)
        drawn = _below(drawn, Drawn(shown.parts, shown.bottom + LINE))
    if told.kicks:
        drawn = _below(drawn, _kicks(told, drawn.bottom))
    drawn = _below(drawn, _end(told, drawn.bottom))
    view = f"0 0 {px(PAGE)} {px(drawn.bottom)}"
    title = f"Timeline, {told.home} v {told.away}"
    return "\n".join(
        [
            f'<svg xmlns="{SVG}" role="img" viewBox="{view}" font-size="{px(TEXT)}">',
            f"<title>{escape(title)}</title>",
            f"<desc>{escape(described(told))}</desc>",
            *drawn.parts,
            "</svg>",
            "",
        ]
    )


def _below(above: Drawn, more: Drawn) -> Drawn:
    return Drawn([*above.parts, *more.parts], more.bottom)


def _heads(told: Timeline) -> Drawn:
    left, right = _name_lines(told.home), _name_lines(told.away)
    parts = [
        *(
            label(MIDDLE - WORDS, LINE * row, text, anchor="end", strong=True)
            for row, text in enumerate(left, start=1)
        ),
        *(
            label(MIDDLE + WORDS, LINE * row, text, strong=True)
            for row, text in enumerate(right, start=1)
        ),
    ]
    return Drawn(parts, LINE * max(len(left), len(right)) + GAP)


def _name_lines(name: str) -> list[str]:
    letters = int(ROOM / (TEXT * 0.62))
    return wrap(name, letters, max_lines=2, placeholder=CUT) or [CUT]


def _stretch(stretch: Stretch, top: float, *, is_scaled: bool) -> Drawn:
    """Draw a period to scale; where no minute of the game is known, list it without a line."""
    if not is_scaled:
        return _listed(stretch, top)
    start = top + LINE
    end = start + _down(max(stretch.seconds, stretch.reached))
    now = start + _down(stretch.reached)
    parts = [label(MIDDLE, top, stretch.name, anchor="middle", strong=True)]
    parts += _axis(start, now, end)
    bottoms: dict[Side, float] = {"home": start - LINE, "away": start - LINE}
    for item in stretch.items:
        y = start + _down(item.at.clock)
        column: Side = "home" if item.side == "home" else "away"
        bottoms[column] = max(y, bottoms[column] + LINE)
        parts += _item(item, y, bottoms[column])
    below = max(end, *bottoms.values()) + LINE
    loose = _loose(stretch.loose, below, heading=capital(NO_MINUTE))
    foot = loose.bottom
    parts.append(label(MIDDLE, foot, stretch.foot, anchor="middle"))
    return Drawn([*parts, *loose.parts], foot + GAP)


def _listed(stretch: Stretch, top: float) -> Drawn:
    parts = [label(MIDDLE, top, stretch.name, anchor="middle", strong=True)]
    loose = _loose(stretch.loose, top + LINE * 1.25, heading=capital(NO_MINUTE))
    foot = label(MIDDLE, loose.bottom, stretch.foot, anchor="middle")
    return Drawn([*parts, *loose.parts, foot], loose.bottom + GAP)


def _loose(items: tuple[Item, ...], top: float, *, heading: str, strong: bool = False) -> Drawn:
    """List, off the line, what has no minute: each side in its own column."""
    if not items:
        return Drawn([], top)
    parts = [label(MIDDLE, top, heading, anchor="middle", strong=strong)]
    rows: dict[Side, float] = {"home": top + LINE / 4, "away": top + LINE / 4}
    for item in items:
        column: Side = "home" if item.side == "home" else "away"
        way = -1 if column == "home" else 1
        rows[column] += LINE
        parts.append(mark(item.mark, MIDDLE + way * MARK, rows[column]))
        parts.append(_words(item, way, rows[column]))
    return Drawn(parts, max(rows.values()) + LINE * 1.5)


def _axis(start: float, now: float, end: float) -> Iterator[str]:
    """Draw how far the period got, and dashed what was left of its time."""
    x = px(MIDDLE)
    yield line(f"M{x} {px(start)}V{px(now)}", kind="axis", width=2)
    yield line(f"M{px(MIDDLE - 8)} {px(start)}h16", kind="bar", width=2)
    if now < end:
        yield line(f"M{x} {px(now)}V{px(end)}", kind="rest", width=1.25, dash="2 4")
    yield line(f"M{px(MIDDLE - 8)} {px(now)}h16", kind="bar", width=2)


def _item(item: Item, y: float, label_y: float) -> Iterator[str]:
    way = -1 if item.side == "home" else 1
    draws = (
        f"M{px(MIDDLE)} {px(y)}L{px(MIDDLE + way * CHANNEL)} {px(label_y)}"
        f"H{px(MIDDLE + way * (MARK - 5))}"
    )
    yield line(draws, kind="leader", width=1)
    yield mark(item.mark, MIDDLE + way * MARK, label_y)
    yield _words(item, way, label_y)


def _words(item: Item, way: int, y: float) -> str:
    return label(
        MIDDLE + way * WORDS,
        y,
        fitted(item.label, ROOM),
        anchor="end" if way < 0 else "start",
        strong=item.mark in ("goal", "loose_goal"),
    )


def _kicks(told: Timeline, top: float) -> Drawn:
    parts = [label(MIDDLE, top, "Kicks from the mark", anchor="middle", strong=True)]
    y = top + LINE * 1.5
    sides: tuple[tuple[Side, str], ...] = (("home", told.home), ("away", told.away))
    for side, name in sides:
        parts.append(label(KICK / 2, y, fitted(name, PAGE - KICK), strong=True))
        mine = [kick for kick in told.kicks if kick.side == side]
        for index, kick in enumerate(mine):
            row, column = divmod(index, A_ROW)
            parts += _kick(kick, KICK * (column + 0.8), y + LINE * (1.25 + 2.5 * row))
        y += LINE * (2.5 * -(-len(mine) // A_ROW) + 1.5)
    return Drawn(parts, y + LINE / 2)


def _kick(kick: Kick, x: float, y: float) -> Iterator[str]:
    if not kick.counts:
        yield mark("no_goal", x, y)
    else:
        yield mark("goal" if kick.scored else "miss", x, y)
    if kick.number is not None:
        yield label(x, y + LINE, f"{kick.number}", anchor="middle")


def _end(told: Timeline, top: float) -> Drawn:
    bar = line(f"M4 {px(top - LINE)}H{px(PAGE - 4)}", kind="bar", width=2)
    words = label(MIDDLE, top + 2, fitted(told.end, PAGE - 8), anchor="middle", strong=True)
    return Drawn([bar, words], top + LINE)


def _down(seconds: int) -> float:
    return max(seconds, 0) * MINUTE / 60
