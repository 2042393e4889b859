"""Draws the place of each team after each round, lines told apart without colour."""

from collections import Counter
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
LEFT: Final = 20.0
LABELS: Final = 168.0
"""Room for the names at the right."""
TEXT: Final = 12.5
LETTERS: Final = 18
"""Letters of a name that fit on one line; it has two, and the whole name is in its title."""
LINE: Final = 13.0
DASHES: Final = ("none", "9 4", "2 3", "12 3 2 3", "5 2", "1 4")
SHAPES: Final = ("circle", "square", "diamond", "triangle")
REACH: Final = 4.5
_BESIDE: Final = 14.0
"""From one mark to the next where teams share a place: none hides the other."""
_SPREAD: Final = 28.0
"""The most that the marks of one shared place take, so that none runs into the names."""
SVG: Final = "http://www.w3.org/2000/svg"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spot:
    """Where a team stands after a round: the middle of the rows of all that share its place.

    It is the `turn`-th of `sharing` teams there, counted from 0.
    """

    row: float
    turn: int
    sharing: int
    place: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """One team's way through the rounds."""

    team: str
    spots: tuple[_Spot, ...]

    @property
    def places(self) -> tuple[str, ...]:
        """Its places as printed."""
        return tuple(spot.place for spot in self.spots)


def places_svg(history: Sequence[RoundTable], names: Names = AS_LISTED) -> str:
    """Return the places after each round as SVG; its desc says every place in words.

    Lines differ in dash and mark as well as by the name at the end. Teams that share a place
    stand at one height, their marks side by side; at the end each has a name of its own.
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
    spots = [_by_team(table) for table in history]
    return [
        _Run(
            team=names.get(row.team, row.team),
            spots=tuple(one[row.team] for one in spots),
        )
        for row in history[-1].standings.rows
    ]


def _by_team(table: RoundTable) -> dict[TeamId, _Spot]:
    sharing = Counter(row.place for row in table.standings.rows)
    return {
        row.team: _Spot(
            row=row.place - 1 + (sharing[row.place] - 1) / 2,
            turn=index - (row.place - 1),
            sharing=sharing[row.place],
            place=f"{row.place}{'=' if sharing[row.place] > 1 else ''}",
        )
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
    points = [
        (_x(at, rounds) + _aside(spot, rounds), _y(spot.row))
        for at, spot in enumerate(run.spots)
    ]
    dash = DASHES[index % len(DASHES)]
    kind = "run first" if index == 0 else "run"
    draws = "M" + "L".join(f"{px(x)} {px(y)}" for x, y in points)
    yield f'<path class="{kind}" d="{draws}" stroke-dasharray="{dash}"/>'
    for x, y in points:
        yield _mark(index, x, y)
    yield from _label(run, _y(index), points[-1])


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


def _label(run: _Run, y: float, end: tuple[float, float]) -> Iterator[str]:
    """Return place and name on a row of their own, led to from the mark where it is not there."""
    left, base = PAGE - LABELS + 16, y + TEXT * 0.36
    if end[1] != y:
        yield f'<path class="grid" d="M{px(end[0])} {px(end[1])}L{px(left - 6)} {px(y)}"/>'
    yield f'<text x="{px(left + 16)}" y="{px(base)}" text-anchor="end">{run.places[-1]}</text>'
    cut = "\N{HORIZONTAL ELLIPSIS}"
    shown = wrap(run.team, LETTERS, max_lines=2, placeholder=cut) or [cut]
    for number, line in enumerate(shown):
        below = base + LINE * (number - (len(shown) - 1) / 2)
        yield (
            f'<text class="team" x="{px(left + 24)}" y="{px(below)}">{escape(line)}'
            f"<title>{escape(run.team)}</title></text>"
        )


def _aside(spot: _Spot, rounds: int) -> float:
    """Return how far a mark stands beside its round, so that those sharing a place are seen."""
    room = min(_SPREAD, 0.7 * _span(rounds))
    step = min(_BESIDE, room / max(spot.sharing - 1, 1))
    return step * (spot.turn - (spot.sharing - 1) / 2)


def _y(row: float) -> float:
    return TOP + ROW * (row + 0.5)


def _span(rounds: int) -> float:
    """Return the way from one round to the next."""
    return (PAGE - LABELS - 2 * LEFT) / max(rounds - 1, 1)


def _x(index: int, rounds: int) -> float:
    return LEFT + _span(rounds) * (index if rounds > 1 else 1)
