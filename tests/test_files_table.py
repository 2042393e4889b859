"""A table from a spreadsheet is read as it was meant, or what is wrong with its rows is named."""

from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.team_table import at, read, teams
from wholeball.files.table import MOST_BYTES, Line
from wholeball.kernel.faults import Fault, InputFaults, Place, shown


def refused(data: bytes | str) -> tuple[Fault, ...]:
    """Return the faults of a file that cannot be read as a whole."""
    with pytest.raises(InputFaults) as caught:
        read(data)
    return caught.value.faults


@pytest.mark.parametrize(
    "data",
    [
        "team,goals\nReds,1\nBlues,\n",
        "\ufeffteam,goals\nReds,1\nBlues,\n",
        "team;goals\nReds;1\nBlues;\n",
        "team,goals\r\nReds,1\r\nBlues,\r\n",
        "team,goals\rReds,1\rBlues,\r",
        "\n\nteam,goals\n\nReds,1\n,\nBlues,",
        ' Team , "GOALS"\n Reds , "1"\n"Blues", ""\n',
        "goals,team\n1,Reds\n,Blues\n",
    ],
)
def test_a_table_is_read_however_a_spreadsheet_writes_it(data: str) -> None:
    table = read(data)
    assert [dict(line.cells) for line in table.lines] == [
        {"team": "Reds", "goals": 1},
        {"team": "Blues", "goals": None},
    ]
    assert table.faults == []


def test_rows_count_as_a_spreadsheet_counts_them() -> None:
    table = read('team,note\n\nReds,"two\nlines"\nBlues,x\n')
    assert [line.row for line in table.lines] == [3, 4]
    assert table.lines[0].get("note", str) == "two\nlines"


def test_all_faults_of_a_row_are_named_and_the_row_is_left_out() -> None:
    table = read("team,goals,note\n,100,=x\nReds,1,\n-Blues,x,-y\n")
    assert [(one.place.row, one.place.column, one.code, one.level) for one in table.faults] == [
        (2, "team", "missing", "fault"),
        (2, "goals", "range", "fault"),
        (2, "note", "formula", "fault"),
        (4, "team", "formula", "doubt"),
        (4, "goals", "type", "fault"),
        (4, "note", "formula", "doubt"),
    ]
    assert [line.row for line in table.lines] == [3]


@pytest.mark.parametrize(
    ("data", "code", "row", "says", "cure"),
    [
        ("", "empty", None, "the file is empty.", "It starts with team."),
        (" \n\n,,\n", "empty", None, "the file is empty.", "It starts with team."),
        (
            'team,note\na,b\n"c,d\ne,f\n',
            "syntax",
            3,
            "a quote is opened here and never closed.",
            "Close it, or take it out.",
        ),
        (
            'team\n"a"b\n',
            "syntax",
            2,
            "a quote is closed in the middle of a cell.",
            'Write a quote inside quotes twice: "".',
        ),
        (
            "team\n" + "x" * 200_000,
            "limits",
            2,
            "a cell has more than 1,000 characters.",
            "Shorten it, or close its quote.",
        ),
        (
            "team,Team\na,b\n",
            "duplicate_column",
            1,
            "column 'team' appears twice.",
            "Take one out.",
        ),
        (
            "\nteam,gaols\na,b\n",
            "unknown_column",
            2,
            "column 'gaols' is not known.",
            "Did you mean goals?",
        ),
        (
            "team,\na,b\n",
            "unknown_column",
            1,
            "column '' is not known.",
            "Use one of: team, goals, note.",
        ),
        (
            "goals\n1\n",
            "missing_column",
            1,
            "column team is missing; found: 'goals'.",
            "The first line is team.",
        ),
        (
            "team" + ",x" * 100 + "\n",
            "limits",
            1,
            "the header has 101 columns.",
            "At most 100.",
        ),
    ],
)
def test_a_file_that_cannot_be_read_says_where_it_goes_wrong(
    data: str, code: str, row: int | None, says: str, cure: str
) -> None:
    assert refused(data) == (
        Fault(code=code, place=Place(file="teams.csv", row=row), says=says, cure=cure),
    )


def test_tabs_do_not_make_one_wide_column() -> None:
    found = refused("team\tgoals\nReds\t1\n")
    assert [one.code for one in found] == ["unknown_column", "missing_column"]


def test_all_faults_of_a_header_come_together() -> None:
    found = refused("goals,goals,x\x1b[31m\n")
    assert [(one.code, one.says) for one in found] == [
        ("duplicate_column", "column 'goals' appears twice."),
        ("unknown_column", "column 'x\\x1b[31m' is not known."),
        ("missing_column", "column team is missing; found: 'goals', 'goals', 'x\\x1b[31m'."),
    ]


@pytest.mark.parametrize(("cells", "count"), [("a", "1 cell"), ("a,1,b", "3 cells")])
def test_a_row_of_another_width_is_named(cells: str, count: str) -> None:
    table = read(f"team,goals\n{cells}\nReds,1\n")
    assert table.faults == [
        Fault(
            code="row_width",
            place=at(2),
            says=f"the row has {count}, the header has 2.",
            cure="A comma inside a cell needs quotes round the cell.",
        )
    ]
    assert teams(table) == ["Reds"]


def test_a_file_of_another_encoding_is_named() -> None:
    (utf16,) = refused("team\nReds\n".encode("utf-16"))
    (latin,) = refused(b"team\nZo\xeb\n")
    assert (utf16.code, utf16.says) == ("encoding", "the file is UTF-16.")
    assert (latin.code, latin.place.line, latin.says) == (
        "encoding",
        2,
        "byte 0xeb is not UTF-8.",
    )


def test_a_file_that_is_far_too_large_is_not_read() -> None:
    (only,) = refused(b"team\n" + b"x" * (MOST_BYTES - 4))
    assert (only.code, only.says) == ("limits", "the file has 20,000,001 bytes.")
    (read_after_all,) = refused(b"team\n" + b"x" * (MOST_BYTES - 5))
    assert read_after_all.says == "a cell has more than 1,000 characters."


def test_a_header_of_100_columns_is_looked_at_column_by_column() -> None:
    found = refused("team" + ",x" * 99 + "\n")
    assert {one.code for one in found} == {"duplicate_column", "unknown_column"}


def test_a_report_on_ten_thousand_wrong_rows_is_short() -> None:
    table = read("team,goals\n" + "=x,100\n" * 10_000)
    lines = shown(tuple(table.faults))
    assert len(table.faults) == 20_000
    assert (len(lines), lines[-1]) == (
        101,
        "... and 19,900 more like these; 20,000 in all.",
    )
    assert len("\n".join(lines)) < 20_000


def test_a_cell_asked_for_as_another_kind_is_our_mistake() -> None:
    line = Line(2, {"team": "Reds", "goals": None})
    with pytest.raises(TypeError, match="column team holds str, not int"):
        line.get("team", int)
    with pytest.raises(TypeError, match="column goals was read as needed and is empty"):
        line.need("goals", int)


@settings(max_examples=200, deadline=None)
@given(st.binary(max_size=40) | st.text(max_size=40).map(str.encode))
def test_any_bytes_after_a_header_are_read_or_refused(data: bytes) -> None:
    for start in (b"", b"team,goals,note\n", b"team;goals\n"):
        with suppress(InputFaults):
            table = read(start + data)
            rows = {one.place.row for one in table.faults if one.level == "fault"}
            assert rows.isdisjoint(line.row for line in table.lines)
