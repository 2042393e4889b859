"""Has the command that enters a paper scorecard: typed in, or from a file."""

from collections.abc import Iterator
from pathlib import Path
from typing import Annotated

import typer

from wholeball.cli.author import author
from wholeball.cli.output import print_lines, print_refused, print_remarks
from wholeball.cli.scorecard_dialogue import Dialogue
from wholeball.files.paper_card import read_card
from wholeball.game.paper import PaperCard
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.reports.entered import changes
from wholeball.reports.game_words import game_words
from wholeball.usecases.enter_game import (
    Entered,
    GameToEnter,
    enter_card,
    game_to_enter,
    undo,
    write_template,
)
from wholeball.usecases.seal_entries import author_name

STOPPED: int = 130
"""The status of a command that somebody stopped by Ctrl-C, as shells have it."""


def add_to(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(enter)


def enter(
    folder: Annotated[Path, typer.Argument(help="The season folder.")],
    name: Annotated[
        str, typer.Argument(metavar="GAME", help="The game, as timetable.csv has it.")
    ],
    by: Annotated[
        str, typer.Option("--by", help="Who enters it; asked for where it is left out.")
    ] = "",
    from_file: Annotated[
        bool, typer.Option("--file", help="Take the card from cards/GAME.toml in the folder.")
    ] = False,
    template: Annotated[
        bool, typer.Option("--template", help="Write cards/GAME.toml, to be filled in.")
    ] = False,
    undoes: Annotated[
        bool, typer.Option("--undo", help="Take back what was entered last.")
    ] = False,
) -> None:
    """Enter a paper scorecard; entered again, it says and changes what differs."""
    try:
        _refuse_two(from_file=from_file, template=template, undoes=undoes)
        to = game_to_enter(folder, GameId(name))
        if template:
            print(write_template(to))
            return
        entered = _entered(to, by, from_file=from_file, undoes=undoes)
    except WholeballError as refused:
        print_refused(refused, file=str(folder), as_json=False, writes=True)
        raise typer.Exit(1) from refused
    except EOFError as ended:
        print("\nThe input ended before the card did. Nothing was written.")
        raise typer.Exit(1) from ended
    except UnicodeDecodeError as other:
        print("\nThe input is not UTF-8. Nothing was written.")
        raise typer.Exit(1) from other
    except KeyboardInterrupt as stopped:
        print("\nNothing was written.")
        raise typer.Exit(STOPPED) from stopped
    _print(to, entered)


def _refuse_two(*, from_file: bool, template: bool, undoes: bool) -> None:
    if from_file + template + undoes > 1:
        raise WholeballError(
            "--file, --template and --undo do not go together.",
            fix="Give one of them.",
            code="contradiction",
        )


def _entered(to: GameToEnter, by: str, *, from_file: bool, undoes: bool) -> Entered:
    """Take the card, or take the last one back; nothing is written before all is known."""
    name = author_name(by or input("Your name: "))
    if undoes:
        return undo(to, by=author(name))
    card = read_card(to.folder, to.game, to.rules) if from_file else _typed(to)
    return enter_card(to, card, by=author(name))


def _typed(to: GameToEnter) -> PaperCard:
    print(f"Game {to.game}: {to.home} (home, h) v {to.away} (away, a). Ctrl-C writes nothing.")
    print("Enter alone takes what stands in brackets.")
    dialogue = Dialogue(ask=input, tell=print, home=to.home, away=to.away, rules=to.rules)
    return dialogue.card()


def _print(to: GameToEnter, entered: Entered) -> None:
    print_remarks(entered.remarks)
    print_lines(_lines(to, entered))


def _lines(to: GameToEnter, entered: Entered) -> Iterator[str]:
    words = game_words(entered.after)
    yield f"Game {to.game}, {to.home} v {to.away}"
    if not entered.is_first:
        yield from _section("Taken back", changes(entered.before, entered.gone))
        yield from _section("New", changes(entered.after, entered.new))
    yield " ".join(str(one) for one in (*words.stands, words.counts_as))
    for period, score in words.periods:
        yield f"{period}: {score}"
    if words.kicks is not None:
        yield f"Kicks from the mark: {words.kicks}"
    yield from _section("Yellow and red", map(str, words.cards))
    yield from _section("Signed", map(str, words.signatures))
    yield from _section("For officials only", map(str, words.private))
    yield from _section("Questions", (f"{one.says} {one.stands}" for one in words.questions))
    count = len(entered.gone) + len(entered.new)
    if not count:
        yield "Nothing differs from what was entered before; nothing was written."
        return
    entries = "1 entry" if count == 1 else f"{count} entries"
    yield f"{entries} written. To take that back: wholeball enter {to.folder} {to.game} --undo"


def _section(heading: str, lines: Iterator[str] | tuple[str, ...]) -> Iterator[str]:
    found = list(lines)
    if found:
        yield heading
        yield from (f"  {line}" for line in found)
