"""Draws the place of each team after each round, lines told apart without colour."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from textwrap import wrap
from typing import Final
from xml.sax.saxutils import escape

from wholeball.kernel.identity import TeamId
from wholeball.reports.field_frame import px
from wholeball.reports.reasons import AS_LISTED, Names
from wholeball.season.standings import RoundTable

PAGE: Final = 390.0
"""Width of the picture in its own units: a phone's, so that there a unit is a pixel."""
ROW: Final = 30.0
TOP: Final = 30.0
LEFT: Final = 16.0
LABELS: Final = 168.0
"""Room for the names at the right."""
TEXT: Final = 12.5
LETTERS: Final = 18
"""Letters of a name that fit on one line; it has two, and the whole name is in its title."""
LINE: Final = 13.0
DASHES: Final = ("none", "9 4", "2 3", "12 3 2 3", "5 2", "1 4")
SHAPES: Final = ("circle", "square", "diamond", "triangle")
REACH: Final = 4.5
SVG: Final = "http://www.w3.org/2000/svg"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """One team's way through the rounds: its row in each table, and its places as printed."""

    team: str
    rows: tuple[int, ...]
    places: tuple[str, ...]


def places_svg(history: Sequence[RoundTable], names: Names = AS_LISTED) -> str:
    """Return the places after each round as SVG; its desc says every place in words.

    Lines differ in dash and mark as well as by the name at the end. Teams that share a place
    have a row each, since one line would hide the other.
    """
    runs = _runs(history, names)
    height = TOP + ROW * len(runs)
    return "\n".join(
        [
            *_head(history, runs, height),
            *_grid(history, height),
            *(one for index, run in enumerate(runs) for one in _run(run, index, len(history))),
            "</svg>",
            "",
        ]
    )


def _runs(history: Sequence[RoundTable], names: Names) -> list[_Run]:
    if not history:
        return []
    rows = [_by_team(table) for table in history]
    return [
        _Run(
            team=names.get(row.team, row.team),
            rows=tuple(one[row.team][0] for one in rows),
            places=tuple(one[row.team][1] for one in rows),
        )
        for row in history[-1].standings.rows
    ]


def _by_team(table: RoundTable) -> dict[TeamId, tuple[int, str]]:
    shared = {team for teams in table.standings.unresolved for team in teams}
    return {
        row.team: (index, f"{row.place}{'=' if row.team in shared else ''}")
        for index, row in enumerate(table.standings.rows)
    }


def _head(history: Sequence[RoundTable], runs: list[_Run], height: float) -> list[str]:
    rounds = ", ".join(str(table.round) for table in history)
    told = " ".join(f"{run.team}: {', '.join(run.places)}." for run in runs)
    view = f"0 0 {px(PAGE)} {px(height)}"
    return [
        f'<svg xmlns="{SVG}" role="img" viewBox="{view}" font-size="{px(TEXT)}">',
        "<title>Places by round</title>",
        f"<desc>{escape(f'Places after rounds {rounds}. {told}')}</desc>",
    ]


def _grid(history: Sequence[RoundTable], height: float) -> Iterator[str]:
    for index, table in enumerate(history):
        x = px(_x(index, len(history)))
        yield f'<path class="grid" d="M{x} {px(TOP - 8)}V{px(height - 6)}"/>'
        yield f'<text x="{x}" y="{px(TOP - 14)}" text-anchor="middle">{table.round}</text>'


def _run(run: _Run, index: int, rounds: int) -> Iterator[str]:
    points = [(_x(at, rounds), TOP + ROW * (row + 0.5)) for at, row in enumerate(run.rows)]
    dash = DASHES[index % len(DASHES)]
    kind = "run first" if index == 0 else "run"
    draws = "M" + "L".join(f"{px(x)} {px(y)}" for x, y in points)
    yield f'<path class="{kind}" d="{draws}" stroke-dasharray="{dash}"/>'
    for x, y in points:
        yield _mark(index, x, y)
    yield from _label(run, points[-1][1])


def _mark(index: int, x: float, y: float) -> str:
    """Return the mark of a team: a shape, solid for the first four and hollow for the next."""
    kind = "dot" if index // len(SHAPES) % 2 else "dot solid"
    r = REACH
    match SHAPES[index % len(SHAPES)]:
        case "circle":
            draws = f"M{px(x - r)} {px(y)}a{r} {r} 0 1 0 {2 * r} 0a{r} {r} 0 1 0 {-2 * r} 0Z"
        case "square":
            draws = f"M{px(x - r)} {px(y - r)}h{2 * r}v{2 * r}h{-2 * r}Z"
        case "diamond":
            d = 1.3 * r
            draws = f"M{px(x)} {px(y - d)}l{px(d)} {px(d)}l{px(-d)} {px(d)}l{px(-d)} {px(-d)}Z"
        case _:
            draws = f"M{px(x)} {px(y - 1.2 * r)}l{px(1.2 * r)} {px(2.2 * r)}h{px(-2.4 * r)}Z"
    return f'<path class="{kind}" d="{draws}"/>'


def _label(run: _Run, y: float) -> Iterator[str]:
    left, base = PAGE - LABELS + 16, y + TEXT * 0.36
    yield f'<text x="{px(left + 16)}" y="{px(base)}" text-anchor="end">{run.places[-1]}</text>'
    cut = "\N{HORIZONTAL ELLIPSIS}"
    shown = wrap(run.team, LETTERS, max_lines=2, placeholder=cut) or [cut]
    for number, line in enumerate(shown):
        below = base + LINE * (number - (len(shown) - 1) / 2)
        yield (
            f'<text class="team" x="{px(left + 24)}" y="{px(below)}">{escape(line)}'
            f"<title>{escape(run.team)}</title></text>"
        )


def _x(index: int, rounds: int) -> float:
    span = PAGE - LABELS - 2 * LEFT
    return LEFT + (span * index / (rounds - 1) if rounds > 1 else span)
