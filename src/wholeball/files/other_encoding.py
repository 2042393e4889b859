"""Shows what a file that is not UTF-8 may be meant to say, and takes none of it."""

from collections.abc import Iterator
from typing import Final

from wholeball.files.any_cell import SHOWN
from wholeball.files.table import Rows, rows_of
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.refusals import toml_text

_OTHER: Final = "cp1252"
"""What spreadsheets in western Europe and America write where they do not write UTF-8."""
_BYTES: Final = "latin-1"
"""Gives each byte a character of its own, so that cells can be found before they are read."""


def refuse_other_encoding(data: bytes, *, file: str) -> None:
    """Let UTF-8 pass, and whatever has no cells to show, which its reader refuses.

    Raises:
        InputFaults: every cell that is not UTF-8, with what it may be meant to say.
    """
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        faults = [] if b"\x00" in data else list(_faults(data, file=file))
        if faults:
            raise InputFaults(faults) from None


def _faults(data: bytes, *, file: str) -> Iterator[Fault]:
    rows = _rows_of_bytes(data, file=file)
    if rows is None or not rows.rows:
        return
    header = [name.strip().lower() for name in rows.rows[0][1]]
    for row, cells in rows.rows:
        for at, cell in enumerate(cells):
            said = cell.encode(_BYTES)
            wrong = _wrong_byte(said)
            if wrong is not None:
                column = header[at] if row != rows.rows[0][0] and at < len(header) else None
                yield _fault(said, wrong, Place(file=file, row=row, column=column))


def _rows_of_bytes(data: bytes, *, file: str) -> Rows | None:
    """Return the rows with a character a byte; None where the table has another fault too."""
    as_text = data.removeprefix(b"\xef\xbb\xbf").decode(_BYTES)
    try:
        return rows_of(as_text.encode(), file=file)
    except InputFaults:
        return None


def _wrong_byte(said: bytes) -> int | None:
    try:
        said.decode("utf-8")
    except UnicodeDecodeError as error:
        return said[error.start]
    return None


def _fault(said: bytes, wrong: int, place: Place) -> Fault:
    meant = toml_text(said.decode(_OTHER, "replace")[:SHOWN])
    return Fault(
        code="encoding",
        place=place,
        says=f"byte {wrong:#04x} is not UTF-8; read as Windows-1252 (nearly ISO 8859-1) the cell "
        f"would say {meant}.",
        value=meant,
        allowed="UTF-8",
        cure="Nothing was guessed. If that is what is meant, save the file as CSV in UTF-8.",
    )
