"""What a schema refuses becomes one fault a mistake, with value, allowed and cure."""

from datetime import date
from decimal import Decimal
from typing import Annotated, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel, ConfigDict, Field, ValidationError

from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.lines import lines
from wholeball.kernel.refusals import (
    Schema,
    Source,
    hidden_faults,
    named,
    refuse_version,
    toml_text,
    value_faults,
)
from wholeball.kernel.text import unreadable
from wholeball.kernel.toml import frozen, read_toml


class Rung(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)

    lead: int = Field(ge=1, le=99)


class Night(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)

    title: str = Field(default="a", min_length=1, max_length=5)
    games: int = Field(default=1, ge=1, le=9)
    price: Decimal = Decimal(0)
    colour: Literal["red", "blue"] = "red"
    indoors: Literal[False] = False
    lit: bool = True
    first: date = date(2026, 9, 15)
    rungs: tuple[Rung, ...] = Field(default=(), max_length=2)
    words: tuple[Literal["a", "b"], ...] = Field(default=("a",), min_length=1)
    most: Annotated[int, Field(ge=0)] = Field(default=0, le=3)


SCHEMA = Schema(root=Night, top_keys=tuple(Night.model_fields), often_meant={"crimson": "red"})


def fault(key: str, code: str, says: str, value: str, allowed: str, cure: str) -> Fault:
    return Fault(
        code=code,
        place=Place(file="night.toml", line=1),
        says=f"{key} {says}.",
        value=value,
        allowed=allowed,
        cure=cure,
    )


def faults_of(text: str) -> list[Fault]:
    said = frozen(read_toml(text.encode(), file="night.toml"))
    with pytest.raises(ValidationError) as refused:
        Night.model_validate(said)
    errors = refused.value.errors(include_url=False)
    return value_faults(errors, Source("night.toml", lines(text)), SCHEMA)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("games = 0", fault("games", "range", "is 0", "0", "1 to 9", "Give 1 to 9.")),
        (
            'games = "7"',
            fault(
                "games",
                "type",
                'is "7"',
                '"7"',
                "a whole number",
                "Write games = 7, without quotes.",
            ),
        ),
        (
            "games = true",
            fault("games", "type", "is true", "true", "a whole number", "Give a whole number."),
        ),
        (
            "games = 2.5",
            fault("games", "type", "is 2.5", "2.5", "a whole number", "Give a whole number."),
        ),
        (
            "games = nan",
            fault(
                "games", "range", "is nan", "nan", "a finite number", "Give a finite number."
            ),
        ),
        (
            "price = -inf",
            fault(
                "price", "range", "is -inf", "-inf", "a finite number", "Give a finite number."
            ),
        ),
        (
            'title = ""',
            fault(
                "title", "range", "has 0 characters", '""', "1 to 5 characters", "Give 1 to 5."
            ),
        ),
        (
            'title = "abcdef"',
            fault(
                "title",
                "limits",
                "has 6 characters",
                '"abcdef"',
                "1 to 5 characters",
                "Give 1 to 5.",
            ),
        ),
        (
            "title = 1",
            fault("title", "type", "is 1", "1", "text in quotes", "Give text in quotes."),
        ),
        (
            'colour = "rde"',
            fault(
                "colour", "unknown_value", 'is "rde"', '"rde"', "red, blue", "Did you mean red?"
            ),
        ),
        (
            'colour = "crimson"',
            fault(
                "colour",
                "unknown_value",
                'is "crimson"',
                '"crimson"',
                "red, blue",
                "Did you mean red?",
            ),
        ),
        (
            'colour = "x"',
            fault(
                "colour",
                "unknown_value",
                'is "x"',
                '"x"',
                "red, blue",
                "Use one of: red, blue.",
            ),
        ),
        (
            "colour = true",
            fault("colour", "type", "is true", "true", "red, blue", "Use one of: red, blue."),
        ),
        (
            "indoors = true",
            fault("indoors", "range", "is true", "true", "false", "Use one of: false."),
        ),
        (
            "lit = 1",
            fault("lit", "type", "is 1", "1", "true or false", "Give true or false."),
        ),
        (
            "first = 12:00:00",
            fault(
                "first",
                "type",
                "is 12:00:00",
                "12:00:00",
                "a day such as 2026-09-15",
                "Give a day such as 2026-09-15.",
            ),
        ),
        (
            "gmaes = 1",
            fault(
                "gmaes",
                "unknown_key",
                "is no table or key of this file",
                "1",
                ", ".join(Night.model_fields),
                "Did you mean games?",
            ),
        ),
        (
            "rungs = [{}]",
            fault(
                "rungs item 1.lead",
                "missing",
                "is missing",
                "{}",
                "a value",
                "Give it a value.",
            ),
        ),
        (
            "rungs = [{ lead = 1, laed = 2 }]",
            fault(
                "rungs item 1.laed",
                "unknown_key",
                "is not known",
                "2",
                "lead",
                "Did you mean lead?",
            ),
        ),
        (
            "rungs = [[]]",
            fault("rungs item 1", "type", "is []", "[]", "a table", "Give a table."),
        ),
        (
            "rungs = 1",
            fault(
                "rungs", "type", "is 1", "1", "a list in brackets", "Give a list in brackets."
            ),
        ),
        (
            "words = []",
            fault("words", "range", "has 0 items", "[]", "1 or more items", "Give 1 or more."),
        ),
        (
            'words = ["c"]',
            fault(
                "words item 1", "unknown_value", 'is "c"', '"c"', "a, b", "Use one of: a, b."
            ),
        ),
    ],
)
def test_each_mistake_gets_exactly_one_fault(text: str, expected: Fault) -> None:
    assert faults_of(text) == [expected]


def test_a_list_too_long_is_a_matter_of_limits() -> None:
    (only,) = faults_of("rungs = [{ lead = 1 }, { lead = 2 }, { lead = 3 }]")
    assert (only.code, only.says, only.allowed, only.cure) == (
        "limits",
        "rungs has 3 items.",
        "at most 2 items",
        "Give at most 2.",
    )


def test_all_faults_come_in_the_order_of_the_file() -> None:
    found = faults_of('words = [\n  "c",\n  "a",\n  "d",\n]\ngames = 0\ntitle = ""\n')
    assert [(one.place.line, one.code) for one in found] == [
        (2, "unknown_value"),
        (4, "unknown_value"),
        (6, "range"),
        (7, "range"),
    ]


@pytest.mark.parametrize(
    ("value", "told"),
    [
        (True, "true"),
        (12, "12"),
        (Decimal("1.50"), "1.50"),
        (Decimal("nan"), "nan"),
        (Decimal("-inf"), "-inf"),
        ("a", '"a"'),
        ('say "no"', '"say \\"no\\""'),
        ("a\\b", '"a\\\\b"'),
        ("a\nb\tc", '"a\\u000ab\\u0009c"'),
        ("a\x1b[31m", '"a\\u001b[31m"'),
        ("a\u202eb", '"a\\u202eb"'),
        ("😀 é", '"😀 é"'),
        ((), "[]"),
        ([1, ["a"]], '[1, ["a"]]'),
        ({}, "{}"),
        ({"a": 1, "b c": [2], "": 3}, '{ a = 1, "b c" = [2], "" = 3 }'),
        (date(2026, 9, 15), "2026-09-15"),
    ],
)
def test_a_value_is_shown_as_a_person_would_write_it(value: object, told: str) -> None:
    assert toml_text(value) == told


def test_a_long_value_is_cut_and_costs_nothing() -> None:
    for value in ("x" * 1_000_000, [1] * 1_000_000, {str(n): n for n in range(100_000)}):
        assert toml_text(value).endswith("...")
        assert len(toml_text(value)) == 83


@given(st.text(max_size=30))
def test_a_text_shown_can_be_read_by_everybody_and_by_toml(text: str) -> None:
    told = toml_text(text)
    assert unreadable(told) is None
    assert read_toml(f"a = {told}".encode(), file="a.toml") == {"a": text}


@pytest.mark.parametrize(
    ("loc", "article", "told"),
    [
        (("name",), None, "name"),
        (("game", "minutes"), "game", "[game] minutes"),
        (("game",), "game", "[game]"),
        (("goalkeeper", "hold", "seconds"), "goalkeeper.hold", "[goalkeeper.hold] seconds"),
        (("mercy", "ladder", 1, "lead"), "mercy", "[mercy] ladder item 2.lead"),
        (("goalkeeper.hold",), None, '"goalkeeper.hold"'),
        (("g\u202ename",), None, '"g\\u202ename"'),
        (("",), None, '""'),
        (("x" * 100,), None, "x" * 80 + "..."),
    ],
)
def test_a_key_is_named_as_a_person_would_write_it(
    loc: tuple[str | int, ...], article: str | None, told: str
) -> None:
    assert named(loc, article) == told


@pytest.mark.parametrize(
    ("text", "code", "told"),
    [
        ("schema = 2", "version", "2"),
        ("schema = 0", "version", "0"),
        ("schema = true", "type", "true"),
        ("schema = 1.0", "type", "1.0"),
        ('schema = "1"', "type", '"1"'),
    ],
)
def test_a_file_of_another_version_is_refused_and_nothing_is_guessed(
    text: str, code: str, told: str
) -> None:
    data = f"\n{text}\n"
    said = read_toml(data.encode(), file="a.toml")
    with pytest.raises(InputFaults) as refused:
        refuse_version(said, reads=1, source=lambda: Source("a.toml", lines(data)))
    assert refused.value.faults == (
        Fault(
            code=code,
            place=Place(file="a.toml", line=2),
            says=f"schema is {told}; this program reads schema 1.",
            value=told,
            allowed="1",
            cure="Nothing was guessed. Get the newer program, or write the file anew.",
        ),
    )


def test_the_lines_are_not_looked_for_where_the_version_is_right() -> None:
    def no_source() -> Source:
        pytest.fail("no fault, so no line is needed")

    refuse_version({"schema": 1}, reads=1, source=no_source)
    refuse_version({}, reads=1, source=no_source)


def test_every_text_that_nobody_can_read_is_named_wherever_it_stands() -> None:
    text = 'title = "a\\u202e"\nwords = ["b",\n"\\u0000"]\n[deep]\n"k k" = "\\u2028"\n'
    said = read_toml(text.encode(), file="a.toml")
    found = hidden_faults(said, Source("a.toml", lines(text)), SCHEMA)
    assert [(one.code, one.place.line, one.says, one.value) for one in found] == [
        ("bidi_control", 1, "title holds U+202E, which nobody can see.", "U+202E"),
        ("control_char", 3, "words item 2 holds U+0000, which nobody can see.", "U+0000"),
        ("control_char", 5, 'deep."k k" holds U+2028, which nobody can see.', "U+2028"),
    ]
