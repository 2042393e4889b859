"""A length is read as people write it, exactly, or refused with how to write it."""

from contextlib import suppress
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.faults import WholeballError
from wholeball.kernel.length import Length, Measure, length

ONE = 'Give a number, a space and a unit (mm, cm, m, in, ft, yd), such as "10 yd".'
PAIR = 'Give one length, or the same in metres and in yards: "9.15 m (10 yd)".'


@pytest.mark.parametrize(
    ("text", "tenths"),
    [
        ("0 m", 0),
        ("0.1 mm", 1),
        ("9.15 m", 91_500),
        ("10 yd", 91_440),
        ("8 ft", 24_384),
        ("5 in", 1_270),
        ("999999 mm", 9_999_990),
    ],
)
def test_one_measure_is_exact(text: str, tenths: int) -> None:
    read = length(text)
    assert (read.first.tenths, read.other, str(read)) == (tenths, None, text)


def test_a_pair_keeps_both_and_each_field_takes_its_own() -> None:
    read = length("9.15 m (10 yd)")
    metres, yards = Measure(Decimal("9.15"), "m"), Measure(Decimal(10), "yd")
    assert read == Length(metres, yards)
    assert (read.measured("metric"), read.measured("imperial")) == (metres, yards)
    assert length("10 yd (9.15 m)").measured("metric") == metres
    assert length("10 yd").measured("metric") == yards


@pytest.mark.parametrize("text", ["1 m (1 yd)", "4 m (4.5 yd)", "12 cm (5 in)", "0 m (0 yd)"])
def test_a_pair_may_be_rounded_as_the_laws_round(text: str) -> None:
    assert str(length(text)) == text


@pytest.mark.parametrize(
    "text", ["9 m (10 m)", "9 yd (3 ft)", "9 m (1 yd)", "0 m (1 yd)", "91.5 m (10 yd)"]
)
def test_a_pair_of_two_different_lengths_is_refused(text: str) -> None:
    with pytest.raises(WholeballError) as refused:
        length(text)
    assert refused.value.says == f"{text!r} is not one length in two systems."
    assert (refused.value.code, refused.value.fix) == ("type", PAIR)


def test_a_pair_may_be_a_quarter_apart_and_no_more() -> None:
    assert length("1.143 m (1 yd)").first.tenths * 4 == 9_144 * 5
    with pytest.raises(WholeballError, match="not one length"):
        length("1.1431 m (1 yd)")


@pytest.mark.parametrize(
    "text",
    [
        "",
        "10",
        "yd",
        "10yd",
        "10  yd",
        " 10 yd",
        "10 yd ",
        "10 yards",
        "10 YD",
        "-1 yd",
        "+1 yd",
        "1,5 m",
        ".5 m",
        "1. m",
        "1e3 m",
        "nan m",
        "1234567 m",
        "12345678901234567890 yd",
        "1.00001 m",
        "\u0661\u0660 yd",
        "\uff19 m",
        "10 yd (9.15 m",
        "10 yd (9.15 m) (1 ft)",
        "10 yd\n",
    ],
)
def test_what_is_no_length_is_refused_with_how_to_write_one(text: str) -> None:
    with pytest.raises(WholeballError) as refused:
        length(text)
    assert (refused.value.code, refused.value.says) == ("type", f"{text!r} is no length.")
    assert refused.value.fix == ONE


def test_a_length_finer_than_a_tenth_of_a_millimetre_is_refused() -> None:
    assert length("0.0001 m").first.tenths == 1
    with pytest.raises(WholeballError, match="not a whole number of tenths"):
        length("0.001 in")


@given(st.integers(0, 9_999_999), st.sampled_from(["mm", "m"]))
def test_what_is_written_reads_back_as_the_same(tenths: int, unit: str) -> None:
    amount = Decimal(tenths) / {"mm": 10, "m": 10_000}[unit]
    read = length(f"{amount:f} {unit}")
    assert read.first.tenths == tenths
    assert length(str(read)) == read


@given(st.text(max_size=12))
def test_any_text_is_a_length_or_refused(text: str) -> None:
    with suppress(WholeballError):
        assert length(text).first.amount >= 0
