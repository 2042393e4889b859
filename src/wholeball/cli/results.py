"""Has the command that shows the results of a season."""

from datetime import date, datetime
from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console
from rich.table import Table

from wholeball.cli.folder import Folder
from wholeball.cli.output import print_json, print_lines, print_remarks, printing_refusals
from wholeball.files.exports import Format
from wholeball.files.folder_record import FolderRecord
from wholeball.reports.dates import day
from wholeball.reports.not_as_played import Change
from wholeball.usecases.show_results import (
    ResultLine,
    ResultsShown,
    results_table,
    show_results,
    write_results,
)

_HEADINGS = ("Game", "Start", "Field", "Home", "Score", "Away")


def add_to(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(results)


def results(
    folder: Folder,
    night: Annotated[
        datetime | None,
        typer.Option(formats=["%Y-%m-%d"], help="Of one night, such as 2027-01-18."),
    ] = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print JSON for other programs.")
    ] = False,
    csv: Annotated[
        Path | None, typer.Option(help="A file to write them to, comma-separated.")
    ] = None,
    xlsx: Annotated[Path | None, typer.Option(help="A workbook to write them to.")] = None,
) -> None:
    """Show the results, night by night, and what does not stand as it was played."""
    record = FolderRecord(folder)
    wanted: dict[Format, Path] = {}
    if csv is not None:
        wanted["csv"] = csv
    if xlsx is not None:
        wanted["xlsx"] = xlsx
    with printing_refusals(file=record.place, as_json=as_json, writes=bool(wanted)):
        shown = show_results(record, night=None if night is None else night.date())
        written = write_results(shown, wanted)
    print_remarks(shown.remarks)
    if as_json:
        print_json(_values(shown))
        return
    _print(shown, None if night is None else night.date())
    print_lines(map(str, written))


def _print(shown: ResultsShown, night: date | None) -> None:
    console = Console(highlight=False, markup=False)
    nights: dict[str, list[ResultLine]] = {}
    for line in shown.lines:
        title = f"Round {line.round}" if line.day is None else day(line.day)
        nights.setdefault(title, []).append(line)
    for title, lines in nights.items():
        console.print(title, style="bold")
        console.print(_table(lines))
    if not shown.lines:
        print_lines([_none(shown, night)])
    print_lines(_told(one) for one in shown.changed)
    if shown.open_games:
        print_lines([f"Without a result: {', '.join(shown.open_games)}."])


def _none(shown: ResultsShown, night: date | None) -> str:
    if night is None:
        return "No game has a result."
    if shown.open_games:
        return f"No game of {day(night)} has a result."
    return f"No game is listed on {day(night)}."


def _told(change: Change) -> str:
    return f"{change.says} {change.why}".rstrip()


def _table(lines: list[ResultLine]) -> Table:
    table = Table(box=None, pad_edge=False)
    for heading in _HEADINGS:
        table.add_column(heading, justify="center" if heading == "Score" else "left")
    for line in lines:
        start = "" if line.start is None else f"{line.start:%H:%M}"
        table.add_row(
            line.result.game,
            start,
            line.field or "",
            line.result.home,
            line.score,
            line.result.away,
        )
    return table


def _values(shown: ResultsShown) -> dict[str, object]:
    table = results_table(shown)
    return {
        "league": shown.league,
        "results": [
            {name: _plain(cell) for name, cell in zip(table.header, row, strict=True)}
            for row in table.rows
        ],
        "not_as_played": [
            {
                "game": None if one.result is None else one.result.game,
                "says": f"{one.says}",
                "why": one.why,
            }
            for one in shown.changed
        ],
        "without_result": list(shown.open_games),
    }


def _plain(cell: object) -> object:
    return cell if cell is None or isinstance(cell, str | int) else f"{cell}"
