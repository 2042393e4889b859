"""Rows are taken out of a table, and all else stays byte for byte."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.files.closures import COLUMNS
from wholeball.files.fewer_rows import without_row, without_rows
from wholeball.files.more_rows import with_rows
from wholeball.files.table import read_table
from wholeball.kernel.faults import WholeballError

TWO = b"field,date\n\nNorth,2026-10-13\nSouth,2026-10-14\n"
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


def test_the_row_of_a_number_goes_as_readers_count_it() -> None:
    numbers = [one.row for one in read_table(TWO, COLUMNS, file="closures.csv").lines]
    assert numbers == [3, 4]
    assert without_row(TWO, 3, what="It") == TWO.replace(b"North,2026-10-13\n", b"")
    assert without_row(TWO, 4, what="It") == TWO.replace(b"South,2026-10-14\n", b"")


@pytest.mark.parametrize("row", [0, 1, 2, 5])
def test_the_header_an_empty_row_and_a_row_that_is_none_do_not_go(row: int) -> None:
    with pytest.raises(WholeballError, match="It is not there any more"):
        without_row(TWO, row, what="It")
