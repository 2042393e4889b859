"""Declares facts: what an official saw, asked in plain words, with finitely many answers."""

from collections.abc import Mapping
from dataclasses import dataclass

from wholeball.rulings.condition import Known, When, holds


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """Values that a fact cannot have where others have some, and why, in words."""

    values: frozenset[str]
    when: When
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One thing that is asked.

    `values` holds a phrase for each value, in the order in which they are offered. It is asked
    where any of `asked_when` holds, always where there is none, and in every case only if an
    article that may still apply reads it.
    """

    name: str
    stage: str
    question: str
    values: Mapping[str, str]
    asked_when: tuple[When, ...]
    cuts: tuple[Cut, ...]

    def may_be_asked(self, known: Known) -> bool:
        """Tell whether what is known calls for this fact."""
        return not self.asked_when or any(holds(when, known) for when in self.asked_when)

    def open_values(self, known: Known) -> tuple[str, ...]:
        """Return the values that do not contradict what is known."""
        shut = {value for cut in self.cuts if holds(cut.when, known) for value in cut.values}
        return tuple(value for value in self.values if value not in shut)

    def contradicted(self, value: str, known: Known) -> str | None:
        """Return why this value cannot be, in words, or None where it can."""
        cuts = (cut for cut in self.cuts if value in cut.values and holds(cut.when, known))
        return next((cut.because for cut in cuts), None)

    @property
    def reads(self) -> frozenset[str]:
        """The names that decide whether it is asked and with which values."""
        whens = (*self.asked_when, *(cut.when for cut in self.cuts))
        return frozenset(name for when in whens for name in when)


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A fact as it is written down, its conditions in their short form."""

    name: str
    stage: str
    question: str
    values: Mapping[str, str]
    when: tuple[Mapping[str, str], ...] = ()
    cuts: tuple[tuple[str, Mapping[str, str], str], ...] = ()
