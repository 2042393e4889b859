"""Has the command about the play-offs: who goes on and why, the bracket, and its draw."""

from collections.abc import Iterator
from pathlib import Path
from typing import Annotated

import typer

from wholeball.cli.bracket_values import bracket_values
from wholeball.cli.folder import Folder
from wholeball.cli.output import print_json, print_lines, print_remarks, printing_refusals
from wholeball.files.folder_record import FolderRecord
from wholeball.reports.bracket_words import (
    bracket_title,
    change_line,
    compared_lines,
    conflict_line,
    game_line,
    left_out_line,
    meet_lines,
    moved_line,
    parted_line,
    seed_line,
    undecided_line,
)
from wholeball.usecases.bracket_stands import BracketStands
from wholeball.usecases.show_bracket import BracketsShown, show_bracket


def add_to(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(bracket)


def bracket(
    folder: Folder,
    division: Annotated[
        str | None, typer.Option(help="One division's bracket, where they play off apart.")
    ] = None,
    draw: Annotated[
        bool, typer.Option("--draw", help="Write bracket.csv; a draw is made once.")
    ] = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print JSON for other programs.")
    ] = False,
    svg: Annotated[Path | None, typer.Option(help="A file for a picture of it.")] = None,
) -> None:
    """Show who goes on to the play-offs and why, and the bracket of each division."""
    record = FolderRecord(folder)
    with printing_refusals(file=record.place, as_json=as_json, writes=draw or svg is not None):
        shown = show_bracket(record, division=division, draw=draw, svg=svg)
    print_remarks(shown.remarks)
    if as_json:
        print_json(bracket_values(shown))
        return
    print_lines(_lines(shown))
    print_lines(str(path) for path in shown.written)


def _lines(shown: BracketsShown) -> Iterator[str]:
    if shown.season.rulebook.play_offs.qualify == "none":
        yield "The rulebook has no play-offs."
        return
    for number, one in enumerate(shown.brackets):
        if number:
            yield ""
        yield from _bracket(one)
    if shown.conflicts:
        yield ""
        yield "People who could not do what a game would ask:"
        yield from (f"  {conflict_line(one)}" for one in shown.conflicts)


def _bracket(one: BracketStands) -> Iterator[str]:
    of = f", {one.bracket}" if one.bracket else ""
    yield f"{one.season.league.name}{of}: who goes on"
    if one.left:
        games = "1 game has" if one.left == 1 else f"{one.left} games have"
        yield f"As it stands now: {games} no result yet."
    yield from _qualified(one)
    yield ""
    title = bracket_title(one.bracket)
    yield f"{title}, as drawn" if one.drawn else f"{title}, not drawn yet"
    rounds = max((line.game.round for line in one.lines), default=0)
    yield from (f"  {game_line(line, rounds=rounds)}" for line in one.lines)
    if one.changes:
        yield ""
        yield "The draw stands. Drawn anew, it would change:"
        yield from (f"  {change_line(change)}" for change in one.changes)


def _qualified(shown: BracketStands) -> Iterator[str]:
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
