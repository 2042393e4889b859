"""Has the command that enters a paper scorecard: typed in, or from a file."""

from collections.abc import Iterator
from typing import Annotated

import typer

from wholeball.cli.author import asked_name, author
from wholeball.cli.folder import Folder
from wholeball.cli.output import print_lines, print_remarks
from wholeball.cli.scorecard_dialogue import Dialogue
from wholeball.cli.typed_in import refusals
from wholeball.files.folder_record import FolderRecord
from wholeball.files.paper_card import read_card
from wholeball.game.paper import PaperCard
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.kernel.text import visible
from wholeball.reports.entered import both_changes
from wholeball.reports.game_words import game_words
from wholeball.usecases.enter_game import (
    Entered,
    GameToEnter,
    card_so_far,
    enter_card,
    game_to_enter,
    redo,
    undo,
    write_template,
)


def add_to(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(enter)


def enter(  # noqa: PLR0913, PLR0917 - the options of one command
    folder: Folder,
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
        bool,
        typer.Option(
            "--template", help="Write cards/GAME.toml, as it was entered or to be filled in."
        ),
    ] = False,
    undoes: Annotated[
        bool, typer.Option("--undo", help="Go one entering back; again, one more.")
    ] = False,
    redoes: Annotated[
        bool, typer.Option("--redo", help="Bring back what --undo took back last.")
    ] = False,
) -> None:
    """Enter a paper scorecard; entered again, it shows what stands and changes what differs."""
    record = FolderRecord(folder)
    with refusals(record, what="the card"):
        _refuse_two(from_file, template, undoes, redoes)
        to = game_to_enter(record, GameId(name))
        if template:
            print(write_template(to))
            return
        entered = _entered(to, by, from_file=from_file, undoes=undoes, redoes=redoes)
    _print(to, entered)


def _refuse_two(*given: bool) -> None:
    if sum(given) > 1:
        raise WholeballError(
            "--file, --template, --undo and --redo do not go together.",
            fix="Give one of them.",
            code="contradiction",
        )


def _entered(
    to: GameToEnter, by: str, *, from_file: bool, undoes: bool, redoes: bool
) -> Entered:
    """Take the card, or go a step back or forth; nothing is written before all is known."""
    name = asked_name(by)
    if undoes:
        return undo(to, by=author(name))
    if redoes:
        return redo(to, by=author(name))
    card = read_card(to.record, to.game, to.rules) if from_file else _typed(to)
    return enter_card(to, card, by=author(name))


def _typed(to: GameToEnter) -> PaperCard:
    print(f"Game {to.game}: {to.home} (home, h) v {to.away} (away, a). Ctrl-C writes nothing.")
    print("Enter alone takes what stands in brackets; a lone - takes an answer out.")
    dialogue = Dialogue(
        ask=input,
        tell=lambda line: print(visible(line)),
        home=to.home,
        away=to.away,
        rules=to.rules,
        was=card_so_far(to),
    )
    return dialogue.card()


def _print(to: GameToEnter, entered: Entered) -> None:
    print_remarks(entered.remarks)
    print_lines(_lines(to, entered))


def _lines(to: GameToEnter, entered: Entered) -> Iterator[str]:
    words = game_words(entered.after)
    yield f"Game {to.game}, {to.home} v {to.away}"
    if not entered.is_first:
        gone, new = both_changes(entered.before, entered.gone, entered.after, entered.new)
        yield from _section("Taken back", gone)
        yield from _section("New", new)
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
    yield f"{entries} written. {' '.join(_steps(to, entered))}"


def _steps(to: GameToEnter, entered: Entered) -> Iterator[str]:
    """Yield where undo and redo lead from here."""
    command = f"wholeball enter {to.record.place} {to.game}"
    if entered.may_redo:
        yield f"To bring back what was taken back: {command} --redo"
    if entered.may_undo:
        yield f"To go one entering back: {command} --undo"


def _section(heading: str, lines: Iterator[str] | tuple[str, ...]) -> Iterator[str]:
    found = list(lines)
    if found:
        yield heading
        yield from (f"  {line}" for line in found)
