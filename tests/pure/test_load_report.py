"""What is wrong with a rulebook is told together and shortly; a doubt or a note stops nothing."""

import pytest

from cases.refused_rulebooks import faults_of
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.rulebook.load import load


def test_faults_of_values_and_contradictions_come_together_in_order() -> None:
    found = faults_of(
        'base = "laws-1863"\n'
        "[game]\n"
        "minutes = 0\n"
        "[goalkeeper.hold]\n"
        "seconds = 99\n"
        'then = "x"\n'
        "[sides]\n"
        "on_field = 8\n"
        "minimum_to_start = 9\n"
        "[nope]\n"
        '[mercy]\nwhy = "a\\u202e"\n'
    )
    assert [(one.place.line, one.code) for one in found] == [
        (1, "unknown_value"),
        (3, "range"),
        (5, "range"),
        (6, "unknown_value"),
        (9, "contradiction"),
        (10, "unknown_key"),
        (12, "bidi_control"),
    ]


def test_of_101_faults_100_are_shown_and_the_rest_is_counted() -> None:
    text = "".join(f"x{number} = 1\n" for number in range(101))
    with pytest.raises(InputFaults) as refused:
        load(text.encode(), file="house.toml")
    told = str(refused.value).split("\n")
    assert refused.value.code == "many_errors"
    assert len(refused.value.faults) == 101
    assert [one.place.line for one in refused.value.faults] == list(range(1, 102))
    assert told[99].startswith("house.toml line 100: x99 is no table or key of this file.")
    assert told[100:] == [
        "... and 1 more like these; 101 in all.",
        "Mend what is listed and try again.",
    ]


@pytest.mark.parametrize(
    "text",
    [
        "[game]\n" + "x" * 500_000 + " = 1",
        "x" * 500_000 + " = 1",
        '[game]\nclock = "' + "x" * 500_000 + '"',
        'name = "' + "x" * 500_000 + '"',
        "[" + "x" * 500_000 + "]\n[" + "x" * 500_000 + "]",
    ],
)
def test_a_report_is_short_however_long_the_mistake(text: str) -> None:
    assert len(str(InputFaults(faults_of(text)))) < 2_000


def test_a_doubt_stops_nothing_and_is_taken_away_by_confirming() -> None:
    text = 'base = "laws-2025-26"\n[standings]\npoints = { win = 1, draw = 3, loss = 0 }\n'
    (doubt,) = load(text.encode(), file="house.toml").remarks
    assert (doubt.level, doubt.code, doubt.place) == (
        "doubt",
        "suspicious",
        Place(file="house.toml", line=3, article="standings"),
    )
    assert load(f"{text}confirm = true\n".encode(), file="house.toml").remarks == ()


def test_a_rulebook_without_a_base_says_which_one_is_taken() -> None:
    loaded = load(b"# nothing but a comment", file="house.toml")
    assert loaded.rulebook.head.base == "laws-2025-26"
    assert loaded.remarks == (
        Fault(
            code="base_assumed",
            place=Place(file="house.toml", article="base"),
            says="No base is named; laws-2025-26 is taken.",
            cure='Write base = "laws-2025-26", so that a newer program reads the same.',
            level="note",
        ),
    )
