"""Keeps a length as a rule states it: in the unit people wrote, or in the Laws' two."""

import re
from dataclasses import dataclass
from decimal import Decimal
from typing import Final, Literal, TypeAlias, get_args

from wholeball.kernel.faults import WholeballError
from wholeball.kernel.units import TENTHS_IN, Tenths, Unit, tenths

System: TypeAlias = Literal["metric", "imperial"]

IMPERIAL: Final[frozenset[Unit]] = frozenset({"in", "ft", "yd"})
_ONE = re.compile(r"([0-9]{1,6}(?:\.[0-9]{1,4})?) (mm|cm|m|in|ft|yd)")
_PAIR = re.compile(rf"{_ONE.pattern}(?: \({_ONE.pattern}\))?")


@dataclass(frozen=True, slots=True)
class Measure:
    """An amount in one unit, such as 9.15 m; not below nought."""

    amount: Decimal
    unit: Unit

    @property
    def tenths(self) -> Tenths:
        """The same length in tenths of a millimetre.

        Raises:
            WholeballError: the length is finer than that.
        """
        return tenths(self.amount, self.unit)

    def __str__(self) -> str:
        return f"{self.amount.normalize():f} {self.unit}"


@dataclass(frozen=True, slots=True)
class Length:
    """A length as a rule states it: one measure, or a pair as the Laws print them.

    The Laws' pairs are rounded (9.15 m is not 10 yd), so both are kept, and a field measured
    in yards takes the yards.
    """

    first: Measure
    other: Measure | None = None

    def measured(self, system: System) -> Measure:
        """Return the measure that belongs to the system, or the only one there is."""
        if self.other is not None and (self.other.unit in IMPERIAL) == (system == "imperial"):
            return self.other
        return self.first

    def __str__(self) -> str:
        return f"{self.first} ({self.other})" if self.other is not None else str(self.first)


def system_of(unit: Unit) -> System:
    """Return whether a unit is metric or imperial."""
    return "imperial" if unit in IMPERIAL else "metric"


def length(text: str) -> Length:
    """Read a length such as "10 yd" or "9.15 m (10 yd)".

    Raises:
        WholeballError: the text is no length, finer than a tenth of a millimetre, or a pair
            that is not one length in metres and in yards.
    """
    found = _PAIR.fullmatch(text)
    if found is None:
        units = ", ".join(get_args(Unit))
        raise WholeballError(
            f"{text!r} is no length.",
            fix=f'Give a number, a space and a unit ({units}), such as "10 yd".',
            code="type",
        )
    amount, unit, other_amount, other_unit = found.groups()
    first = _measure(amount, unit)
    if not other_amount:
        return Length(first)
    other = _measure(other_amount, other_unit)
    if not _is_pair(first, other):
        raise WholeballError(
            f"{text!r} is not one length in two systems.",
            fix='Give one length, or the same in metres and in yards: "9.15 m (10 yd)".',
            code="type",
        )
    return Length(first, other)


def _is_pair(first: Measure, other: Measure) -> bool:
    """Tell whether a metric and an imperial measure are one length, as far as pairs round."""
    short, long = sorted((first.tenths, other.tenths))
    return system_of(first.unit) != system_of(other.unit) and long * 4 <= short * 5


def _measure(amount: str, unit: str) -> Measure:
    known: Unit = next(name for name in TENTHS_IN if name == unit)
    measure = Measure(Decimal(amount), known)
    tenths(measure.amount, measure.unit)
    return measure
