"""Holds a length as a whole number of tenths of a millimetre, exact in metres and in yards."""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType
from typing import Literal, NewType

from wholeball.kernel.faults import WholeballError

Tenths = NewType("Tenths", int)
"""A length in tenths of a millimetre: 0.1 mm divides the inch, so both systems stay exact."""

Unit = Literal["mm", "cm", "m", "in", "ft", "yd"]
TENTHS_IN: Mapping[Unit, int] = MappingProxyType(
    # International yard and pound agreement, 1959: one yard is 0.9144 m exactly.
    {"mm": 10, "cm": 100, "m": 10_000, "in": 254, "ft": 3_048, "yd": 9_144}
)
SMALLER: Mapping[Unit, tuple[Unit, ...]] = MappingProxyType({"yd": ("ft", "in"), "ft": ("in",)})
"""Where a length has no end in yards, a tape still shows it in feet or inches."""
MOST_DIGITS = 6
"""Whole digits a length may have: longer ones are slips, and cost time to compute."""
NONE = Tenths(0)
"""The size of a marking that the field does not have."""


def tenths(value: Decimal | int, unit: Unit) -> Tenths:
    """Return a length in tenths of a millimetre; nothing is rounded.

    Raises:
        WholeballError: not a number, too long, or not a whole number of tenths.
    """
    number = Decimal(value)
    if not number.is_finite() or number.adjusted() >= MOST_DIGITS:
        raise WholeballError(
            f"A length of {value} {unit} is not one that a field can have.",
            fix=f"Give a number with at most {MOST_DIGITS} digits before the point.",
            code="length",
        )
    exact = Fraction(number) * TENTHS_IN[unit]
    if exact.denominator != 1:
        raise WholeballError(
            f"A length of {value} {unit} is not a whole number of tenths of a millimetre.",
            fix="Give it with fewer places, or in another unit.",
            code="length",
        )
    return Tenths(exact.numerator)


def in_unit(length: int, unit: Unit) -> str:
    """Return the length as text, "16.5 m".

    Where its decimals never end: in a smaller unit of the same system ("8 ft" for yards), or
    else two of them after the word "about" (16.5 m in yards).
    """
    for each in (unit, *SMALLER.get(unit, ())):
        exact = Fraction(length, TENTHS_IN[each])
        if _ends(exact):
            return f"{_plain(Decimal(exact.numerator) / Decimal(exact.denominator))} {each}"
    return f"about {length / TENTHS_IN[unit]:.2f} {unit}"


def _ends(number: Fraction) -> bool:
    """A fraction in lowest terms has finite decimals when only 2 and 5 divide below."""
    below = number.denominator
    for prime in (2, 5):
        while below % prime == 0:
            below //= prime
    return below == 1


def _plain(number: Decimal) -> str:
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
