"""Measures lengths exactly, in whole tenths of a millimetre, and keeps the unit people wrote."""

import re
from dataclasses import dataclass
from decimal import Decimal
from typing import Final, Literal, TypeAlias, get_args

from wholeball.kernel.faults import WholeballError

Unit: TypeAlias = Literal["mm", "cm", "m", "in", "ft", "yd"]
System: TypeAlias = Literal["metric", "imperial"]

TENTHS: Final[dict[Unit, int]] = {
    "mm": 10,
    "cm": 100,
    "m": 10_000,
    "in": 254,
    "ft": 3_048,
    "yd": 9_144,
}
"""Tenths of a millimetre in one unit; the inch is 25.4 mm by definition (1959 agreement)."""

IMPERIAL: Final[frozenset[Unit]] = frozenset({"in", "ft", "yd"})
_ONE = re.compile(r"(\d{1,6}(?:\.\d{1,4})?) (mm|cm|m|in|ft|yd)")
_PAIR = re.compile(rf"{_ONE.pattern}(?: \({_ONE.pattern}\))?")


@dataclass(frozen=True, slots=True)
class Measure:
    """An amount in one unit, such as 9.15 m; not below nought."""

    amount: Decimal
    unit: Unit

    @property
    def tenths(self) -> int:
        """The same length in tenths of a millimetre.

        Raises:
            WholeballError: the length is finer than a tenth of a millimetre.
        """
        exact = self.amount * TENTHS[self.unit]
        if exact != int(exact):
            raise WholeballError(
                f"{self} is not a whole number of tenths of a millimetre.",
                fix="Give fewer digits.",
                code="range",
            )
        return int(exact)

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
        WholeballError: the text is no length.
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
    return Length(first, _measure(other_amount, other_unit) if other_amount else None)


def _measure(amount: str, unit: str) -> Measure:
    known: Unit = next(name for name in TENTHS if name == unit)
    return Measure(Decimal(amount), known)
