"""Has the command about odds: who is surely in or out, and how likely the others are to go on."""

from typing import Annotated, Final

import typer

from wholeball.cli.folder import Folder
from wholeball.cli.output import printing_refusals
from wholeball.files.folder_record import FolderRecord
from wholeball.season.shares import SEASONS, Drawing

SEED: Final = 1


def add_to(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(odds)


def odds(
    folder: Folder,
    seasons: Annotated[
        int, typer.Option(min=100, max=1_000_000, help="How many seasons to simulate.")
    ] = SEASONS,
    seed: Annotated[
        int, typer.Option(min=0, help="Another seed draws other seasons; the same the same.")
    ] = SEED,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print JSON for other programs.")
    ] = False,
) -> None:
    """Show who is surely in or out of the play-offs, and the odds of the others."""
    record = FolderRecord(folder)
    from wholeball.cli.odds_told import (  # noqa: PLC0415 - its solver takes a second to import
        tell_odds,
    )

    with printing_refusals(file=record.place, as_json=as_json):
        tell_odds(record, Drawing(seed=seed, seasons=seasons), as_json=as_json)
