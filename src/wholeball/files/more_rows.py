"""Writes rows at the end of a table and leaves those that stand there as they are."""

import csv
import io
import operator
import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Final, TypeAlias

from wholeball.files.cells import Column
from wholeball.files.table import Separator, separator_of

Cells: TypeAlias = tuple[str, ...]
_QUOTED: Final = re.compile(r"[\"\r\n]")
_MARK: Final = "\ufeff"


def with_rows(data: bytes, new: Iterable[Cells], *, columns: Sequence[Column]) -> bytes:
    """Return a table with rows added, each in the order of its columns.

    `data` is the file as it was read, or nothing.

    What stands there stays byte for byte. Only where the header lacks one of the columns, it
    gets it at its end, and each row an empty cell.
    """
    names = [column.name for column in columns]
    if not data.strip():
        return (",".join(names) + "\n" + _lines(new, names, names, ",", "\n")).encode()
    told = data.decode("utf-8")
    text = told.removeprefix(_MARK)
    separator = separator_of(text)
    header = _header(text, separator)
    lacking = [name for name in names if name not in header]
    if lacking:
        text = "".join(_widened(text, separator, lacking))
    end = "\r\n" if "\r\n" in text else "\n"
    text += "" if text.endswith(("\n", "\r")) else end
    mark = _MARK if told.startswith(_MARK) else ""
    return (mark + text + _lines(new, names, [*header, *lacking], separator, end)).encode()


def _lines(
    new: Iterable[Cells], names: list[str], header: list[str], separator: str, end: str
) -> str:
    """Return rows as text; where no cell needs quotes they are joined, which is far quicker."""
    in_order = operator.itemgetter(*(names.index(name) for name in header))
    rows = list(new if header == names else map(in_order, new))
    plain = "".join(f"{separator.join(row)}{end}" for row in rows)
    seams = plain.count(separator), plain.count(end)
    expected = (len(header) - 1) * len(rows), len(rows)
    if seams == expected and not _QUOTED.search(plain.replace(end, "")):
        return plain
    out = io.StringIO()
    csv.writer(out, delimiter=separator, lineterminator=end).writerows(rows)
    return out.getvalue()


def _header(text: str, separator: Separator) -> list[str]:
    rows = csv.reader(_physical(text), delimiter=separator, skipinitialspace=True)
    first = next(cells for cells in rows if any(map(str.strip, cells)))
    return [name.strip().lower() for name in first]


def _physical(text: str) -> list[str]:
    """Return the lines of a text with their ends, as a reader of CSV counts them."""
    return list(io.StringIO(text, newline=""))


def _widened(text: str, separator: Separator, lacking: Sequence[str]) -> Iterator[str]:
    """Yield the lines of a text, each row with further cells at its end."""
    lines = _physical(text)
    rows = csv.reader(lines, delimiter=separator, skipinitialspace=True)
    done = 0
    more = separator + separator.join(lacking)
    for cells in rows:
        *before, last = lines[done : rows.line_num]
        done = rows.line_num
        yield from before
        if any(map(str.strip, cells)):
            bare = last.rstrip("\r\n")
            yield bare + more + last[len(bare) :]
            more = separator * len(lacking)
        else:
            yield last
