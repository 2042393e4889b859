"""Rows are taken out of a table, and all else stays byte for byte."""

from hypothesis import given
from hypothesis import strategies as st

from wholeball.files.closures import COLUMNS
from wholeball.files.fewer_rows import without_rows
from wholeball.files.more_rows import with_rows

CELL = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), min_size=1)


def is_lost(row: object) -> bool:
    return isinstance(row, dict) and row["why"] == "lost"


def test_only_the_rows_that_are_asked_for_go() -> None:
    table = '\ufeffField;Why\r\n"a;\r\nb";lost\r\n c ; lost \r\n\r\nd;a fair\r\n'
    assert (
        without_rows(table.encode(), is_lost) == "\ufeffField;Why\r\n\r\nd;a fair\r\n".encode()
    )


def test_nothing_goes_from_nothing_and_from_a_header_alone() -> None:
    assert without_rows(b"", is_lost) == b""
    assert without_rows(b"field,why\n", is_lost) == b"field,why\n"


@given(st.lists(CELL, max_size=4), st.lists(CELL, max_size=4))
def test_rows_that_were_added_are_taken_out_again_to_the_byte(
    stay: list[str], go: list[str]
) -> None:
    def rows(fields: list[str], why: str) -> list[tuple[str, ...]]:
        return [(field, "", "2026-10-13", "", "", "", why) for field in fields]

    before = with_rows(b"", rows(stay, "a fair"), columns=COLUMNS)
    after = with_rows(before, rows(go, "lost"), columns=COLUMNS)
    assert without_rows(after, is_lost) == before
