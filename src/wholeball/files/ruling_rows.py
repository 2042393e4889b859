"""Writes a row at the end of rulings.csv and leaves those that stand there as they are."""

import csv
import io
from typing import Final

from wholeball.files.any_cell import neutral
from wholeball.files.rulings import COLUMNS, FILE
from wholeball.kernel.faults import WholeballError
from wholeball.season.ruling import Ruling

_NAMES: Final = [column.name for column in COLUMNS]
_MARK: Final = "\ufeff"


def with_ruling(data: bytes | None, ruling: Ruling) -> bytes:
    """Return rulings.csv with one more row; None for a folder that has no such file yet.

    What stands there stays byte for byte.

    Raises:
        WholeballError: the file has no column for something that the row says.
    """
    cells = _cells(ruling)
    if data is None or not data.strip():
        header, text, separator, end = _NAMES, ",".join(_NAMES) + "\n", ",", "\n"
        mark = ""
    else:
        told = data.decode("utf-8")
        text = told.removeprefix(_MARK)
        mark = _MARK if told.startswith(_MARK) else ""
        separator = _separator(text)
        end = "\r\n" if "\r\n" in text else "\n"
        header = _header(text, separator)
        text += "" if text.endswith(("\n", "\r")) else end
    lacking = [name for name, cell in cells.items() if cell and name not in header]
    if lacking:
        raise WholeballError(
            f"{FILE} has no column {lacking[0]}, which this ruling needs.",
            fix=f"Nothing was written. Add it to the header; all columns are: {', '.join(_NAMES)}.",
            code="missing_column",
        )
    out = io.StringIO()
    writer = csv.writer(out, delimiter=separator, lineterminator=end)
    writer.writerow([cells.get(name, "") for name in header])
    return (mark + text + out.getvalue()).encode()


def _cells(ruling: Ruling) -> dict[str, str]:
    home, away = ruling.goals or ("", "")
    return {
        "ruling": str(ruling.number),
        "date": "" if ruling.day is None else ruling.day.isoformat(),
        "game": neutral(ruling.game),
        "ruled": ruling.ruled,
        "by": ruling.by or "",
        "home_goals": str(home),
        "away_goals": str(away),
        "ref": neutral(ruling.ref),
        "why": neutral(ruling.why),
    }


def _separator(text: str) -> str:
    """Return what parts the cells of a table, as its first line tells."""
    first = text.lstrip().split("\n", 1)[0]
    return ";" if first.count(";") > first.count(",") else ","


def _header(text: str, separator: str) -> list[str]:
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=separator, skipinitialspace=True)
    first = next(cells for cells in rows if any(map(str.strip, cells)))
    return [name.strip().lower() for name in first]
