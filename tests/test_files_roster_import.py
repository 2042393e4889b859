"""A list is read whole or refused with all that is wrong; its ids become codes."""

import hashlib
import hmac

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.workbooks import workbook
from wholeball.files.cells import Refused
from wholeball.files.roster_import import COLUMNS, Entry, _judged, _plain, read_entries
from wholeball.files.student_ids import IdKey, end_of, student_id
from wholeball.files.table import Table
from wholeball.kernel.faults import Fault, InputFaults


def told(faults: tuple[Fault, ...]) -> list[tuple[str, int | None, str | None]]:
    return [(one.code, one.place.row, one.place.column) for one in faults]


def test_codes_are_hmac_sha_256_as_rfc_4231_publishes_it() -> None:
    """RFC 4231, test case 2."""
    code = "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"
    assert IdKey(b"Jefe").code_of("what do ya want for nothing?") == code


@given(st.binary(min_size=1, max_size=200), st.text("0123456789abc-_/", min_size=1))
def test_codes_are_those_of_the_standard_library(secret: bytes, student: str) -> None:
    expected = hmac.digest(secret, student.encode(), hashlib.sha256).hex()
    assert IdKey(secret).code_of(student) == expected


@pytest.mark.parametrize(
    ("cell", "told"),
    [
        ("0012", "0012"),
        (" 00 12 ", "0012"),
        ("AB12", "ab12"),
        ("'0012", "0012"),
        ("1E5", "1e5"),
    ],
)
def test_an_id_is_text_without_spaces_and_in_small_letters(cell: str, told: str) -> None:
    assert student_id(cell) == told


@pytest.mark.parametrize(
    ("cell", "code"),
    [
        ("1.2345678E+07", "mangled_id"),
        ("1,2345678e+07", "mangled_id"),
        ("1E+07", "mangled_id"),
        ("12345678.0", "mangled_id"),
        ("12,345,678", "mangled_id"),
        ("########", "mangled_id"),
        ("\u0661\u0662", "type"),
        ("x" * 41, "type"),
    ],
)
def test_an_id_that_a_spreadsheet_changed_is_refused(cell: str, code: str) -> None:
    with pytest.raises(Refused) as error:
        student_id(cell)
    assert error.value.code == code


@pytest.mark.parametrize(
    ("student", "end"), [("0012", "012"), ("123", ""), ("a1b2c3d4", "234"), ("abc", "")]
)
def test_the_end_of_an_id_is_three_digits_and_never_all_of_them(student: str, end: str) -> None:
    assert end_of(student) == end


CELLS = st.tuples(
    st.text("0123456789aZ-_ .,E+'", max_size=8) | st.text(max_size=5),
    st.sampled_from(["Ann", "O'Tal Wim", "-Ann", "A 12345", "Ann ", "A\nB", "=A", "\u0645"])
    | st.text(max_size=5),
    st.sampled_from(["", "0", "7", "07", "99", "100", "x"]),
    st.sampled_from(["", "yes", "no", "Yes", "x"]),
)


@given(CELLS)
def test_a_row_taken_at_a_glance_is_what_the_full_reading_makes_of_it(
    cells: tuple[str, str, str, str],
) -> None:
    header = [column.name for column in COLUMNS]
    glance = _plain([(2, cells)], header)
    if glance is not None:
        table = Table("list.csv")
        assert list(glance) == [_judged(2, cells, header, table)]
        assert table.faults == []


def test_plain_rows_are_taken_at_a_glance() -> None:
    header = [column.name for column in COLUMNS]
    rows = [(2, ("0012", "Ana O'Tal-No\u00ebl", "7", "yes")), (3, ("B1", "Li", "", ""))]
    assert list(_plain(rows, header) or ()) == [
        Entry(2, "0012", "Ana O'Tal-No\u00ebl", 7, True),  # noqa: FBT003 - a row
        Entry(3, "b1", "Li", None, False),  # noqa: FBT003 - a row
    ]


def test_every_fault_of_a_list_is_told_at_once_in_its_order() -> None:
    rows = b"1.0,Ann,7,\n2,,x,maybe\n3,Bob 123456,,\n4,Cy,,\n4,Di,,\n"
    read = read_entries(b"student_id,name,number,captain\n" + rows, file="list.csv")
    assert told(read.faults) == [
        ("mangled_id", 2, "student_id"),
        ("missing", 3, "name"),
        ("type", 3, "number"),
        ("unknown_value", 3, "captain"),
        ("private", 4, "name"),
        ("duplicate", 6, "student_id"),
    ]


def test_a_workbook_is_taken_like_a_list_and_its_numbers_are_told() -> None:
    book = workbook(
        ("student_id", "name", "number"), ("0012", "Ann", 7), ("0013", "=Bob", None)
    )
    assert told(read_entries(book, file="list.xlsx").faults) == [("formula", 3, "name")]
    book = workbook(("student_id", "name", "number"), ("0012", "Ann", 7), (13, 5, 7.5))
    assert told(read_entries(book, file="list.xlsx").faults) == [
        ("mangled_id", 3, "student_id"),
        ("type", 3, "name"),
        ("type", 3, "number"),
    ]
    read = read_entries(workbook(("student_id", "name"), ("0012", "Ann")), file="list.xlsx")
    assert read.entries == (Entry(2, "0012", "Ann", None, False),)  # noqa: FBT003 - a row
    assert (read.sheet, read.separator) == ("Sign-ups", None)


def test_a_workbook_of_the_old_kind_is_refused_by_its_first_bytes() -> None:
    with pytest.raises(InputFaults) as error:
        read_entries(b"\xd0\xcf\x11\xe0" + b"\x00" * 100, file="list.csv")
    assert error.value.code == "format"


def test_every_cell_that_is_not_utf_8_is_shown_as_it_may_be_meant() -> None:
    data = b"student_id,name\n1,Zo\xeb\n2,Ann\n3,\x80uro\n"
    with pytest.raises(InputFaults) as error:
        read_entries(data, file="list.csv")
    assert [(one.place.row, one.value) for one in error.value.faults] == [
        (2, '"Zo\u00eb"'),
        (4, '"\u20acuro"'),
    ]
