"""What is exported reads back as it was, runs in no spreadsheet, and is the same bytes twice."""

import csv
import io
import unicodedata
import zipfile
from datetime import date
from decimal import Decimal

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.files.cells import Column, day, decimal, text, whole
from wholeball.files.exports import exported
from wholeball.files.table import Table, header_of, read_line, read_table
from wholeball.files.xlsx import read_sheet
from wholeball.kernel.plain_table import PlainCell, PlainTable
from wholeball.kernel.text import unreadable

COLUMNS = (
    Column(name="words", read=text, needed=False),
    Column(name="count", read=whole(0, 999_999_999), needed=False),
    Column(name="mean", read=decimal, needed=False),
    Column(name="day", read=day, needed=False),
)
HEADER = tuple(column.name for column in COLUMNS)
FORMULA = '=HYPERLINK("http://x.example","a")'


def table(*rows: tuple[PlainCell, ...]) -> PlainTable:
    return PlainTable(title="Season report", header=HEADER, rows=rows)


def from_csv(data: bytes) -> list[tuple[object, ...]]:
    return _values(read_table(data, COLUMNS, file="out.csv"))


def from_xlsx(data: bytes) -> list[tuple[object, ...]]:
    rows = read_sheet(data, file="out.xlsx").rows
    read = Table(rows.file)
    header = header_of(rows, COLUMNS)
    for row, cells in rows.rows[1:]:
        read_line(read, row, header, cells, COLUMNS)
    return _values(read)


def _values(read: Table) -> list[tuple[object, ...]]:
    assert [fault for fault in read.faults if fault.level == "fault"] == []
    return [tuple(line.cells[name] for name in HEADER) for line in read.lines]


def _fit(said: str) -> str:
    return unicodedata.normalize("NFC", said.strip()).strip()


seen = st.text(st.characters(exclude_categories=["Cs", "Cn"]), max_size=60).filter(
    lambda said: unreadable(said) is None
)
risky = st.from_regex(r"[=+@'-]{1,3}[a-z(]*(_x0041_)?[0-9]", fullmatch=True)
rows = st.tuples(
    (seen | risky).map(_fit).filter(bool),
    st.none() | st.integers(0, 999_999_999),
    st.none() | st.decimals(0, 999_999, places=3),
    st.none() | st.dates(date(1800, 1, 1), date(9999, 12, 31)),
)


@given(st.lists(rows, min_size=1, max_size=6))
def test_what_is_exported_reads_back_through_our_own_readers(
    given_rows: list[tuple[PlainCell, ...]],
) -> None:
    made = table(*given_rows)
    assert from_csv(exported(made, "csv")) == list(made.rows)
    assert from_xlsx(exported(made, "xlsx")) == list(made.rows)


@given(st.lists(rows, min_size=1, max_size=6))
def test_another_reader_finds_no_formula_and_the_same_values(
    given_rows: list[tuple[PlainCell, ...]],
) -> None:
    data = exported(table(*given_rows), "xlsx")
    sheet = openpyxl.load_workbook(io.BytesIO(data)).worksheets[0]
    cells = [cell for row in sheet.iter_rows(min_row=2) for cell in row]
    assert {cell.data_type for cell in cells} <= {"s", "n", "d"}
    counts = [row[1].value for row in sheet.iter_rows(min_row=2)]
    assert counts == [row[1] for row in given_rows]


@pytest.mark.parametrize("said", [FORMULA, "+1", "@sum", "-Anna", "'=1", "'-1"])
def test_what_a_spreadsheet_would_run_gets_an_apostrophe_in_csv(said: str) -> None:
    (_, row) = csv.reader(io.StringIO(exported(table((said, 1, None, None)), "csv").decode()))
    assert row[0] == f"'{said}"


@pytest.mark.parametrize("said", [FORMULA, "+1", "@sum", "-Anna", "'=1", "a"])
def test_words_are_typed_as_text_in_a_workbook(said: str) -> None:
    data = exported(table((said, 1, None, None)), "xlsx")
    cell = openpyxl.load_workbook(io.BytesIO(data)).worksheets[0]["A2"]
    assert (cell.value, cell.data_type, cell.number_format) == (said, "s", "@")


def test_the_first_word_that_needs_no_apostrophe_gets_none() -> None:
    assert (
        exported(table(("'s Anna", None, None, None)), "csv").splitlines()[1] == b"'s Anna,,,"
    )


def test_the_same_table_is_the_same_bytes() -> None:
    made = table(("Zo\u00eb", 7, Decimal("3.50"), date(2026, 9, 1)))
    assert exported(made, "xlsx") == exported(made, "xlsx")
    with zipfile.ZipFile(io.BytesIO(exported(made, "xlsx"))) as archive:
        assert {part.date_time for part in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_csv_is_written_as_people_read_it() -> None:
    made = table(("Zo\u00eb, captain", 7, Decimal("1E+2"), date(2026, 9, 1)), (None,) * 4)
    told = exported(made, "csv").decode()
    assert told == 'words,count,mean,day\n"Zo\u00eb, captain",7,100,2026-09-01\n,,,\n'


def test_less_than_nothing_stays_a_number_in_both() -> None:
    made = table((None, -3, Decimal("-0.5"), None))
    assert exported(made, "csv").splitlines()[1] == b",-3,-0.5,"
    sheet = openpyxl.load_workbook(io.BytesIO(exported(made, "xlsx"))).worksheets[0]
    assert [cell.value for cell in sheet[2]] == [None, -3, -0.5, None]


@pytest.mark.parametrize(
    ("number", "kind"), [(999_999_999_999_999, "n"), (1_000_000_000_000_000, "s")]
)
def test_a_number_of_more_digits_than_a_sheet_keeps_is_text(number: int, kind: str) -> None:
    data = exported(table((None, number, None, None)), "xlsx")
    cell = openpyxl.load_workbook(io.BytesIO(data)).worksheets[0]["B2"]
    assert (str(cell.value), cell.data_type) == (str(number), kind)


@pytest.mark.parametrize("said", [date(1900, 2, 28), date(1900, 3, 1), date(2028, 2, 29)])
def test_a_day_is_the_same_day_in_a_sheet(said: date) -> None:
    (row,) = from_xlsx(exported(table((None, None, None, said)), "xlsx"))
    assert row == (None, None, None, said)


@pytest.mark.parametrize(
    ("said", "told"),
    [("a\x1bb", "a\\x1bb"), ("a\u202eb", "a\\u202eb"), ("a\ud800", "a\\ud800")],
)
def test_what_nobody_can_see_is_exported_as_its_escape(said: str, told: str) -> None:
    made = table((said, None, None, None))
    assert from_csv(exported(made, "csv"))[0][0] == told
    assert from_xlsx(exported(made, "xlsx"))[0][0] == told


def test_a_title_that_no_sheet_may_have_loses_the_signs() -> None:
    made = PlainTable(title="Reds/Blues: [all] & <more>, by pool", header=("a",), rows=())
    book = openpyxl.load_workbook(io.BytesIO(exported(made, "xlsx")))
    assert book.sheetnames == ["Reds Blues   all  & <more>, by"]


def test_a_row_that_is_too_short_is_our_own_mistake() -> None:
    with pytest.raises(ValueError, match="not as long as the header"):
        PlainTable(title="x", header=("a", "b"), rows=(("1",),))


def test_a_number_without_end_is_our_own_mistake() -> None:
    with pytest.raises(ValueError, match="not finite"):
        PlainTable(title="x", header=("a",), rows=((Decimal("inf"),),))
