"""Has the commands about a season folder: start one, see its standings, make its pages."""

from datetime import UTC, date, datetime
from pathlib import Path
from typing import Annotated
from urllib.parse import urlsplit

import typer

from wholeball.cli.folder import Folder
from wholeball.cli.output import print_json, print_remarks, printing_refusals
from wholeball.cli.standings import print_standings, standings_values
from wholeball.files.folder_record import FolderRecord
from wholeball.reports.shell import Link
from wholeball.usecases.make_pages import make_pages
from wholeball.usecases.show_standings import show_standings
from wholeball.usecases.start_season import start_season


def add_to(app: typer.Typer) -> None:
    """Add the commands to the command line."""
    for command in (new, standings, pages):
        app.command()(command)


def new(
    folder: Folder,
    preset: Annotated[
        str, typer.Option(help="eleven, nine, eight, seven, five_indoor or mixed.")
    ] = "eight",
    timezone: Annotated[str, typer.Option(help="An IANA time zone.")] = "America/New_York",
    first_day: Annotated[
        str | None, typer.Option(help="The first day, such as 2027-01-18; today otherwise.")
    ] = None,
) -> None:
    """Start a season: a folder with a rulebook from a preset and tables to fill in."""
    record = FolderRecord(folder)
    start = datetime.now(UTC).astimezone().date() if first_day is None else _day(first_day)
    start_season(record, preset=preset, timezone=timezone, first_day=start)
    print(
        f"{record.place} is ready. Read {record.called('README.md')}, "
        "fill in teams.csv and results.csv."
    )


def standings(
    folder: Folder,
    round_: Annotated[
        int | None, typer.Option("--round", help="After this round; the last otherwise.")
    ] = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print JSON for other programs.")
    ] = False,
    html: Annotated[
        Path | None, typer.Option(help="A folder for the pages, one a pool and round.")
    ] = None,
    svg: Annotated[
        Path | None, typer.Option(help="A folder for a picture of places by round, one a pool.")
    ] = None,
) -> None:
    """Show the standings of a season, with the reason for every place."""
    record = FolderRecord(folder)
    with printing_refusals(
        file=record.place, as_json=as_json, writes=html is not None or svg is not None
    ):
        shown = show_standings(
            record, round_=round_, html=html, svg=svg, printed=datetime.now(UTC)
        )
    print_remarks(shown.remarks)
    if as_json:
        print_json(standings_values(shown))
        return
    print_standings(shown)
    for path in shown.written:
        print(path)


def pages(
    folder: Folder,
    out: Annotated[Path, typer.Argument(help="The folder to write.")],
    back: Annotated[
        str | None,
        typer.Option(
            metavar="LABEL=HREF", help="A link on every page to what these pages belong to."
        ),
    ] = None,
) -> None:
    """Make pages of a season that open without a server: booklet, field, standings."""
    record = FolderRecord(folder)
    print(make_pages(record, out, printed=datetime.now(UTC), back=_link(back)))


def _link(text: str | None) -> Link | None:
    """Return a link that was typed; it leads to a page beside these or on the web."""
    if text is None:
        return None
    label, _, href = text.partition("=")
    scheme = urlsplit(href).scheme
    if not label or not href or scheme not in ("", "http", "https"):
        raise typer.BadParameter(f"{text!r} is no link such as League=../index.html.")
    return Link(label=label, href=href)


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise typer.BadParameter(f"{text!r} is no day such as 2027-01-18.") from error
