"""What is said of ratings and of what they can tell."""

from dataclasses import replace
from decimal import Decimal
from typing import Final

import pytest

from wholeball.kernel.identity import GameId, TeamId
from wholeball.reports.ratings_words import (
    estimate_text,
    group_lines,
    notes,
    rates_text,
    review_line,
)
from wholeball.rulebook.load import load
from wholeball.rulebook.tables.season import Ratings
from wholeball.season.ratings import Rated, Rater, ToReview
from wholeball.season.severity import Estimate, OfficialEstimate, Severity, TeamEstimate

RULES: Final[Ratings] = load(
    b"""
    base = "laws-2025-26"
    [ratings]
    by = "officials_and_opponents"
    scale = { low = 1, high = 5, step = 0.5 }
    floor = 1.5
    """,
    file="house.toml",
).rulebook.ratings
KIM: Final = OfficialEstimate(
    official="Kim", group=1, games=4, ratings=8, rates=None, always=None
)
TOLD: Final = Severity(
    teams=(TeamEstimate(team=TeamId("Owls"), group=1, ratings=8, plain=4, typical=None),),
    officials=(KIM,),
    groups=1,
    team_variance=0,
    official_variance=0,
    residual=1,
    enough_officials=True,
    shared=0,
    same=0,
    as_one=False,
)
LAST: Final = (
    "Ratings that a rule brings or holds down, and those of opponents, are left out. Whether a "
    "side won is not allowed for."
)


@pytest.mark.parametrize(
    ("by", "official", "who"),
    [
        ("official", "Kim", "given by Kim"),
        ("second_official", None, "given by an official whom no crew names"),
        ("opponent", None, "given by the opponents"),
        (None, None, "given by somebody whom no list names"),
    ],
)
def test_a_rating_to_look_at_says_who_gave_it(
    by: Rater | None, official: str | None, who: str
) -> None:
    rated = Rated(
        game=GameId("g1"),
        round=1,
        team=TeamId("Owls"),
        by=by,
        official=official,
        value=Decimal("1.50"),
        reason=" shouted ",
    )
    assert review_line(ToReview(rated=rated, why="floor"), RULES) == (
        f"Owls, game g1: 1.5, {who}. A rating of 1.5 or lower goes to the coordinator. Reason "
        'given: "shouted".'
    )


@pytest.mark.parametrize(
    ("rates", "says"),
    [
        (None, ("too few games", "", "")),
        ((0.5, -0.1, 1.1), ("+0.50", "-0.10 to +1.10", "no detectable difference")),
        ((0.5, 0.1, 0.9), ("+0.50", "+0.10 to +0.90", "rates higher than a typical official")),
        (
            (-0.5, -0.9, -0.1),
            ("-0.50", "-0.90 to -0.10", "rates lower than a typical official"),
        ),
        ((0.5, 0.0, 1.0), ("+0.50", "+0.00 to +1.00", "no detectable difference")),
    ],
)
def test_an_official_is_told_of_only_where_the_interval_leaves_out_nought(
    rates: tuple[float, float, float] | None, says: tuple[str, str, str]
) -> None:
    found = None if rates is None else Estimate(value=rates[0], low=rates[1], high=rates[2])
    assert rates_text(replace(KIM, rates=found)) == says


def test_an_estimate_has_two_figures_after_the_point_or_is_not_told() -> None:
    assert estimate_text(Estimate(value=4.126, low=3.5, high=4.7)) == ("4.13", "3.50 to 4.70")
    assert estimate_text(None) == ("not told", "")


def test_notes_say_what_is_taken_for_granted() -> None:
    assert [*notes(TOLD)] == [LAST]
    crew = replace(TOLD, shared=9, same=8)
    assert next(iter(notes(crew))) == (
        "Two officials rated the same side 9 times, alike in 8 of them: they count as two "
        "ratings, so if crews confer, intervals are too narrow."
    )
    alike = replace(TOLD, shared=9, same=9, as_one=True)
    assert next(iter(notes(alike))) == (
        "Two officials rated the same side 9 times, alike in 9 of them: the two count as one "
        "rating."
    )
    one_value = replace(TOLD, officials=(replace(KIM, always=4.0),))
    assert next(iter(notes(one_value))) == "Kim gave 4 in all 8 ratings."


def test_one_group_is_not_mentioned() -> None:
    assert [*group_lines(TOLD)] == []
