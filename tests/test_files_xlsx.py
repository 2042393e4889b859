"""A workbook is bounded before it is unpacked, and its cells are read as what they are."""

import io
import zipfile
from datetime import date, datetime, time

import openpyxl
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from cases.workbooks import SHEET, inline, remade, sheet_xml, workbook
from wholeball.files import archive
from wholeball.files.archive import bounded_archive
from wholeball.files.xlsx import MOST_ROWS, read_sheet
from wholeball.kernel.faults import InputFaults, WholeballError

HEAD = ("student_id", "name")


def refused(data: bytes) -> str:
    with pytest.raises(InputFaults) as error:
        read_sheet(data, file="list.xlsx")
    (fault,) = error.value.faults
    return fault.code


def packed(**members: bytes) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        for name, data in members.items():
            made.writestr(name, data)
    return out.getvalue()


def test_the_first_sheet_is_read_with_its_title_and_the_others_are_counted() -> None:
    read = read_sheet(workbook(HEAD, ("0012", "Ann"), further=["Old"]), file="list.xlsx")
    assert (read.title, read.others, read.kinds) == ("Sign-ups", 1, {})
    assert read.rows.rows == [(1, HEAD), (2, ("0012", "Ann"))]


def test_cells_that_are_no_text_are_told_with_their_kind() -> None:
    values = (12, 1.5, True, date(2026, 9, 1), datetime(2026, 9, 1, 19, 5), time(19, 5), "#N/A")  # noqa: DTZ001 - sheets know no time zone
    read = read_sheet(workbook(values), file="list.xlsx")
    assert read.rows.rows == [
        (1, ("12", "1.5", "TRUE", "2026-09-01", "2026-09-01 19:05:00", "19:05:00", "#N/A"))
    ]
    kinds = ("number", "number", "truth", "date", "date", "date", "error")
    assert read.kinds == {(1, at): kind for at, kind in enumerate(kinds)}


def test_a_formula_is_told_from_text_that_looks_like_one() -> None:
    xml = sheet_xml(f"<row><c><f>1+1</f><v>2</v></c>{inline('=1+1')[5:-6]}</row>")
    read = read_sheet(remade(workbook(), data=xml), file="list.xlsx")
    assert read.rows.rows == [(1, ("=1+1", "'=1+1"))]


def test_an_escape_of_the_sheet_is_read_as_the_character_it_stands_for() -> None:
    xml = sheet_xml(inline("a_x0041_", "_x005F_x0041_"))
    read = read_sheet(remade(workbook(), data=xml), file="list.xlsx")
    assert read.rows.rows == [(1, ("aA", "_x0041_"))]


def test_rows_are_as_wide_as_the_first_and_wider_where_more_is_filled() -> None:
    rows = (("a", "b"), ("1",), ("1", "2", "3"), (None, None, None), ("4", None, None))
    read = read_sheet(workbook(*rows), file="list.xlsx")
    assert read.rows.rows == [
        (1, ("a", "b")),
        (2, ("1", "")),
        (3, ("1", "2", "3")),
        (5, ("4", "")),
    ]


@pytest.mark.parametrize(
    "name", ["../x", "a/../../x", "/etc/x", "\\x", "..\\x", "C:/x", "C:\\x"]
)
def test_a_path_outside_the_archive_is_refused(name: str) -> None:
    assert refused(remade(workbook(HEAD), member=name, data=b"")) == "path"


@pytest.mark.parametrize("name", ["a..b", "x/..y", "x/y:z"])
def test_a_name_that_only_looks_like_a_path_outside_passes(name: str) -> None:
    bounded_archive(remade(workbook(HEAD), member=name, data=b""), file="list.xlsx")


def test_the_last_size_within_the_bound_passes_and_the_next_is_refused(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    data = packed(a=b"0123456789" * 10)
    monkeypatch.setattr(archive, "MOST_UNPACKED", 100)
    bounded_archive(data, file="list.xlsx")
    monkeypatch.setattr(archive, "MOST_UNPACKED", 99)
    assert refused(data) == "zip_bomb"


def test_a_hundred_times_the_file_is_refused_however_small_it_is() -> None:
    assert refused(packed(a=b"x" * 500_000)) == "zip_bomb"


def test_members_that_share_their_bytes_are_counted_each() -> None:
    """Overlapping members (Fifield, "A better zip bomb", 2019) state what each unpacks to."""
    data = packed(a=b"x" * 90_000)
    start = data.index(b"PK\x01\x02")
    end = data.index(b"PK\x05\x06")
    again = data[start:end] * 30
    tail = bytearray(data[end:])
    tail[8:12] = (31).to_bytes(2, "little") * 2
    tail[12:16] = (len(again) + end - start).to_bytes(4, "little")
    assert refused(data[:end] + again + bytes(tail)) == "zip_bomb"


def test_too_many_members_and_too_large_a_file_are_refused() -> None:
    assert refused(packed(**{f"m{number}": b"" for number in range(501)})) == "limits"
    assert refused(b"PK\x03\x04" + b"x" * 10_000_000) == "limits"


@pytest.mark.parametrize("member", [SHEET, "xl/workbook.xml", "xl/styles.xml", "_rels/.rels"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
def test_a_document_type_is_refused_in_any_part_and_encoding(
    member: str, encoding: str
) -> None:
    xml = f'<?xml version="1.0" encoding="{encoding}"?><!DOCTYPE x><x/>'.encode(encoding)
    assert refused(remade(workbook(HEAD), member=member, data=xml)) == "xml_entity"


def test_a_row_far_below_is_refused_without_going_there() -> None:
    far = f'<row r="{10**15}"><c t="inlineStr"><is><t>x</t></is></c></row>'
    assert refused(remade(workbook(), data=sheet_xml(inline("a") + far))) == "limits"
    last = far.replace(str(10**15), str(MOST_ROWS))
    read = read_sheet(remade(workbook(), data=sheet_xml(inline("a") + last)), file="x.xlsx")
    assert [row for row, _ in read.rows.rows] == [1, MOST_ROWS]


def test_a_cell_far_to_the_right_is_refused() -> None:
    def at(column: str) -> bytes:
        cell = f'<c r="{column}1" t="inlineStr"><is><t>x</t></is></c>'
        return remade(workbook(), data=sheet_xml(f'<row r="1">{cell}</row>'))

    assert len(read_sheet(at("CV"), file="list.xlsx").rows.rows[0][1]) == 100
    assert refused(at("CW")) == "limits"


def test_nothing_is_read_where_the_guard_is_switched_off(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(openpyxl, "DEFUSEDXML", False)
    with pytest.raises(WholeballError) as error:
        read_sheet(workbook(HEAD), file="list.xlsx")
    assert error.value.code == "guard"


WHOLE = workbook(HEAD, ("0012", "Ann"), ("0013", "Bob"))


def codes(data: bytes) -> set[str]:
    """Return the codes of what is refused; empty where the workbook is read."""
    try:
        read_sheet(data, file="list.xlsx")
    except InputFaults as error:
        return {fault.code for fault in error.faults}
    return set()


@settings(max_examples=300, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(at=st.integers(0, len(WHOLE) - 1), put=st.binary(max_size=1), kept=st.booleans())
@example(at=0, put=b"", kept=False)
def test_a_damaged_workbook_is_read_or_refused_and_nothing_else(
    *, at: int, put: bytes, kept: bool
) -> None:
    data = WHOLE[:at] + put + (WHOLE[at + 1 :] if kept else b"")
    assert codes(data) <= {"syntax", "limits", "path", "zip_bomb", "xml_entity"}


@settings(max_examples=200, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(
    st.sampled_from([SHEET, "xl/workbook.xml", "xl/styles.xml", "[Content_Types].xml"]),
    st.data(),
)
def test_parts_that_do_not_fit_together_are_refused(member: str, data: st.DataObject) -> None:
    with zipfile.ZipFile(io.BytesIO(WHOLE)) as whole:
        part = whole.read(member)
    words = data.draw(st.sampled_from(sorted(set(part.split(b'"')) - {b""})))
    other = data.draw(st.sampled_from([b"", b"-1", b"9" * 5_000, b"x", b"1e999", b"A0"]))
    changed = remade(WHOLE, member=member, data=part.replace(words, other))
    assert codes(changed) <= {"syntax", "limits", "empty", "zip_bomb"}


def test_what_was_damaged_above_was_whole() -> None:
    rows = read_sheet(WHOLE, file="list.xlsx").rows.rows
    assert rows == [(1, HEAD), (2, ("0012", "Ann")), (3, ("0013", "Bob"))]
