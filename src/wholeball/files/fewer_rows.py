"""Takes rows out of a table and leaves the others as they are, byte for byte."""

import csv
import io
from collections.abc import Callable, Mapping

from wholeball.files.table import separator_of
from wholeball.kernel.faults import WholeballError

_MARK = "\ufeff"


def without_rows(data: bytes, is_gone: Callable[[Mapping[str, str]], bool]) -> bytes:
    """Return a table without the rows that are to go; a row is its cells by their columns.

    `data` is a table that can be read, or nothing.
    """
    return _kept(data, lambda _, cells: is_gone(cells))


def without_row(data: bytes, row: int, *, what: str) -> bytes:
    """Return a table without the row of a number, as readers of tables count it.

    Raises:
        WholeballError: there is none of that number; `what` says of what, as a subject.
    """
    kept = _kept(data, lambda number, _: number == row)
    if kept == data:
        raise WholeballError(
            f"{what} is not there any more.",
            fix="Nothing was changed. Look at what is there now.",
            code="gone",
        )
    return kept


def _kept(data: bytes, is_gone: Callable[[int, Mapping[str, str]], bool]) -> bytes:
    told = data.decode("utf-8")
    text = told.removeprefix(_MARK)
    lines = list(io.StringIO(text, newline=""))
    rows = csv.reader(lines, delimiter=separator_of(text), skipinitialspace=True)
    header: list[str] = []
    kept: list[str] = []
    done = 0
    for number, cells in enumerate(rows, start=1):
        part = lines[done : rows.line_num]
        done = rows.line_num
        bare = [cell.strip() for cell in cells]
        if header and any(bare) and is_gone(number, dict(zip(header, bare, strict=False))):
            continue
        if not header and any(bare):
            header = [name.lower() for name in bare]
        kept += part
    return (told[: len(told) - len(text)] + "".join(kept)).encode()
