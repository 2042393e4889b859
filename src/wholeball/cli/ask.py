"""Has the command that asks what was seen, and rules it."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Annotated

import typer

from wholeball.cli.ask_dialogue import Dialogue, Stopped
from wholeball.cli.ask_values import question_values, ruled_values
from wholeball.cli.output import print_json, print_refused
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import WholeballError
from wholeball.reports.ruling_words import different_lines, indented, lines
from wholeball.rulebook.book import Rulebook
from wholeball.usecases.ask_ruling import Ruled, asking, phrases, rulebook_to_ask
from wholeball.usecases.propose_facts import readings
from wholeball.usecases.stated_facts import read_facts, space_of

STOPPED: int = 130
"""The status of a command that somebody stopped by Ctrl-C, as shells have it."""


def add_to(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(ask)


def ask(
    text: Annotated[
        list[str] | None, typer.Argument(help="What happened, in your own words.")
    ] = None,
    rulebook: Annotated[
        str | None,
        typer.Option(
            help="A rulebook's file, or an edition; else rulebook.toml of this folder, or else "
            "the newest Laws."
        ),
    ] = None,
    facts: Annotated[
        list[str] | None,
        typer.Option("--facts", help="Facts that are known, such as moment=open seen=offside."),
    ] = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print the ruling, or what is lacking, as JSON.")
    ] = False,
) -> None:
    """Ask what was seen, one question at a time, and say the ruling in plain words."""
    stated, said = _sorted(facts or [], text or [])
    try:
        book = rulebook_to_ask(rulebook, FolderRecord(Path()))
        known = read_facts(stated)
        if as_json:
            print_json(_values(book, known, said))
        else:
            _ask(book, known, said)
    except WholeballError as refused:
        print_refused(refused, file=rulebook or "--facts", as_json=as_json)
        raise typer.Exit(1) from refused
    except Stopped:
        print("There is no ruling yet.")
    except EOFError as ended:
        print("\nThe input ended before there was a ruling.")
        raise typer.Exit(1) from ended
    except UnicodeDecodeError as other:
        print("\nThe input is not UTF-8.")
        raise typer.Exit(1) from other
    except KeyboardInterrupt as stopped:
        print()
        raise typer.Exit(STOPPED) from stopped


def _sorted(facts: list[str], text: list[str]) -> tuple[list[str], str]:
    """Return the facts, also those that stand without the option, and the text."""
    words = [word for part in facts for word in part.split()]
    more = [word for word in text if "=" in word]
    return [*words, *more], " ".join(word for word in text if word not in more)


def _ask(book: Rulebook, known: Mapping[str, str], said: str) -> None:
    dialogue = Dialogue(ask=input, tell=print, book=book)
    space, taken = (space_of(known) if known else None), dict[str, str]()
    if space is not None:
        asking(book, space).stated(known)
    if said:
        taken, other = dialogue.confirmed(readings(said))
        space = space or other
    _tell(dialogue.ruled(known, taken, space), book)


def _tell(ruled: Ruled, book: Rulebook) -> None:
    for line in _lines(ruled, book):
        print(line)


def _lines(ruled: Ruled, book: Rulebook) -> Iterator[str]:
    yield ""
    yield "Situation"
    yield from map(indented, phrases(ruled.asked, ruled.asked, ruled.space))
    if ruled.unneeded:
        yield f"Not needed here: {', '.join(ruled.unneeded)}."
    yield f"Ruling by {book.head.name}"
    yield from lines(ruled.words)
    if ruled.different is not None:
        yield from different_lines(ruled.different.laws, ruled.different.articles)


def _values(book: Rulebook, known: Mapping[str, str], said: str) -> dict[str, object]:
    found = asking(book, space_of(known)).stated(known)
    head: dict[str, object] = {"ok": True, "rulebook": book.head.name, "facts": dict(known)}
    if isinstance(found, Ruled):
        return {**head, **ruled_values(found)}
    proposed = readings(said) if said else ()
    return {**head, **question_values(found, proposed)}
