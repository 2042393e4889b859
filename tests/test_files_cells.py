"""A cell of a table is kept as it was meant, or named with what is allowed and the cure."""

from decimal import Decimal
from unicodedata import normalize

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.team_table import at, read, teams
from wholeball.files.cells import Column, day, decimal, one_of, text
from wholeball.files.table import read_table, write_table
from wholeball.kernel.faults import Fault, Level

HIDDEN = "Delete it and type it again."
FORMULA = "Start it with a letter or a digit, or with ' where it is meant as words."


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


def test_a_name_of_80_characters_and_the_ends_of_a_range_are_taken() -> None:
    table = read(f"team,goals\n{'x' * 80},0\nReds,99\n")
    assert [(line.need("team", str), line.need("goals", int)) for line in table.lines] == [
        ("x" * 80, 0),
        ("Reds", 99),
    ]
    assert table.faults == []


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
