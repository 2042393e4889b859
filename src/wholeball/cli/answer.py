"""Has the command that answers an open question of a game."""

from collections.abc import Iterator
from typing import Annotated

import typer

from wholeball.cli.author import asked_name, author
from wholeball.cli.folder import Folder
from wholeball.cli.output import print_lines, print_remarks
from wholeball.cli.typed_in import refusals
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.kernel.text import visible
from wholeball.reports.game_words import game_words
from wholeball.usecases.answer_questions import (
    Open,
    Said,
    answer_question,
    game_to_answer,
    open_questions,
)


def add_to(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command("answer")(answer)


def answer(
    folder: Folder,
    game: Annotated[
        str, typer.Argument(metavar="GAME", help="The game, as timetable.csv has it.")
    ],
    by: Annotated[
        str,
        typer.Option("--by", metavar="NAME", help="Who answers; asked for where left out."),
    ] = "",
    question: Annotated[
        int, typer.Option("--question", metavar="NUMBER", help="Which question, by its number.")
    ] = 0,
    gives: Annotated[
        str,
        typer.Option("--answer", metavar="ANSWER", help="counts, does_not_count, or as_it_is."),
    ] = "",
    reason: Annotated[str, typer.Option("--reason", metavar="TEXT", help="Why.")] = "",
) -> None:
    """List the open questions of a game, and answer one of them with a reason."""
    record = FolderRecord(folder)
    with refusals(record):
        to = game_to_answer(record, GameId(game))
        open_ones = open_questions(to)
        print_lines([f"Game {to.game}, {to.home} v {to.away}"])
        if not open_ones:
            print("No question is open.")
            return
        print_lines(_listed(open_ones))
        chosen = _chosen(open_ones, question or _number(input("Which, by its number: ")))
        known = " or ".join(name for name, _ in chosen.answers)
        said = answer_question(
            to,
            chosen.question,
            gives or input(f"Answer, {known}: ").strip(),
            reason=reason or visible(input("Reason: ")),
            by=author(asked_name(by)),
        )
    print_remarks(said.remarks)
    print_lines(_told(said))


def _listed(found: tuple[Open, ...]) -> Iterator[str]:
    for number, one in enumerate(found, start=1):
        cites = f" ({one.cites})" if one.cites else ""
        yield f"{number}. {one.says} {one.stands}{cites}"
        yield from (f"   {name}: {does}" for name, does in one.answers)


def _number(typed: str) -> int:
    return int(typed) if typed.strip().isascii() and typed.strip().isdigit() else 0


def _chosen(found: tuple[Open, ...], number: int) -> Open:
    if not 1 <= number <= len(found):
        raise WholeballError(
            f"There is no question of that number; {len(found)} are open.",
            fix=f"Give a number from 1 to {len(found)}.",
            code="range",
        )
    return found[number - 1]


def _told(said: Said) -> Iterator[str]:
    words = game_words(said.told)
    yield " ".join(str(one) for one in (*words.stands, words.counts_as))
    left = len(said.left)
    still = "No question is open any more." if not left else f"Still open: {left}."
    yield f"1 entry written. {still}"
