"""Has the commands that print sheets for a night at the field."""

from datetime import UTC, date, datetime
from pathlib import Path
from typing import Annotated

import typer

from wholeball.cli.award import day_of
from wholeball.cli.folder import Folder
from wholeball.cli.output import print_remarks
from wholeball.cli.paper import PaperOption
from wholeball.files.folder_record import FolderRecord
from wholeball.rulebook.sentence import counted
from wholeball.usecases.print_booklet import Paper
from wholeball.usecases.print_packet import print_packet
from wholeball.usecases.print_scorecards import Printed, print_scorecards
from wholeball.usecases.print_suspensions import print_suspensions

Night = Annotated[str, typer.Option(help="The day of the games, such as 2026-10-13.")]
On = Annotated[
    str | None,
    typer.Option("--on", metavar="DATE", help="As of this day; today otherwise."),
]

app = typer.Typer(no_args_is_help=True, help="Print sheets for a night at the field.")


@app.callback()
def sheets() -> None:
    """Print sheets for a night at the field."""


@app.command("scorecards")
def scorecards(
    folder: Folder,
    night: Night,
    paper: PaperOption = Paper.A4,
    out: Annotated[Path, typer.Option(help="The PDF to write.")] = Path("scorecards.pdf"),
) -> None:
    """Print the scorecards of a night, two to a page, and rating slips after them."""
    record = FolderRecord(folder)
    made = print_scorecards(
        record, night=_night(night), paper=paper, out=out, printed=datetime.now(UTC)
    )
    _print_games(made)


@app.command("packet")
def packet(
    folder: Folder,
    night: Night,
    paper: PaperOption = Paper.A4,
    out: Annotated[Path, typer.Option(help="The PDF to write.")] = Path("packet.pdf"),
) -> None:
    """Print a night's packet: night sheet, emergency, checks, gate lists, scorecards, stubs."""
    record = FolderRecord(folder)
    made = print_packet(
        record, night=_night(night), paper=paper, out=out, printed=datetime.now(UTC)
    )
    _print_games(made)


@app.command("suspensions")
def suspensions(
    folder: Folder,
    on: On = None,
    paper: PaperOption = Paper.A4,
    out: Annotated[Path, typer.Option(help="The PDF to write.")] = Path("suspensions.pdf"),
) -> None:
    """Print all suspensions and who is barred from which game, for staff only."""
    record = FolderRecord(folder)
    made = print_suspensions(
        record, on=day_of(on), paper=paper, out=out, printed=datetime.now(UTC)
    )
    print_remarks(made.remarks)
    barred = counted(made.barred, "time")
    print(f"{made.path}: {made.open} held now, {barred} barred from a game. For staff only.")


def _print_games(made: Printed) -> None:
    print_remarks(made.remarks)
    print(f"{made.path}: {counted(made.games, 'game')}.")


def _night(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise typer.BadParameter(f"{text!r} is no day such as 2026-10-13.") from error
