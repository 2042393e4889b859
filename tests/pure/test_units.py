from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.faults import WholeballError
from wholeball.kernel.units import TENTHS_IN, Unit, in_unit, tenths


@pytest.mark.parametrize("yards", [1, 2, 4, 6, 8, 10, 12, 18, 20, 44, 50, 100, 130])
def test_a_yard_is_0_9144_metres_exactly(yards: int) -> None:
    assert tenths(yards, "yd") == tenths(yards * Decimal("0.9144"), "m")


def test_36_inches_and_3_feet_are_a_yard() -> None:
    assert tenths(36, "in") == tenths(3, "ft") == tenths(1, "yd") == 9144


def test_a_tenth_of_a_millimetre_is_the_least_length() -> None:
    assert tenths(Decimal("0.1"), "mm") == 1


def test_half_a_tenth_of_a_millimetre_is_refused() -> None:
    with pytest.raises(WholeballError, match="not a whole number of tenths") as refused:
        tenths(Decimal("0.05"), "mm")
    assert refused.value.code == "length"


def test_999999_metres_is_read() -> None:
    assert tenths(999_999, "m") == 9_999_990_000


@pytest.mark.parametrize("value", ["1000000", "1e999999", "NaN", "Infinity", "-Infinity"])
def test_what_no_field_can_have_is_refused(value: str) -> None:
    with pytest.raises(WholeballError, match="not one that a field can have"):
        tenths(Decimal(value), "m")


@pytest.mark.parametrize(
    ("length", "unit", "text"),
    [
        (165_000, "m", "16.5 m"),
        (164_592, "yd", "18 yd"),
        (164_592, "m", "16.4592 m"),
        (165_000, "yd", "about 18.04 yd"),
        (24_384, "yd", "8 ft"),
        (1_270, "yd", "5 in"),
        (1_270, "ft", "5 in"),
        (-5_000, "m", "-0.5 m"),
        (1_000_000, "m", "100 m"),
        (0, "yd", "0 yd"),
    ],
)
def test_a_length_is_written_exactly_where_its_decimals_end(
    length: int, unit: Unit, text: str
) -> None:
    assert in_unit(length, unit) == text


@given(st.integers(-(10**7), 10**7), st.sampled_from(sorted(TENTHS_IN)))
def test_what_is_written_reads_back_as_the_same_length(length: int, unit: Unit) -> None:
    text = in_unit(length, unit)
    if not text.startswith("about"):
        number, written = text.split()
        assert Decimal(number) * TENTHS_IN[written] == length  # type: ignore[index]
