"""A ruling changes a result that was written down plainly, and keeps the score played."""

from dataclasses import replace

import pytest

from wholeball.kernel.identity import GameId, TeamId
from wholeball.season.result import Result
from wholeball.season.ruled import as_ruled, holding
from wholeball.season.ruling import Ruling

GAME = GameId("g1")
PLAYED = Result(
    game=GAME,
    round=3,
    home=TeamId("Herons"),
    away=TeamId("Otters"),
    home_goals=3,
    away_goals=2,
)
AWARDED = Ruling(number=4, game=GAME, ruled="awarded", goals=(0, 3))
FORFEIT = Ruling(number=4, game=GAME, ruled="forfeit", by="away")
ANNULLED = Ruling(number=4, game=GAME, ruled="annulled")
STANDS = Ruling(number=4, game=GAME, ruled="stands")


def test_a_game_without_a_ruling_stays_as_it_is() -> None:
    assert as_ruled(PLAYED, None) is PLAYED


@pytest.mark.parametrize(
    ("before", "ruling", "after"),
    [
        (
            PLAYED,
            AWARDED,
            {"how": "awarded", "home_goals": 0, "away_goals": 3, "played_score": (3, 2)},
        ),
        (PLAYED, FORFEIT, {"how": "forfeit", "by": "away", "played_score": (3, 2)}),
        (PLAYED, ANNULLED, {"how": "annulled", "played_score": (3, 2)}),
        (PLAYED, STANDS, {}),
        (
            replace(PLAYED, how="forfeit", by="home", home_goals=0, away_goals=0),
            AWARDED,
            {"how": "awarded", "by": None, "away_goals": 3},
        ),
        (
            replace(PLAYED, how="awarded", played_score=(1, 1)),
            AWARDED,
            {"home_goals": 0, "away_goals": 3},
        ),
        (
            replace(PLAYED, how="awarded", played_score=(1, 1)),
            STANDS,
            {"how": "played", "home_goals": 1, "away_goals": 1, "played_score": None},
        ),
        (replace(PLAYED, how="awarded"), STANDS, {}),
        (replace(PLAYED, how="forfeit", by="home", played_score=(1, 1)), STANDS, {}),
        (
            replace(PLAYED, home_goals=2, kicks=(4, 3)),
            ANNULLED,
            {"how": "annulled", "kicks": None, "played_score": (2, 2)},
        ),
        (replace(PLAYED, home_goals=2, kicks=(4, 3)), STANDS, {}),
    ],
)
def test_a_result_is_as_the_ruling_leaves_it(
    before: Result, ruling: Ruling, after: dict[str, object]
) -> None:
    was = None if ruling.ruled == "stands" else before.how
    wanted = replace(before, ruling=4, before=was, **after)  # type: ignore[arg-type]
    assert as_ruled(before, ruling) == wanted


def test_the_ruling_with_the_highest_number_holds_wherever_it_stands() -> None:
    later = replace(STANDS, number=10)
    other = replace(ANNULLED, number=11, game=GameId("g2"))
    assert holding([later, other, AWARDED]) == {GAME: later, GameId("g2"): other}
    assert holding([]) == {}
