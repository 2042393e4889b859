"""Makes the page of a bracket: its picture, every game in words, and the seeds."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from wholeball.kernel.identity import GameId, TeamId
from wholeball.reports.bracket_svg import bracket_svg
from wholeball.reports.bracket_words import (
    bracket_title,
    meet_lines,
    moved_line,
    round_name,
    side_text,
)
from wholeball.reports.figures import score
from wholeball.reports.shell import Page, Shell, Spot, rendered
from wholeball.season.bracket import Seeding
from wholeball.season.bracket_run import Line
from wholeball.season.result import Result


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketTold:
    """A bracket to show; `name` is empty where the season has a single one.

    `seeding` is how a bracket came about that was not drawn yet, with `left` games to come;
    None once it is drawn. `games` are the pages of games, for those that have one.
    """

    league: str
    name: str
    lines: Sequence[Line]
    teams: Sequence[TeamId]
    left: int
    seeding: Seeding | None
    games: Mapping[GameId, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One game in words: its sides, or those that are left of them, and how it ended."""

    sides: tuple[str, ...]
    name: str
    winner: str = ""
    ended: str = ""
    score: str = ""
    href: str = ""


def bracket_page(told: BracketTold, *, shell: Shell, here: str) -> str:
    """Return the page of a bracket; it says nothing of teams that do not go on."""
    title = bracket_title(told.name)
    rounds = max(one.game.round for one in told.lines)
    return rendered(
        "bracket.html",
        Page(here=here, title=title, spot=Spot(number=f"{len(told.teams)}", label="teams")),
        shell,
        league=told.league,
        stands=_stands(told),
        picture=bracket_svg(told.lines, told.teams, title=title),
        rows=[_row(one, rounds, told.games) for one in told.lines],
        teams=told.teams,
        notes=_notes(told.seeding),
    )


def _stands(told: BracketTold) -> str:
    if told.seeding is None:
        return "As it was drawn."
    if not told.left:
        return "Not drawn yet: as the table stands."
    games = "1 game has" if told.left == 1 else f"{told.left} games have"
    return f"Not drawn yet: as the table stands, and {games} no result yet."


def _row(line: Line, rounds: int, games: Mapping[GameId, str]) -> Row:
    name = f"{line.game.game}, {round_name(line, rounds)}"
    if line.state == "walkover":
        return Row(sides=(f"{line.winner}",), name=name, ended="goes on without a game")
    if line.state == "nobody":
        sides = () if line.result is None else (f"{line.result.home}", f"{line.result.away}")
        return Row(sides=sides, name=name, ended="nobody goes on")
    if line.result is None:
        sides = side_text(line.game.home, line.home), side_text(line.game.away, line.away)
        return Row(sides=sides, name=name)
    return Row(
        sides=(f"{line.result.home}", f"{line.result.away}"),
        name=name,
        winner=f"{line.winner}" if line.winner else "",
        ended=_ended(line.result) if line.winner else "level, still to be decided",
        score=score(line.result.home_goals, line.result.away_goals)
        if _has_score(line.result)
        else "",
        href=games.get(line.result.game, ""),
    )


def _ended(result: Result) -> str:
    if not _has_score(result):
        return f"by {result.how}"
    return "" if result.kicks is None else f"kicks {score(*result.kicks)}"


def _has_score(result: Result) -> bool:
    """Tell whether goals were written down; those of a game given up are for tables alone."""
    return result.how in ("played", "awarded")


def _notes(seeding: Seeding | None) -> tuple[str, ...]:
    if seeding is None:
        return ()
    return (*map(moved_line, seeding.moved), *meet_lines(seeding))
