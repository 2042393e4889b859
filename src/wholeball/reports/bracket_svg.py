"""Draws a bracket: names at the left, lines that join, and the seed that went on on each line.

All of it is in the colour of the text around it: what is decided is heavy, what is open thin,
so it prints in black and reads in the dark. A phone is wide enough for 64 teams.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from textwrap import wrap
from typing import Final
from xml.sax.saxutils import escape

from wholeball.kernel.identity import TeamId
from wholeball.league.fixture import From, OpenSide, Seeded
from wholeball.reports.bracket_words import game_line
from wholeball.reports.field_frame import px
from wholeball.season.bracket_run import Line

PAGE: Final = 390.0
"""Width of the picture in its own units: a phone's, so that there a unit is a pixel."""
TOP: Final = 8.0
ROW: Final = 34.0
NAMES: Final = 196.0
"""Room for seeds and names."""
TEXT: Final = 12.5
LINE: Final = 13.0
LETTERS: Final = 24
"""Letters of a name that fit on one line; it has two, and the whole name is in its title."""
SEED: Final = 20.0
THIN, HEAVY = 1.25, 2.75
SVG: Final = "http://www.w3.org/2000/svg"


@dataclass(frozen=True, slots=True, kw_only=True)
class _End:
    """Where a line of the bracket has come to, and the team on it once it is known."""

    x: float
    y: float
    team: TeamId | None


def bracket_svg(
    lines: Sequence[Line], teams: Sequence[TeamId], *, title: str = "The bracket"
) -> str:
    """Return the bracket as SVG; its desc says every game in words.

    `teams` are by seed, best first; `lines` are the games in their order.
    """
    drawing = _Drawing(lines, teams)
    told = " ".join(game_line(one, rounds=drawing.rounds) for one in lines)
    view = f"0 0 {px(PAGE)} {px(drawing.height)}"
    look = f'font-size="{px(TEXT)}" font-family="sans-serif" fill="currentColor"'
    return "\n".join(
        [
            f'<svg xmlns="{SVG}" role="img" viewBox="{view}" {look}>',
            f"<title>{escape(title)}</title>",
            f"<desc>{escape(told)}</desc>",
            *drawing.shapes(),
            "</svg>",
            "",
        ]
    )


class _Drawing:
    """Places the seeds from above, in the order in which the games join them."""

    def __init__(self, lines: Sequence[Line], teams: Sequence[TeamId]) -> None:
        self._teams = teams
        self._seeds = {team: str(seed) for seed, team in enumerate(teams, start=1)}
        self._lines = {one.game.game: one for one in lines}
        self._final = lines[-1]
        self._third = [one for one in lines if one.game.for_third]
        self._row = 0
        self.rounds = max(one.game.round for one in lines)
        self.height = TOP + ROW * (len(teams) + len(self._third))
        self._step = (PAGE - NAMES - 2 * SEED - 8) / self.rounds

    def shapes(self) -> list[str]:
        shapes: list[str] = []
        end = self._game(self._final, shapes)
        shapes += _on_line(end, self._seeds, PAGE - 4, bold=True)
        for number, line in enumerate(self._third):
            y = TOP + ROW * (len(self._teams) + number + 0.5)
            third = "open" if line.winner is None else line.winner
            shapes += _name(f"Third place: {third}", 0, y)
        return shapes

    def _game(self, line: Line, shapes: list[str]) -> _End:
        """Draw a game and all before it, and return where its line has come to."""
        ends = [self._side(side, shapes) for side in (line.game.home, line.game.away)]
        x = NAMES + SEED + line.game.round * self._step
        for end in ends:
            won = line.winner is not None and line.winner == end.team
            shapes += _on_line(end, self._seeds, x, bold=won)
        middle = (ends[0].y + ends[1].y) / 2
        for end in ends:
            won = line.winner is not None and line.winner == end.team
            shapes.append(_path(f"M{px(x)} {px(end.y)}V{px(middle)}", heavy=won))
        return _End(x=x, y=middle, team=line.winner)

    def _side(self, side: TeamId | OpenSide, shapes: list[str]) -> _End:
        if isinstance(side, From):
            return self._game(self._lines[side.game], shapes)
        if not isinstance(side, Seeded):
            raise TypeError(f"a bracket begins with seeds, not with {side}")
        y = TOP + ROW * (self._row + 0.5)
        self._row += 1
        team = self._teams[side.seed - 1]
        shapes.append(_text(SEED, y, str(side.seed), anchor="end"))
        shapes += _name(team, SEED + 8, y)
        return _End(x=NAMES, y=y, team=team)


def _on_line(end: _End, seeds: Mapping[TeamId, str], x: float, *, bold: bool) -> Iterator[str]:
    """Draw a line on from its end; the seed stands on it, save where its name stands beside."""
    yield _path(f"M{px(end.x)} {px(end.y)}H{px(x)}", heavy=bold and end.team is not None)
    if end.team is not None and end.x > NAMES:
        yield _text((end.x + x) / 2, end.y - 9, seeds[end.team], anchor="middle", bold=bold)


def _name(name: str, x: float, y: float) -> Iterator[str]:
    cut = "\N{HORIZONTAL ELLIPSIS}"
    shown = wrap(name, LETTERS, max_lines=2, placeholder=cut) or [cut]
    first = y - LINE * (len(shown) - 1) / 2
    yield f"<g><title>{escape(name)}</title>"
    for number, text in enumerate(shown):
        yield _text(x, first + LINE * number, text)
    yield "</g>"


def _text(x: float, y: float, text: str, *, anchor: str = "start", bold: bool = False) -> str:
    weight = ' font-weight="700"' if bold else ""
    base = px(y + TEXT * 0.36)
    return f'<text x="{px(x)}" y="{base}" text-anchor="{anchor}"{weight}>{escape(text)}</text>'


def _path(draws: str, *, heavy: bool) -> str:
    width = px(HEAVY if heavy else THIN)
    return (
        f'<path d="{draws}" fill="none" stroke="currentColor" stroke-width="{width}" '
        'stroke-linecap="square"/>'
    )
