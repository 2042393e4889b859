"""Reads a list of players with their student ids, from CSV or a workbook, every fault at once."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final, NamedTuple

from wholeball.files.cells import LONGEST_NAME, Column, one_line, one_of, whole
from wholeball.files.given_rows import given_rows
from wholeball.files.rosters import with_an_id
from wholeball.files.student_ids import mangled, student_id
from wholeball.files.table import Rows, Separator, Table, header_of, read_line
from wholeball.files.xlsx import Kind, SheetRows
from wholeball.kernel.faults import Fault
from wholeball.kernel.refusals import toml_text

COLUMNS: Final = (
    Column(name="student_id", read=student_id),
    Column(name="name", read=one_line),
    Column(name="number", read=whole(0, 99), needed=False),
    Column(name="captain", read=one_of("yes", "no"), needed=False),
)
"""The columns of a list; docs/howto/add-a-roster.md says what each means."""

_TOGETHER: Final = 500
"""How many rows are looked at together; one that is odd has so many judged one by one."""
_PLAIN_ID: Final = re.compile(r"[0-9A-Za-z]{1,40}(?:\n[0-9A-Za-z]{1,40})*")
_PLAIN_NAME: Final = re.compile(r"[^\W\d_]+(?:[ .'\n-][^\W\d_]+)*")
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


_ENTRY_OF: Final[Callable[[Iterable[object]], Entry]] = partial(tuple.__new__, Entry)
"""Makes an entry of what is in the order of its fields, without counting them each time."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entries:
    """What a list holds: each person once, `repeated` rows left out, and what is doubtful.

    Where there are `faults`, nothing of it may be taken; the rest stands there to be judged too.
    `separator` is what parts the cells of a CSV file; `sheet` is the one that was read of a
    workbook, beside `other_sheets`.
    """

    file: str
    entries: tuple[Entry, ...]
    repeated: int
    remarks: tuple[Fault, ...]
    faults: tuple[Fault, ...] = ()
    separator: Separator | None = None
    sheet: str | None = None
    other_sheets: int = 0


def read_entries(data: bytes, *, file: str) -> Entries:
    """Return the players of a list in its order; what a file is, its first bytes say.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    return entries_of(*given_rows(data, file=file))


def entries_of(rows: Rows, sheet: SheetRows | None) -> Entries:
    """Return the players of rows that have been read; of a workbook, with its sheet.

    Raises:
        InputFaults: the header is none.
    """
    table = Table(rows.file)
    found = list(_found(rows, header_of(rows, COLUMNS), table, sheet))
    once = tuple(_once(found, table))
    told = sorted(table.faults, key=lambda fault: fault.place.row or 0)
    faults = tuple(fault for fault in told if fault.level == "fault")
    return Entries(
        file=rows.file,
        entries=once,
        repeated=len(found) - len(once),
        remarks=tuple(fault for fault in told if fault.level != "fault"),
        faults=faults,
        separator=rows.separator if sheet is None else None,
        sheet=None if sheet is None else sheet.title,
        other_sheets=0 if sheet is None else sheet.others,
    )


def _found(
    rows: Rows, header: list[str], table: Table, sheet: SheetRows | None
) -> Iterator[Entry]:
    """Yield an entry a row; plain rows are taken together, and all others judged one by one."""
    kinds: Mapping[tuple[int, int], Kind] = {} if sheet is None else sheet.kinds
    for start in range(1, len(rows.rows), _TOGETHER):
        block = rows.rows[start : start + _TOGETHER]
        plain = None if kinds else _plain(block, header)
        if plain is not None:
            yield from plain
            continue
        for row, cells in block:
            text = _text_only(row, header, cells, kinds, table) if kinds else cells
            entry = _judged(row, text, header, table)
            if entry is not None:
                yield entry


def _plain(
    block: Sequence[tuple[int, tuple[str, ...]]], header: list[str]
) -> Iterator[Entry] | None:
    """Return the entries of rows if one look at all of them finds nothing odd, or None."""
    if {len(cells) for _, cells in block} != {len(header)}:
        return None
    columns = dict(zip(header, zip(*(cells for _, cells in block), strict=True), strict=True))
    none = ("",) * len(block)
    students, names = columns["student_id"], columns["name"]
    numbers, captains = columns.get("number", none), columns.get("captain", none)
    is_plain = (
        _are(_PLAIN_ID, students)
        and _are(_PLAIN_NAME, names)
        and max(map(len, names)) <= LONGEST_NAME
        and _PLAIN_NUMBER.keys() >= set(numbers)
        and _PLAIN_CAPTAIN.keys() >= set(captains)
    )
    if not is_plain:
        return None
    told = map(str.lower, students)
    worn = map(_PLAIN_NUMBER.get, numbers)
    leads = map(_PLAIN_CAPTAIN.get, captains)
    each = zip((row for row, _ in block), told, names, worn, leads, strict=True)
    return map(_ENTRY_OF, each)


def _are(kind: re.Pattern[str], cells: Sequence[str]) -> bool:
    """Tell whether each of some cells is of a kind, which is one line."""
    lines = "\n".join(cells)
    return lines.count("\n") == len(cells) - 1 and kind.fullmatch(lines) is not None


def _judged(row: int, cells: Sequence[str], header: list[str], table: Table) -> Entry | None:
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
    cells: Sequence[str],
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
    if len({entry.student for entry in entries}) == len(entries):
        yield from entries
        return
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
