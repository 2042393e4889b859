"""Has the commands that make the result of a game official, and that open it again."""

from collections.abc import Iterable, Iterator
from typing import Annotated

import typer

from wholeball.cli.author import asked_name, author
from wholeball.cli.folder import Folder
from wholeball.cli.output import print_lines, print_remarks
from wholeball.cli.typed_in import refusals
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.identity import GameId
from wholeball.league.record import LeagueRecord
from wholeball.reports.game_words import game_words
from wholeball.usecases.certify_game import Decided, certify_game, reopen_game

Game = Annotated[str, typer.Argument(metavar="GAME", help="The game, as timetable.csv has it.")]
By = Annotated[
    str,
    typer.Option(
        "--by", metavar="NAME", help="Who decides it; asked for where it is left out."
    ),
]


def add_to(app: typer.Typer) -> None:
    """Add the commands to the command line."""
    app.command()(certify)
    app.command()(reopen)


def certify(
    folder: Folder,
    game: Game,
    by: By = "",
    reason: Annotated[
        str,
        typer.Option(
            "--reason", metavar="TEXT", help="Why, where a question about it is still open."
        ),
    ] = "",
) -> None:
    """Make the result of a game official; what comes later changes nothing."""
    record = FolderRecord(folder)
    with refusals(record):
        name = asked_name(by)
        decided = certify_game(record, GameId(game), by=author(name), reason=reason)
    print_remarks(decided.remarks)
    print_lines(_certified(decided, record, name))


def reopen(
    folder: Folder,
    game: Game,
    reason: Annotated[str, typer.Option("--reason", metavar="TEXT", help="Why.")],
    by: By = "",
) -> None:
    """Open the result of a game again; all that is recorded counts, until it is certified."""
    record = FolderRecord(folder)
    with refusals(record):
        by_name = author(asked_name(by))
        decided = reopen_game(record, GameId(game), by=by_name, reason=reason)
    print_remarks(decided.remarks)
    told = decided.told
    print(f"Game {told.game}, {told.home} v {told.away}")
    print(f"The result is open again. {game_words(told).counts_as}")
    print(f"To certify it: wholeball certify {record.place} {game} --by NAME")


def _certified(decided: Decided, record: LeagueRecord, by: str) -> Iterator[str]:
    told, words = decided.told, game_words(decided.told)
    yield f"Game {told.game}, {told.home} v {told.away}"
    yield " ".join(str(one) for one in (*words.stands, words.counts_as))
    yield from (f"{period}: {score}" for period, score in words.periods)
    if words.kicks is not None:
        yield f"Kicks from the mark: {words.kicks}"
    yield from _section("Yellow and red", words.cards, "None was shown.")
    yield from _section("Signed", words.signatures, "Nobody signed.")
    open_ones = [one.says for one in words.questions if one.answers]
    if open_ones:
        yield from _section("Certified all the same, with these questions open", open_ones, "")
    yield f"Certified by {by}. Whatever is entered from now on does not change it."
    yield (
        f"To open it again: wholeball reopen {record.place} {told.game} --by NAME --reason TEXT"
    )


def _section(heading: str, lines: Iterable[object], nothing: str) -> Iterator[str]:
    yield heading
    found = [f"  {line}" for line in lines]
    yield from found or [f"  {nothing}"]
