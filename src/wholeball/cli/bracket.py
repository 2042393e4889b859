"""Has the command about the play-offs: who goes on and why, the bracket, and its draw."""

from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import Annotated

import typer

from wholeball.cli.output import print_json, print_lines, print_refused, print_remarks
from wholeball.kernel.faults import WholeballError
from wholeball.reports.bracket_words import (
    change_line,
    compared_lines,
    conflict_line,
    game_line,
    left_out_line,
    meet_lines,
    moved_line,
    parted_line,
    seed_line,
    side_text,
    undecided_line,
)
from wholeball.reports.figures import question_name
from wholeball.season.bracket_run import Line
from wholeball.season.qualified import Seed
from wholeball.season.result import Result
from wholeball.usecases.show_bracket import BracketShown, show_bracket


def add_to(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(bracket)


def bracket(
    folder: Annotated[Path, typer.Argument(help="The season folder.")],
    draw: Annotated[
        bool, typer.Option("--draw", help="Write bracket.csv; a draw is made once.")
    ] = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print JSON for other programs.")
    ] = False,
    svg: Annotated[Path | None, typer.Option(help="A file for a picture of it.")] = None,
) -> None:
    """Show who goes on to the play-offs and why, and their bracket."""
    try:
        shown = show_bracket(folder, draw=draw, svg=svg)
    except WholeballError as refused:
        writes = draw or svg is not None
        print_refused(refused, file=str(folder), as_json=as_json, writes=writes)
        raise typer.Exit(1) from refused
    print_remarks(shown.remarks)
    if as_json:
        print_json(_values(shown))
        return
    print_lines(_lines(shown))
    print_lines(str(path) for path in shown.written)


def _lines(shown: BracketShown) -> Iterator[str]:
    if shown.season.rulebook.play_offs.qualify == "none":
        yield "The rulebook has no play-offs."
        return
    yield f"{shown.season.league.name}: who goes on"
    if shown.left:
        games = "1 game has" if shown.left == 1 else f"{shown.left} games have"
        yield f"As it stands now: {games} no result yet."
    yield from _qualified(shown)
    yield ""
    yield "The bracket, as drawn" if shown.drawn else "The bracket, not drawn yet"
    rounds = max((one.game.round for one in shown.lines), default=0)
    yield from (f"  {game_line(one, rounds=rounds)}" for one in shown.lines)
    if shown.changes:
        yield ""
        yield "The draw stands. Drawn anew, it would change:"
        yield from (f"  {change_line(one)}" for one in shown.changes)
    if shown.conflicts:
        yield ""
        yield "People who could not do what a game would ask:"
        yield from (f"  {conflict_line(one)}" for one in shown.conflicts)


def _qualified(shown: BracketShown) -> Iterator[str]:
    found = shown.qualified
    yield from (f"  {seed_line(one)}" for one in found.seeds)
    yield from compared_lines(found)
    below = found.seeds[1:]
    for one, other in zip(found.seeds, below, strict=False):
        yield f"  {parted_line(one, other, found.record)}"
    yield from (moved_line(one) for one in shown.seeding.moved)
    yield from meet_lines(shown.seeding)
    if found.left_out:
        yield "Not going on:"
        yield from (f"  {left_out_line(one)}" for one in found.left_out)
    yield from map(undecided_line, found.undecided)


def _values(shown: BracketShown) -> dict[str, object]:
    found = shown.qualified
    record = found.record
    return {
        "league": shown.season.league.name,
        "games_left": shown.left,
        "seeds": [_seed_values(one) for one in found.seeds],
        "left_out": [asdict(one) for one in found.left_out],
        "undecided": [list(teams) for teams in found.undecided],
        "compared": {
            "per_game": record.per_game,
            "games": [record.least, record.most],
            "dropped": [asdict(one) for one in record.dropped],
        },
        "moved": [asdict(one) for one in shown.seeding.moved],
        "meet": [list(pair) for pair in shown.seeding.meet],
        "drawn": list(shown.drawn),
        "changes": [asdict(one) for one in shown.changes],
        "games": [_line_values(one) for one in shown.lines],
        "conflicts": [
            {"games": list(one.games), "kind": one.kind, "says": conflict_line(one)}
            for one in shown.conflicts
        ],
        "written": [str(path) for path in shown.written],
    }


def _seed_values(one: Seed) -> dict[str, object]:
    by = None if one.separation is None else one.separation.by
    return {
        "seed": one.seed,
        "team": one.team,
        "pool": one.pool,
        "place": one.place,
        "record": {**one.row._asdict(), "difference": one.row.difference},
        "before_the_next_by": one.parted,
        "figure": None if by is None else question_name(by),
    }


def _line_values(line: Line) -> dict[str, object]:
    result = line.result
    return {
        "game": line.game.game,
        "round": line.game.round,
        "for_third": line.game.for_third,
        "home": side_text(line.game.home, line.home),
        "away": side_text(line.game.away, line.away),
        "possible_home": sorted(line.possible_home),
        "possible_away": sorted(line.possible_away),
        "state": line.state,
        "winner": line.winner,
        "played_as": None if result is None else result.game,
        "how": None if result is None else result.how,
        "score": None if result is None else _home_first(line, result, _goals(result)),
        "kicks": None if result is None else _home_first(line, result, result.kicks),
    }


def _goals(result: Result) -> tuple[int, int] | None:
    """Return the goals of a game, None where the rulebook scores one that was given up."""
    is_scored = result.how in ("played", "awarded")
    return (result.home_goals, result.away_goals) if is_scored else None


def _home_first(line: Line, result: Result, of: tuple[int, int] | None) -> list[int] | None:
    """Return figures of the game as played in the order of the bracket's sides."""
    if of is None:
        return None
    return list(of if result.home == line.home else reversed(of))
