"""Cells of a table are changed, and all else stays byte for byte."""

from unicodedata import normalize

from hypothesis import assume, given
from hypothesis import strategies as st

from wholeball.files.any_cell import neutral
from wholeball.files.divisions import COLUMNS, read_divisions
from wholeball.files.more_rows import with_rows
from wholeball.files.other_cells import with_cells, with_names
from wholeball.files.teams import COLUMNS as TEAM_COLUMNS

NAME = st.text(
    st.characters(codec="utf-8", exclude_categories=["C", "Z"]), min_size=1, max_size=20
)


def test_a_name_is_another_in_its_column_alone() -> None:
    table = (
        '\ufeffTeam; Division;Colours\r\n"Ash;\r\n1"; Gold ;Gold\r\n\r\nGold;silver;\r\n'
        " Elm;Gold; red"
    )
    changed = (
        '\ufeffTeam; Division;Colours\r\n"Ash;\r\n1";Bronze;Gold\r\n\r\nGold;silver;\r\n'
        "Elm;Bronze;red"
    )
    found = with_names(table.encode(), "division", "Gold", "Bronze", columns=TEAM_COLUMNS)
    assert found.decode() == changed


def test_a_row_that_says_so_already_stays_as_it_stands() -> None:
    table = b'division,level\n "Gold" , "A, B" \n'
    same = with_cells(table, lambda row: {"level": row["level"]}, columns=COLUMNS)
    assert same == table


def test_a_column_that_is_filled_for_the_first_time_comes_at_the_end() -> None:
    table = b"kind,division\nopen,Gold\nmen,Silver\n"

    def change(row: object) -> dict[str, str]:
        is_gold = isinstance(row, dict) and row["division"] == "Gold"
        return {"level": "=A" if is_gold else ""}

    assert with_cells(table, change, columns=COLUMNS) == (
        b"kind,division,league,level\nopen,Gold,,'=A\nmen,Silver,,\n"
    )
    unfilled = with_cells(table, lambda _: {"level": ""}, columns=COLUMNS)
    assert unfilled == table


def test_nothing_is_changed_in_nothing_and_in_a_header_alone() -> None:
    for table in (b"", b"\n", b"division\n"):
        assert with_names(table, "division", "Gold", "Tin", columns=COLUMNS) == table


@given(st.lists(NAME, min_size=1, unique_by=str.casefold, max_size=4), NAME)
def test_a_name_that_is_changed_and_changed_back_is_read_as_before(
    names: list[str], new: str
) -> None:
    rows = [(neutral(name), "", "", "") for name in names]
    table = with_rows(b"", rows, columns=COLUMNS)
    before = read_divisions(table, "x")[0]
    old = str(before[0].division)
    assume(new.casefold() not in {one.division.casefold() for one in before})
    there = with_names(table, "division", old, new, columns=COLUMNS)
    told = normalize("NFC", new)
    assert [one.division for one in read_divisions(there, "x")[0]] == [
        told,
        *(one.division for one in before[1:]),
    ]
    back = with_names(there, "division", told, old, columns=COLUMNS)
    assert read_divisions(back, "x")[0] == before
