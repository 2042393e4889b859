"""Counts whether a mixed side can be put on the field from those who are checked in."""

from collections.abc import Iterable
from dataclasses import dataclass

from wholeball.league.person import Gender
from wholeball.rulebook.tables.people import Sides


@dataclass(frozen=True, slots=True, kw_only=True)
class MixedCount:
    """How many women and men are there, how many are wanted, and how many may be on the field.

    `most` is the largest side that keeps to the rule. Whoever says to be neither, or says
    nothing, counts as neither and takes a place.
    """

    women: int
    men: int
    others: int
    women_lacking: int
    men_lacking: int
    most: int


def mixed_count(sides: Sides, there: Iterable[Gender | None]) -> MixedCount:
    """Return what a side comes to; a goalkeeper who does not count may be anybody."""
    genders = list(there)
    women, men = genders.count("woman"), genders.count("man")
    others = len(genders) - women - men
    rules = sides.mixed
    places = sides.on_field
    apart = rules.difference_most
    keeper = 0 if rules.goalkeeper_counts or sides.goalkeeper == "none" else 1
    most = max(
        (
            w + m + others_on + min(keeper, len(genders) - w - m - others_on)
            for w in range(women + 1)
            for m in range(men + 1)
            if apart == "no_limit" or abs(w - m) <= apart
            for others_on in (min(others, max(places - keeper - w - m, 0)),)
            if w + m + others_on <= places - keeper
        ),
        default=0,
    )
    return MixedCount(
        women=women,
        men=men,
        others=others,
        women_lacking=max(rules.women_least - women, 0),
        men_lacking=max(rules.men_least - men, 0),
        most=most,
    )
