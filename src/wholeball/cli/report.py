"""Has the command that reports on a season: people, games, hours, by week and division."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Annotated

import typer

from wholeball.cli.folder import Folder
from wholeball.cli.output import print_json, print_lines, print_remarks, printing_refusals
from wholeball.files.folder_record import FolderRecord
from wholeball.reports.season_report import report_lines, report_values
from wholeball.usecases.season_report import season_report


def add_to(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(report)


def report(
    folder: Folder,
    out: Annotated[
        Path | None,
        typer.Option(help="A folder for the report as a page, and as CSV and XLSX."),
    ] = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print JSON for other programs.")
    ] = False,
) -> None:
    """Report on a season: people, games, hours and forfeits, by week and division."""
    record = FolderRecord(folder)
    with printing_refusals(file=record.place, as_json=as_json, writes=out is not None):
        made = season_report(record, out=out, printed=datetime.now(UTC))
    print_remarks(made.remarks)
    if as_json:
        print_json(report_values(made.report))
        return
    print_lines(report_lines(made.report))
    print_lines(f"Written: {path}" for path in made.files)
