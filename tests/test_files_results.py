"""A row of results.csv says one game that can be, and is read with all that it says."""

from datetime import date
from decimal import Decimal

import pytest

from cases.result_rows import AWARDED, DEFAULT, DOUBLE, FORFEIT, read
from wholeball.files.results import Results
from wholeball.kernel.identity import GameId, TeamId
from wholeball.season.result import CardCounts, Result


@pytest.mark.parametrize(
    "row",
    [
        {},
        {"how": "played"},
        {"how": "PLAYED"},
        {"home_goals": "0", "away_goals": "0"},
        {"home_goals": "99", "away_goals": "99", "round": "99"},
        FORFEIT,
        FORFEIT | {"by": "AWAY"},
        FORFEIT | {"home_played": "0", "away_played": "4"},
        DEFAULT,
        DOUBLE,
        DOUBLE | {"home_played": "1", "away_played": "1"},
        DOUBLE | {"how": "annulled"},
        AWARDED,
        {"how": "awarded"},
        {"date": "2026-09-01"},
        {"date": "2026-12-01"},
        {"home_rating": "1", "away_rating": "5"},
        {"home_rating": "3.5", "away_rating": "3,5"},
        {"stage": "decider"},
        {"stage": "league", "note": "a\nb"},
        {"home_yellow": "0", "away_red": "30"},
        {"away_goals": "2", "home_kicks": "4", "away_kicks": "3", "stage": "decider"},
        {"away_goals": "2", "home_kicks": "0", "away_kicks": "1"},
        {"neutral": "yes"},
    ],
)
def test_a_game_that_can_be_is_taken_without_a_word(row: dict[str, str]) -> None:
    found, table = read(row)
    assert table.faults == []
    assert len(found.results) + len(found.deciders) == 1


@pytest.mark.parametrize("day", ["2026-08-31", "2025-09-01", "2026-12-02", "2027-12-01"])
def test_a_day_up_to_a_year_outside_the_season_is_doubted_and_kept(day: str) -> None:
    found, table = read({"date": day})
    assert [(one.level, one.code, one.value) for one in table.faults] == [
        ("doubt", "range", day)
    ]
    assert found.days == {GameId("1"): date.fromisoformat(day)}


def test_a_row_is_read_with_all_that_it_says() -> None:
    found, _ = read(
        FORFEIT
        | {
            "date": "2026-09-15",
            "home_played": "1",
            "away_played": "3",
            "home_yellow": "2",
            "home_red": "1",
            "away_rating": "4,5",
            "note": "Left after a red.",
        }
    )
    assert found == Results(
        results=[
            Result(
                game=GameId("1"),
                round=1,
                home=TeamId("Reds"),
                away=TeamId("Blues"),
                how="forfeit",
                by="home",
                played_score=(1, 3),
                home_cards=CardCounts(yellow=2, straight_red=1),
                away_rating=Decimal("4.5"),
            )
        ],
        deciders=[],
        play_offs=[],
        days={GameId("1"): date(2026, 9, 15)},
        notes={GameId("1"): "Left after a red."},
        rows={GameId("1"): 2},
    )


def test_a_play_off_match_is_read_with_its_kicks_and_its_ground() -> None:
    kicks = {"away_goals": "2", "home_kicks": "4", "away_kicks": "3"}
    found, _ = read(kicks | {"stage": "decider", "neutral": "YES"}, {"game": "2"})
    assert found.deciders == [
        Result(
            game=GameId("1"),
            round=1,
            home=TeamId("Reds"),
            away=TeamId("Blues"),
            home_goals=2,
            away_goals=2,
            kicks=(4, 3),
            neutral=True,
        )
    ]
    assert [(one.kicks, one.neutral) for one in found.results] == [(None, False)]
    assert found.rows == {GameId("1"): 2, GameId("2"): 3}


def test_cards_that_were_not_recorded_are_not_nought() -> None:
    found, _ = read({"home_yellow": "0"})
    (result,) = found.results
    assert (result.home_cards, result.away_cards) == (CardCounts(), None)


def test_two_teams_that_meet_twice_in_a_round_are_doubted_and_once_a_round_are_not() -> None:
    once = read({"game": "1", "round": "1"}, {"game": "2", "round": "2"})[1]
    twice = read({"game": "1", "round": "1"}, {"game": "2", "round": "1"})[1]
    assert [(one.level, one.code, one.place.row) for one in once.faults] == []
    assert [(one.level, one.code, one.place.row) for one in twice.faults] == [
        ("doubt", "duplicate", 3)
    ]
