"""A scorecard that cannot be meant is told of each thing that is wrong."""

from decimal import Decimal

import pytest

from cases.paper_cards import (
    LEAGUE,
)
from wholeball.game.paper import (
    PaperBrokenOff,
    PaperCard,
    PaperDefault,
    PaperForfeit,
    PaperGoal,
    PaperKicks,
    PaperRating,
    PaperRed,
    PaperYellow,
)
from wholeball.game.paper_checks import misfits
from wholeball.game.state import Score


def _scores(*scores: tuple[int, int]) -> tuple[Score, ...]:
    return tuple(Score(*one) for one in scores)


@pytest.mark.parametrize(
    ("card", "found"),
    [
        (PaperCard(), [("missing", ("periods",))]),
        (PaperCard(periods=_scores((1, 0))), [("missing", ("periods",))]),
        (PaperCard(periods=_scores((1, 0)), ended="mercy"), [("missing", ("minutes_left",))]),
        (
            PaperCard(periods=_scores((1, 0), (0, 0), (0, 0))),
            [("range", ("periods",))],
        ),
        (
            PaperCard(periods=_scores((99, 99), (99, 99))),
            [],
        ),
        (
            PaperCard(periods=_scores((99, 99), (0, 0)), overtime=_scores((42, 43))),
            [("range", ("overtime", 0))],
        ),
        (
            PaperCard(periods=_scores((0, 0), (0, 0)), minutes_left=3),
            [("contradiction", ("minutes_left",))],
        ),
        (
            PaperCard(periods=_scores((0, 0), (9, 0)), ended="mercy", minutes_left=23),
            [("range", ("minutes_left",)), ("range", ("periods", 1))],
        ),
        (
            PaperCard(
                periods=(Score(1, 1), Score(0, 0)), overtime=(Score(1, 0),), ended="mercy"
            ),
            [("contradiction", ("ended",)), ("missing", ("minutes_left",))],
        ),
        (
            PaperCard(
                default=PaperDefault(by="home", in_time=True),
                forfeit=PaperForfeit(by="home", why="left"),
            ),
            [("contradiction", ("default",))],
        ),
        (
            PaperCard(
                periods=_scores((0, 0), (0, 0)), default=PaperDefault(by="home", in_time=True)
            ),
            [("contradiction", ("periods",))],
        ),
        (
            PaperCard(periods=_scores((0, 0)), broken_off=PaperBrokenOff(why="lights")),
            [("missing", ("minutes_left",))],
        ),
        (
            PaperCard(
                periods=_scores((1, 0), (0, 0)),
                goals=(PaperGoal(side="home", period=2), PaperGoal(side="home", period=3)),
            ),
            [("contradiction", ("goals", 0)), ("contradiction", ("goals", 1))],
        ),
        (
            PaperCard(
                periods=_scores((0, 0), (0, 0)),
                yellow=(
                    PaperYellow(side="home", minute=3),
                    PaperYellow(side="home", period=3, minute=3),
                ),
                red=(PaperRed(side="home", period=1),),
            ),
            [
                ("missing", ("yellow", 0, "period")),
                ("range", ("yellow", 1, "period")),
                ("missing", ("red", 0, "minute")),
            ],
        ),
        (
            PaperCard(
                periods=_scores((0, 0), (0, 0)),
                kicks=PaperKicks(first="home", home="oo", away="xx", away_numbers=(1,)),
            ),
            [("range", ("kicks", "away_numbers"))],
        ),
    ],
)
def test_what_a_card_cannot_mean_is_named(
    card: PaperCard, found: list[tuple[str, tuple[str | int, ...]]]
) -> None:
    assert [(one.code, one.loc) for one in misfits(card, LEAGUE)] == found


@pytest.mark.parametrize(("value", "is_fine"), [(0, False), (1, True), (5, True), (6, False)])
def test_a_rating_is_on_the_scale_or_refused(value: int, *, is_fine: bool) -> None:
    card = PaperCard(
        periods=_scores((0, 0), (0, 0)),
        ratings=(PaperRating(side="home", value=Decimal(value)),),
    )
    codes = [(one.code, one.loc) for one in misfits(card, LEAGUE)]
    assert codes == ([] if is_fine else [("range", ("ratings", 0, "value"))])
