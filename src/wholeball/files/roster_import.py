"""Reads a list of players with their student ids, from CSV or a workbook, every fault at once."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final, NamedTuple

from wholeball.files.archive import is_archive, refused
from wholeball.files.cells import LONGEST_NAME, Column, one_line, one_of, whole
from wholeball.files.other_encoding import refuse_other_encoding
from wholeball.files.rosters import with_an_id
from wholeball.files.student_ids import mangled, student_id
from wholeball.files.table import Rows, Separator, Table, header_of, read_line, rows_of
from wholeball.files.xlsx import Kind, SheetRows, read_sheet
from wholeball.kernel.faults import Fault, InputFaults
from wholeball.kernel.refusals import toml_text

COLUMNS: Final = (
    Column(name="student_id", read=student_id),
    Column(name="name", read=one_line),
    Column(name="number", read=whole(0, 99), needed=False),
    Column(name="captain", read=one_of("yes", "no"), needed=False),
)
"""The columns of a list; docs/howto/add-a-roster.md says what each means."""

_OLD_WORKBOOK: Final = b"\xd0\xcf\x11\xe0"
_PLAIN_ID: Final = re.compile(r"[0-9A-Za-z]{1,40}")
_PLAIN_NAME: Final = re.compile(r"[^\W\d_]+(?:[ .'-][^\W\d_]+)*")
_PLAIN_NUMBER: Final = {"": None, **{str(number): number for number in range(100)}}
_PLAIN_CAPTAIN: Final = {"": False, "no": False, "yes": True}
_KINDS: Final[Mapping[Kind, str]] = {
    "number": "a number",
    "date": "a date or time",
    "truth": "true or false",
    "error": "an error",
}
_FIT: Final = {"student_id": "x", "name": "x"}


class Entry(NamedTuple):
    """One player of a list; `student` is the id as `student_id` reads it."""

    row: int
    student: str
    name: str
    number: int | None
    is_captain: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Entries:
    """What a list holds: each person once, `repeated` rows left out, and what is doubtful.

    `separator` is what parts the cells of a CSV file, `sheet` the sheet of a workbook.
    """

    file: str
    entries: tuple[Entry, ...]
    repeated: int
    remarks: tuple[Fault, ...]
    separator: Separator | None = None
    sheet: str | None = None


def read_entries(data: bytes, *, file: str) -> Entries:
    """Return the players of a list in its order; what a file is, its first bytes say.

    Raises:
        InputFaults: every fault of the file; nothing of it was taken.
    """
    if data.startswith(_OLD_WORKBOOK):
        says = "the file is a workbook of the old kind (.xls), or has a password."
        raise refused("format", file, says, "Save it as .xlsx without a password, or as CSV.")
    if is_archive(data):
        sheet = read_sheet(data, file=file)
        entries, repeated, remarks = _entries(sheet.rows, sheet)
        title = sheet.title
        return Entries(
            file=file, entries=entries, repeated=repeated, remarks=remarks, sheet=title
        )
    refuse_other_encoding(data, file=file)
    rows = rows_of(data, file=file)
    entries, repeated, remarks = _entries(rows, None)
    return Entries(
        file=file,
        entries=entries,
        repeated=repeated,
        remarks=remarks,
        separator=rows.separator,
    )


def _entries(
    rows: Rows, sheet: SheetRows | None
) -> tuple[tuple[Entry, ...], int, tuple[Fault, ...]]:
    header = header_of(rows, COLUMNS)
    table = Table(rows.file)
    found = list(_found(rows, header, table, sheet))
    once = list(_once(found, table))
    faults = sorted(table.faults, key=lambda fault: fault.place.row or 0)
    if any(fault.level == "fault" for fault in faults):
        raise InputFaults(fault for fault in faults if fault.level == "fault")
    return tuple(once), len(found) - len(once), tuple(faults)


def _found(
    rows: Rows, header: list[str], table: Table, sheet: SheetRows | None
) -> Iterator[Entry]:
    """Yield an entry a row; a plain row is taken by the quick way, any other is judged in full."""
    at = [header.index(column.name) if column.name in header else -1 for column in COLUMNS]
    kinds: Mapping[tuple[int, int], Kind] = {} if sheet is None else sheet.kinds
    for row, cells in rows.rows[1:]:
        entry = None if kinds else _plain(row, cells, at, len(header))
        if entry is None:
            text = _text_only(row, header, cells, kinds, table) if kinds else cells
            entry = _judged(row, text, header, table)
        if entry is not None:
            yield entry


def _plain(row: int, cells: list[str], at: list[int], width: int) -> Entry | None:
    """Return an entry of which a glance tells that nothing is odd about it, or None."""
    student, name, number, captain = at
    if len(cells) != width or len(cells[name]) > LONGEST_NAME:
        return None
    if not (_PLAIN_ID.fullmatch(cells[student]) and _PLAIN_NAME.fullmatch(cells[name])):
        return None
    worn = "" if number < 0 else cells[number]
    leads = "" if captain < 0 else cells[captain]
    if worn not in _PLAIN_NUMBER or leads not in _PLAIN_CAPTAIN:
        return None
    told = cells[student].lower()
    return Entry(row, told, cells[name], _PLAIN_NUMBER[worn], _PLAIN_CAPTAIN[leads])


def _judged(row: int, cells: list[str], header: list[str], table: Table) -> Entry | None:
    """Return what a row says, or None where the table has learnt what is wrong with it."""
    before = len(table.lines)
    read_line(table, row, header, cells, COLUMNS)
    if len(table.lines) == before:
        return None
    line = table.lines.pop()
    table.faults.extend(with_an_id(table, line))
    return Entry(
        row,
        line.need("student_id", str),
        line.need("name", str),
        line.get("number", int),
        line.get("captain", str) == "yes",
    )


def _text_only(
    row: int,
    header: list[str],
    cells: list[str],
    kinds: Mapping[tuple[int, int], Kind],
    table: Table,
) -> list[str]:
    """Return the cells of a sheet's row, each that is no text told and replaced by a fit one."""
    text = list(cells)
    for at, column in enumerate(header[: len(cells)]):
        kind = kinds.get((row, at))
        if kind is not None and (kind, column) != ("number", "number"):
            table.faults.append(_odd_kind(table, row, column, kind, cells[at]))
            text[at] = _FIT.get(column, "")
    return text


def _odd_kind(table: Table, row: int, column: str, kind: Kind, cell: str) -> Fault:
    """Refuse a cell that is no text; an id that is a number has lost the zeros it starts with."""
    lost = mangled() if column == "student_id" else None
    return Fault(
        code="type" if lost is None else lost.code,
        place=table.at(row, column),
        says=f"{column} is {toml_text(cell)}, which the sheet holds as {_KINDS[kind]}.",
        value=cell,
        allowed="text" if lost is None else lost.allowed,
        cure="Set the column to text, and type it again." if lost is None else lost.cure,
    )


def _once(entries: list[Entry], table: Table) -> Iterator[Entry]:
    """Yield each person once; a row that stands twice is doubted, two that differ are a fault."""
    first: dict[str, Entry] = {}
    for entry in entries:
        earlier = first.setdefault(entry.student, entry)
        if earlier is entry:
            yield entry
            continue
        differs = _difference(earlier, entry)
        says = (
            f"id {entry.student} stands on row {earlier.row} too, {differs}."
            if differs
            else f"the row says what row {earlier.row} says; it is taken once."
        )
        table.faults.append(
            Fault(
                code="duplicate",
                place=table.at(entry.row, "student_id"),
                says=says,
                value=entry.student,
                cure="Nothing is taken of either; mend the id, or take one row out."
                if differs
                else "Nothing to do.",
                level="fault" if differs else "doubt",
            )
        )


def _difference(one: Entry, other: Entry) -> str:
    if one.name.casefold() != other.name.casefold():
        return "with another name"
    if one.number != other.number:
        return "with another number"
    return "" if one.is_captain == other.is_captain else "with another word about the captain"
