"""Holds one figure of every team, how it compares, and what a page shows of it."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from typing import Literal, TypeAlias

import numpy as np

from wholeball.season.count import Flags, Whole

Quantity: TypeAlias = int | Fraction | Decimal | Literal["infinite"]
Reason: TypeAlias = Literal[
    "not_all_met",
    "not_recorded",
    "too_few_ratings",
    "no_goals_at_all",
    "no_play_off",
    "not_drawn",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One figure of every team.

    `worth` is what is compared, more is better, shape (teams,); where not `known` it means
    nothing, for `reason`. `figures` are what a page shows, where that is not the worth itself
    (or, for `fewest`, its opposite). `draws` name the draw a team's lot is from.
    """

    worth: Whole
    known: Flags
    reason: Reason = "not_recorded"
    fewest: bool = False
    figures: Sequence[Quantity | None] | None = None
    draws: dict[int, str] = field(default_factory=dict)

    def figure(self, team: int) -> Quantity | None:
        """Return the team's figure as a page shows it; None where it is not known."""
        if not self.known[team]:
            return None
        if self.figures is not None:
            return self.figures[team]
        return int(-self.worth[team] if self.fewest else self.worth[team])


def all_known(worth: Whole, *, fewest: bool = False) -> Column:
    """Return a column of whole numbers that every team has; the most is best, or the fewest."""
    known = np.ones(len(worth), dtype=np.bool_)
    return Column(worth=-worth if fewest else worth, known=known, fewest=fewest)


def unknown(teams: int, reason: Reason) -> Column:
    """Return a column of which no team has a figure."""
    nothing = np.zeros(teams, dtype=np.int64)
    return Column(worth=nothing, known=np.zeros(teams, dtype=np.bool_), reason=reason)


def ranked(
    figures: Sequence[Quantity | None],
    *,
    highest: bool = True,
    reason: Reason = "not_recorded",
) -> Column:
    """Return a column whose worth is each exact figure's rank among all of them."""
    exact = [None if one is None else _sortable(one) for one in figures]
    ladder = sorted({one for one in exact if one is not None}, reverse=not highest)
    rank = {one: position for position, one in enumerate(ladder)}
    return Column(
        worth=np.array([0 if one is None else rank[one] for one in exact], dtype=np.int64),
        known=np.array([one is not None for one in exact], dtype=np.bool_),
        reason=reason,
        figures=figures,
    )


def _sortable(figure: Quantity) -> tuple[bool, Fraction]:
    return (True, Fraction(0)) if figure == "infinite" else (False, Fraction(figure))
