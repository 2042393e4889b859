"""Has the commands that print sheets for a night at the field."""

from datetime import UTC, date, datetime
from pathlib import Path
from typing import Annotated

import typer

from wholeball.cli.output import print_remarks
from wholeball.cli.paper import PaperOption
from wholeball.usecases.print_booklet import Paper
from wholeball.usecases.print_scorecards import print_scorecards

app = typer.Typer(no_args_is_help=True, help="Print sheets for a night at the field.")


@app.callback()
def sheets() -> None:
    """Print sheets for a night at the field."""


@app.command("scorecards")
def scorecards(
    folder: Annotated[Path, typer.Argument(help="The season folder.")],
    night: Annotated[str, typer.Option(help="The day of the games, such as 2026-10-13.")],
    paper: PaperOption = Paper.A4,
    out: Annotated[Path, typer.Option(help="The PDF to write.")] = Path("scorecards.pdf"),
) -> None:
    """Print the scorecards of a night, two to a page, and rating slips after them."""
    made = print_scorecards(
        folder, night=_night(night), paper=paper, out=out, printed=datetime.now(UTC)
    )
    print_remarks(made.remarks)
    games = "1 game" if made.games == 1 else f"{made.games} games"
    print(f"{made.path}: {games}.")


def _night(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise typer.BadParameter(f"{text!r} is no day such as 2026-10-13.") from error
