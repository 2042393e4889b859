"""A table from a spreadsheet is read as it was meant, or every cell that is wrong is named."""

from contextlib import suppress
from decimal import Decimal
from unicodedata import normalize

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wholeball.files.cells import Column, day, decimal, one_line, one_of, text, whole
from wholeball.files.table import MOST_BYTES, Line, Table, read_table, write_table
from wholeball.kernel.faults import Fault, InputFaults, Level, Place, shown

COLUMNS = (
    Column(name="team", read=one_line),
    Column(name="goals", read=whole(0, 99), needed=False),
    Column(name="note", read=text, needed=False),
)
HIDDEN = "Delete it and type it again."
FORMULA = "Start it with a letter or a digit, or with ' where it is meant as words."


def read(data: bytes | str) -> Table:
    return read_table(
        data.encode() if isinstance(data, str) else data, COLUMNS, file="teams.csv"
    )


def teams(table: Table) -> list[str]:
    return [line.need("team", str) for line in table.lines]


def refused(data: bytes | str) -> tuple[Fault, ...]:
    """Return the faults of a file that cannot be read as a whole."""
    with pytest.raises(InputFaults) as caught:
        read(data)
    return caught.value.faults


def at(row: int, column: str | None = None) -> Place:
    return Place(file="teams.csv", row=row, column=column)


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


@pytest.mark.parametrize(
    "name",
    [
        "X",
        "Null",
        "O'Brien-Müller III",
        "Robert'); DROP TABLE player;--",
        "<script>alert(1)</script>",
        "{{7*7}}{% debug %}",
        "محمد بن علي",
        "😀🦵",
        "👩\u200d👧",
        "'Tis",
        "a, b",
        'say "no"',
    ],
)
def test_a_name_that_somebody_has_is_kept_as_it_is(name: str) -> None:
    table = read(write_table(["team"], [[name]]))
    assert (teams(table), table.faults) == ([name], [])


def test_letters_written_in_two_ways_are_one_name() -> None:
    assert teams(read("team\nZoë\nZoe\u0308\n")) == ["Zo\u00eb", "Zo\u00eb"]


def test_a_number_that_is_a_name_keeps_its_zeros() -> None:
    assert teams(read("team\n007\n")) == ["007"]


@pytest.mark.parametrize(
    ("cell", "column", "code", "says", "told"),
    [
        ("", "team", "missing", "the cell is empty.", (None, None, "Fill it in.")),
        ("  ", "team", "missing", "the cell is empty.", (None, None, "Fill it in.")),
        (
            "x" * 1_001,
            "note",
            "limits",
            "the cell has 1,001 characters; at most 1,000.",
            ("x" * 80, None, "Shorten it."),
        ),
        (
            "x" * 81,
            "team",
            "limits",
            f'team is "{"x" * 79}....',
            ("x" * 80, "at most 80 characters", "Shorten it: at most 80 characters."),
        ),
        (
            "a\x00b",
            "team",
            "control_char",
            "the cell holds U+0000, which nobody can see.",
            ("U+0000", None, HIDDEN),
        ),
        (
            "Ann\x1f",
            "team",
            "control_char",
            "the cell holds U+001F, which nobody can see.",
            ("U+001F", None, HIDDEN),
        ),
        (
            "Ann\u202egnp.exe",
            "team",
            "bidi_control",
            "the cell holds U+202E, which nobody can see.",
            ("U+202E", None, HIDDEN),
        ),
        (
            "'=\u202e",
            "team",
            "bidi_control",
            "the cell holds U+202E, which nobody can see.",
            ("U+202E", None, HIDDEN),
        ),
        (
            "Red\nLions",
            "team",
            "control_char",
            'team is "Red\\u000aLions".',
            ("Red\nLions", "one line", "Write it on one line."),
        ),
        (
            "=1+1",
            "team",
            "formula",
            '"=1+1" starts like a spreadsheet\'s formula.',
            ("=1+1", None, FORMULA),
        ),
        (
            " +x",
            "note",
            "formula",
            '"+x" starts like a spreadsheet\'s formula.',
            ("+x", None, FORMULA),
        ),
        (
            "@x",
            "note",
            "formula",
            '"@x" starts like a spreadsheet\'s formula.',
            ("@x", None, FORMULA),
        ),
        (
            "100",
            "goals",
            "range",
            'goals is "100".',
            ("100", "0 to 99", "Give 0 to 99."),
        ),
        (
            "1.0",
            "goals",
            "type",
            'goals is "1.0".',
            ("1.0", "0 to 99", "Give a whole number, 0 to 99, in digits."),
        ),
        (
            "\u0669",
            "goals",
            "type",
            'goals is "\u0669".',
            ("\u0669", "0 to 99", "Give a whole number, 0 to 99, in digits."),
        ),
        (
            "9" * 30,
            "goals",
            "type",
            f'goals is "{"9" * 30}".',
            ("9" * 30, "0 to 99", "Give a whole number, 0 to 99, in digits."),
        ),
    ],
)
def test_a_cell_that_is_wrong_is_named_with_value_allowed_and_cure(
    cell: str, column: str, code: str, says: str, told: tuple[str | None, str | None, str]
) -> None:
    row = {"team": "Reds", "goals": "1", "note": "x"} | {column: cell}
    quoted = ",".join(f'"{value}"' for value in row.values())
    table = read(f"team,goals,note\nBlues,2,y\n{quoted}\n")
    value, allowed, cure = told
    assert table.faults == [
        Fault(
            code=code,
            place=at(3, column),
            says=says,
            value=value,
            allowed=allowed,
            cure=cure,
        )
    ]
    assert teams(table) == ["Blues"]


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


def test_words_that_start_with_a_minus_are_kept_and_doubted() -> None:
    table = read("team\n-Anna\n")
    level: Level = "doubt"
    assert table.faults == [
        Fault(
            code="formula",
            place=at(2, "team"),
            says='"-Anna" starts with a minus; it is kept as words.',
            value="-Anna",
            cure="Nothing to do if it is meant.",
            level=level,
        )
    ]
    assert teams(table) == ["-Anna"]


def test_an_apostrophe_says_that_a_formula_is_meant_as_words() -> None:
    table = read("team\n'=1+1\n'-Anna\n''=x\n'Tis\n")
    assert (teams(table), table.faults) == (["=1+1", "-Anna", "'=x", "'Tis"], [])


def test_words_that_a_spreadsheet_would_run_are_written_with_an_apostrophe() -> None:
    written = write_table(["team", "goals"], [["=1+1", -3], ["-x", None], ["'@x", Decimal(-1)]])
    assert written == b"team,goals\n'=1+1,-3\n'-x,\n''@x,-1\n"


WORDS = st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Zl", "Zp", "Cs")))


@settings(max_examples=200, deadline=None)
@given(
    st.lists(
        st.sampled_from(["", "=", "+", "-", "@", "'", "''", '"', ",", ";"]).flatmap(
            lambda start: WORDS.map(lambda rest: start + rest)
        ),
        min_size=1,
        max_size=4,
    )
)
def test_what_is_written_is_read_again(cells: list[str]) -> None:
    columns = (Column(name="note", read=text, needed=False),)
    meant = [cell.strip() for cell in cells]
    table = read_table(write_table(["note"], [[cell] for cell in meant]), columns, file="x.csv")
    hidden = [one for one in table.faults if one.code == "bidi_control"]
    if not hidden:
        assert table.faults == []
        assert [line.get("note", str) for line in table.lines] == [
            normalize("NFC", cell) for cell in meant if cell
        ]


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
    (only,) = refused(b"team\n" + b"x" * MOST_BYTES)
    assert (only.code, only.says) == ("limits", "the file has 20,000,005 bytes.")


def test_a_report_on_ten_thousand_wrong_rows_is_short() -> None:
    table = read("team,goals\n" + "=x,100\n" * 10_000)
    lines = shown(tuple(table.faults))
    assert len(table.faults) == 20_000
    assert (len(lines), lines[-1]) == (
        101,
        "... and 19,900 more like these; 20,000 in all.",
    )
    assert len("\n".join(lines)) < 20_000


@pytest.mark.parametrize(
    ("cell", "code"),
    [
        ("2026-09-15", None),
        ("2028-02-29", None),
        ("2026-02-29", "date"),
        ("2026-13-01", "date"),
        ("20260915", "date"),
        ("2026-W38-2", "date"),
        ("2026-9-5", "date"),
        ("15/09/2026", "ambiguous"),
        ("9.5.26", "ambiguous"),
        ("15-09-2026", "ambiguous"),
        ("soon", "date"),
        ("\u0662026-09-15", "date"),
    ],
)
def test_a_day_is_year_month_day_and_nothing_else(cell: str, code: str | None) -> None:
    table = read_table(f"day\n{cell}\n".encode(), (Column(name="day", read=day),), file="x.csv")
    assert [one.code for one in table.faults] == ([] if code is None else [code])


@pytest.mark.parametrize(
    ("cell", "number"),
    [
        ("3", Decimal(3)),
        ("3.5", Decimal("3.5")),
        ('"3,5"', Decimal("3.5")),
        ("nan", None),
        ("1e3", None),
        ("3.55555", None),
        (".5", None),
    ],
)
def test_a_number_is_exact_with_a_point_or_a_comma(cell: str, number: Decimal | None) -> None:
    columns = (Column(name="rating", read=decimal),)
    table = read_table(f"rating\n{cell}\n".encode(), columns, file="x.csv")
    assert [line.get("rating", Decimal) for line in table.lines] == (
        [] if number is None else [number]
    )
    assert [one.code for one in table.faults] == (["type"] if number is None else [])


def test_a_word_may_be_written_in_any_case() -> None:
    columns = (Column(name="how", read=one_of("played", "forfeit")),)
    table = read_table(b"how\nPlayed\nforfiet\n", columns, file="x.csv")
    assert [line.get("how", str) for line in table.lines] == ["played"]
    assert [(one.code, one.allowed, one.cure) for one in table.faults] == [
        ("unknown_value", "played, forfeit", "Did you mean forfeit?")
    ]


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
