"""Has the commands about the players of a team."""

from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Final

import typer

from wholeball.cli.award import day_of
from wholeball.cli.folder import Folder
from wholeball.cli.id_key import FoundKey, found_key
from wholeball.cli.output import (
    fault_values,
    print_json,
    print_lines,
    print_refused,
    print_remarks,
)
from wholeball.files.folder_record import FolderRecord
from wholeball.files.given_list import read_list
from wholeball.kernel.faults import MOST_SHOWN, InputFaults, WholeballError
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.sentence import counted
from wholeball.usecases.add_to_roster import Added, add_to_roster

app = typer.Typer(no_args_is_help=True, help="Look after the players of a team.")
_PARTED: Final = {",": "commas", ";": "semicolons"}


@app.callback()
def roster() -> None:
    """Look after the players of a team."""


@app.command("add")
def add(
    folder: Folder,
    file: Annotated[Path, typer.Argument(help="The list: CSV, or an .xlsx workbook.")],
    team: Annotated[str, typer.Option(help="The team, as teams.csv has it.")],
    as_json: Annotated[bool, typer.Option("--json", help="Print values.")] = False,
    dry_run: Annotated[
        bool, typer.Option("--dry-run", help="Say what would be added, and write nothing.")
    ] = False,
    on: Annotated[
        str | None,
        typer.Option("--on", metavar="DATE", help="The day it came in; today otherwise."),
    ] = None,
) -> None:
    """Add the players of a list to a team; student ids become codes and are not kept."""
    record = FolderRecord(folder)
    try:
        found = found_key(record)
        added = add_to_roster(
            record,
            read_list(file),
            team=team,
            key=found.key,
            day=day_of(on),
            dry_run=dry_run,
            before_writing=found.keep,
        )
    except WholeballError as refused:
        _print_refused(refused, record, as_json=as_json)
        raise typer.Exit(1) from refused
    if as_json:
        print_json(_values(added, team, found, dry_run=dry_run))
    else:
        print_remarks(added.remarks)
        print_lines(_told(added, team, found, dry_run=dry_run))


def _print_refused(refused: WholeballError, record: LeagueRecord, *, as_json: bool) -> None:
    """Print a refusal; of very many faults the values of the first hundred and their number."""
    if as_json and isinstance(refused, InputFaults):
        faults = fault_values(refused.faults[:MOST_SHOWN])
        count = len(refused.faults)
        print_json({"ok": False, "faults": faults, "count": count, "remarks": []})
    else:
        print_refused(refused, file=record.place, as_json=as_json, writes=True)


def _told(added: Added, team: str, found: FoundKey, *, dry_run: bool) -> Iterator[str]:
    entries = added.entries
    if entries.separator is not None:
        yield f"{entries.file}: its cells are parted by {_PARTED[entries.separator]}."
    if entries.sheet is not None:
        yield f"{entries.file}: sheet {entries.sheet!r} was read{_others(added)}."
    for one in added.new[:MOST_SHOWN]:
        number = "" if one.number is None else f"{one.number} "
        yield f"  {number}{one.name}{', captain' if one.is_captain else ''}"
    rest = len(added.new) - MOST_SHOWN
    if rest > 0:
        yield f"  ... and {rest:,} more."
    verb = "would be added to" if dry_run else "added to"
    yield f"{counted(len(added.new), 'player')} {verb} {team}, which has {added.players:,}."
    if added.already:
        yield f"{counted(added.already, 'player')} already on the roster; nothing changed."
    if entries.repeated:
        yield f"{counted(entries.repeated, 'row')} of the list stood twice and counted once."
    if found.is_new and added.new and not dry_run:
        yield f"A key for student ids was made: {found.file}. Keep a copy of it elsewhere;"
        yield "without it nobody is known again. It does not belong in the season folder."


def _others(added: Added) -> str:
    others = added.entries.other_sheets
    return f"; {counted(others, 'other sheet')} not" if others else ""


def _values(added: Added, team: str, found: FoundKey, *, dry_run: bool) -> dict[str, object]:
    is_written = bool(added.new) and not dry_run
    return {
        "ok": True,
        "team": team,
        "written": is_written,
        "added": [
            {"number": one.number, "name": one.name, "captain": one.is_captain}
            for one in added.new
        ],
        "already": added.already,
        "repeated": added.entries.repeated,
        "players": added.players,
        "separator": added.entries.separator,
        "sheet": added.entries.sheet,
        "key_made": str(found.file) if found.is_new and is_written else None,
        "remarks": fault_values(added.remarks),
    }
