"""Tests how a spreadsheet of teams is read as people keep it."""

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import Workbook

from wholeball.files.team_sheet import LOOKED_AT, MOST_TEAMS, read_team_sheet
from wholeball.files.teams import read_teams
from wholeball.kernel.faults import InputFaults

NAMES = st.lists(
    st.text("abcdefgh ", min_size=1, max_size=12).map(str.strip).filter(bool),
    min_size=1,
    max_size=8,
    unique_by=str.casefold,
)


def workbook(rows: list[list[str]]) -> bytes:
    book, out = Workbook(), io.BytesIO()
    for row in rows:
        book.worksheets[0].append(row)
    book.save(out)
    return out.getvalue()


def names(data: bytes) -> list[str]:
    teams, table = read_teams(data)
    assert table.faults == []
    return [str(one.team) for one in teams]


@given(NAMES, st.integers(0, 5), st.sampled_from(["Team name", " TEAM ", "name_of_the_team"]))
def test_teams_are_found_below_any_title_and_beside_any_column(
    teams: list[str], above: int, heading: str
) -> None:
    rows = [["Sign-ups", ""]] * above + [["When", heading], *(["=NOW()", one] for one in teams)]
    text = "\n".join(";".join(row) for row in rows).encode()
    sheet = read_team_sheet(text, file="sheet.csv", has_blocks=False)
    assert (names(sheet.data), sheet.teams, sheet.left) == (teams, len(teams), ("When",))
    book = read_team_sheet(workbook(rows), file="sheet.xlsx", has_blocks=False)
    assert names(book.data) == teams


@pytest.mark.parametrize("above", [LOOKED_AT - 1, LOOKED_AT])
def test_headings_are_looked_for_among_the_first_rows_and_no_further(above: int) -> None:
    text = "\n".join(["title"] * above + ["team", "Ash"]).encode()
    if above < LOOKED_AT:
        sheet = read_team_sheet(text, file="sheet.csv", has_blocks=False)
        assert names(sheet.data) == ["Ash"]
    else:
        with pytest.raises(InputFaults, match="no column holds the teams"):
            read_team_sheet(text, file="sheet.csv", has_blocks=False)


@pytest.mark.parametrize("more", [0, 1])
def test_a_list_of_more_teams_than_any_season_has_is_refused_whole(more: int) -> None:
    text = "".join(
        ["team\n", *(f"T{number}\n" for number in range(MOST_TEAMS + more))]
    ).encode()
    if not more:
        sheet = read_team_sheet(text, file="sheet.csv", has_blocks=False)
        assert sheet.teams == MOST_TEAMS
    else:
        with pytest.raises(InputFaults) as refused:
            read_team_sheet(text, file="sheet.csv", has_blocks=False)
        assert [str(one) for one in refused.value.faults] == [
            "sheet.csv: 5,001 teams are listed. List at most 5,000."
        ]


def test_divisions_are_read_as_divisions_and_blocks_where_the_season_has_some() -> None:
    text = b"team,division,block\nAsh,Open,Monday\nBay,Mixed,Monday\n"
    sheet = read_team_sheet(text, file="sheet.csv", has_blocks=False)
    assert (sheet.data, dict(sheet.took), sheet.left) == (
        b"team,division\nAsh,Open\nBay,Mixed\n",
        {"team": "team", "division": "division"},
        ("block",),
    )
    kept = read_team_sheet(text, file="sheet.csv", has_blocks=True)
    assert kept.data == b"team,division,block\nAsh,Open,Monday\nBay,Mixed,Monday\n"


def test_a_row_keeps_its_number_below_a_title_and_empty_rows() -> None:
    text = b"Sign-ups\n\nteam\nAsh\n\nash\n"
    sheet = read_team_sheet(text, file="sheet.csv", has_blocks=False)
    (found,) = read_teams(sheet.data)[1].faults
    assert found.place.row == 6
