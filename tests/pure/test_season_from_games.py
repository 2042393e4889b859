"""A game's result is what its state says, as changed by the last ruling about it."""

from datetime import date, time
from decimal import Decimal
from fractions import Fraction

import pytest

from wholeball.game.event import Event, Moment
from wholeball.game.happenings import (
    BrokenOff,
    Cautioned,
    Defaulted,
    Forfeited,
    Goal,
    Happening,
    KickTaken,
    PeriodEnded,
    PeriodStarted,
    Rated,
    SentOff,
)
from wholeball.game.play import play
from wholeball.game.rules import game_rules
from wholeball.game.state import GameState
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import Fixture, Stage
from wholeball.rulebook.load import load
from wholeball.season.from_games import cards_of, result_of
from wholeball.season.result import CardCounts, Result
from wholeball.season.ruling import Ruling

BOOK = load(
    b"""
    base = "laws-2025-26"
    game.minutes = 20
    ties = { league = "draw", play_off = "kicks" }
    forfeit.score = { winners = 4, losers = 0 }
    forfeit.default.score = { winners = 2, losers = 0 }
    resumption.broken_off_by_side = "coordinator"
    ratings.by = "officials_and_opponents"
    """,
    file="house.toml",
).rulebook
FIXTURE = Fixture(
    game=GameId("g1"),
    round=3,
    day=date(2026, 10, 6),
    start=time(19, 30),
    field="North",
    home=TeamId("Herons"),
    away=TeamId("Otters"),
)
Timed = tuple[int, int, Happening]
START: tuple[Timed, ...] = ((1, 0, PeriodStarted()),)
HALVES: tuple[Timed, ...] = (
    (1, 0, PeriodStarted()),
    (1, 1200, PeriodEnded()),
    (2, 0, PeriodStarted()),
    (2, 1200, PeriodEnded()),
)
THREE_TWO: tuple[Timed, ...] = tuple(
    (1, 60 * minute, Goal(side="home" if minute % 2 else "away")) for minute in range(1, 6)
)


def state_of(*timed: Timed, stage: Stage = "league") -> GameState:
    events = [
        Event(f"e{index}", Moment(period, clock), (index, 0, "device", index), what)
        for index, (period, clock, what) in enumerate(timed)
    ]
    return play(events, game_rules(BOOK, stage))


def result(**other: object) -> Result:
    none = CardCounts()
    usual = {"home_cards": none, "away_cards": none, **other}
    return Result(
        game=GameId("g1"),
        round=3,
        home=TeamId("Herons"),
        away=TeamId("Otters"),
        **usual,  # type: ignore[arg-type]
    )


def test_a_game_that_goes_on_has_no_result() -> None:
    assert result_of(FIXTURE, state_of(*START, *THREE_TWO)) is None


def test_a_game_played_to_its_end_counts_as_played() -> None:
    assert result_of(FIXTURE, state_of(*HALVES, *THREE_TWO)) == result(
        home_goals=3, away_goals=2
    )


def test_a_game_awarded_by_a_ruling_shows_both_scores() -> None:
    ruling = Ruling(number=4, game=GameId("g1"), ruled="awarded", goals=(0, 3))
    assert result_of(FIXTURE, state_of(*HALVES, *THREE_TWO), [ruling]) == result(
        how="awarded",
        home_goals=0,
        away_goals=3,
        played_score=(3, 2),
        ruling=4,
        before="played",
    )


def test_the_last_ruling_about_a_game_holds() -> None:
    first = Ruling(number=4, game=GameId("g1"), ruled="awarded", goals=(0, 3))
    last = Ruling(number=7, game=GameId("g1"), ruled="stands")
    another = Ruling(number=9, game=GameId("g2"), ruled="annulled")
    state = state_of(*HALVES, *THREE_TWO)
    assert result_of(FIXTURE, state, [last, first, another]) == result(
        home_goals=3, away_goals=2, ruling=7
    )


def test_a_ruling_may_forfeit_or_annul_a_game_played() -> None:
    state = state_of(*HALVES, *THREE_TWO)
    forfeit = Ruling(number=1, game=GameId("g1"), ruled="forfeit", by="home")
    annulled = Ruling(number=1, game=GameId("g1"), ruled="annulled")
    assert result_of(FIXTURE, state, [forfeit]) == result(
        how="forfeit",
        by="home",
        home_goals=3,
        away_goals=2,
        played_score=(3, 2),
        ruling=1,
        before="played",
    )
    assert result_of(FIXTURE, state, [annulled]) == result(
        how="annulled",
        home_goals=3,
        away_goals=2,
        played_score=(3, 2),
        ruling=1,
        before="played",
    )


def test_a_forfeit_before_the_start_has_no_score_played() -> None:
    state = state_of((0, 0, Forfeited(by="away", why="not_ready")))
    assert result_of(FIXTURE, state) == result(
        how="forfeit", by="away", home_goals=4, away_goals=0
    )


def test_a_default_has_the_score_of_a_default() -> None:
    state = state_of((0, 0, Defaulted(by="home", in_time=True)))
    assert result_of(FIXTURE, state) == result(
        how="default", by="home", home_goals=0, away_goals=2
    )


def test_a_game_that_waits_for_the_coordinator_has_a_result_once_it_is_ruled() -> None:
    state = state_of(
        *START, (1, 60, Goal(side="home")), (1, 90, BrokenOff(why="disorder", to_blame="away"))
    )
    ruling = Ruling(number=2, game=GameId("g1"), ruled="awarded", goals=(3, 0))
    assert result_of(FIXTURE, state) is None
    assert result_of(FIXTURE, state, [ruling]) == result(
        how="awarded", home_goals=3, away_goals=0, played_score=(1, 0), ruling=2
    )


def test_a_game_that_waits_for_the_coordinator_and_stands_counts_as_it_was_played() -> None:
    state = state_of(
        *START, (1, 60, Goal(side="home")), (1, 90, BrokenOff(why="disorder", to_blame="away"))
    )
    ruling = Ruling(number=2, game=GameId("g1"), ruled="stands")
    assert result_of(FIXTURE, state, [ruling]) == result(home_goals=1, away_goals=0, ruling=2)


def test_a_game_that_goes_on_has_no_result_that_could_stand() -> None:
    ruling = Ruling(number=2, game=GameId("g1"), ruled="stands")
    assert result_of(FIXTURE, state_of(*START, *THREE_TWO), [ruling]) is None


def test_a_forfeit_after_kicks_had_decided_leaves_no_goals_of_kicks() -> None:
    kicks = tuple(
        (9, n, KickTaken(side="home" if n % 2 else "away", scored=n % 2 == 1))
        for n in range(1, 7)
    )
    forfeit = (9, 7, Forfeited(by="home", why="barred_player"))
    state = state_of(*HALVES, *kicks, forfeit, stage="play_off")
    assert result_of(FIXTURE, state) == result(
        how="forfeit", by="home", home_goals=0, away_goals=4, played_score=(0, 0)
    )


def test_a_level_play_off_game_has_the_goals_of_its_kicks() -> None:
    kicks = tuple(
        (9, n, KickTaken(side="home" if n % 2 else "away", scored=n % 2 == 1))
        for n in range(1, 7)
    )
    state = state_of(*HALVES, *kicks, stage="play_off")
    assert result_of(FIXTURE, state) == result(kicks=(3, 0))


def test_each_player_counts_once_by_what_they_were_shown() -> None:
    state = state_of(
        *START,
        (1, 10, Cautioned(side="home", number=4)),
        (1, 20, Cautioned(side="home", number=5)),
        (1, 30, Cautioned(side="home", number=5)),
        (1, 40, SentOff(side="home", number=6)),
        (1, 50, Cautioned(side="home", number=7)),
        (1, 60, SentOff(side="home", number=7)),
        (1, 70, Cautioned(side="home", to="team_official")),
        (1, 80, Cautioned(side="home")),
        (1, 90, Cautioned(side="home")),
        (1, 99, Cautioned(side="away", number=4)),
    )
    assert cards_of(state.cards, "home") == CardCounts(
        yellow=3, second_yellow=1, straight_red=1, yellow_and_straight_red=1
    )
    assert cards_of(state.cards, "away") == CardCounts(yellow=1)


def test_a_side_is_rated_by_the_mean_of_what_it_was_given() -> None:
    rated = state_of(
        *HALVES,
        (2, 1200, Rated(side="home", by="official", hundredths=400)),
        (2, 1200, Rated(side="home", by="second_official", hundredths=300)),
    )
    found = result_of(FIXTURE, rated)
    assert found is not None
    assert (found.home_rating, found.away_rating) == (Decimal("3.5"), None)
    assert (found.home_ratings, found.away_ratings) == ((Fraction(4), Fraction(3)), ())


def test_the_mean_of_three_ratings_is_exact() -> None:
    """Thirds have no end in decimals: three games that average 3.5 must not fall below it."""
    rated = state_of(
        *HALVES,
        (2, 1200, Rated(side="away", by="official", hundredths=400)),
        (2, 1200, Rated(side="away", by="second_official", hundredths=300)),
        (2, 1200, Rated(side="away", by="opponent", hundredths=300)),
    )
    found = result_of(FIXTURE, rated)
    assert found is not None
    assert (found.home_rating, found.away_rating) == (None, Fraction(10, 3))


def test_a_red_of_a_team_official_is_kept_beside_the_players() -> None:
    state = state_of(
        *HALVES,
        (2, 1200, SentOff(side="away", to="team_official")),
        (2, 1200, Cautioned(side="home", to="team_official")),
        (2, 1200, SentOff(side="home", number=4)),
    )
    found = result_of(FIXTURE, state)
    assert found is not None
    assert (found.home_cards, found.away_cards, found.red_staff) == (
        CardCounts(straight_red=1),
        CardCounts(),
        frozenset({"away"}),
    )


@pytest.mark.parametrize(
    ("ruled", "goals", "by"),
    [("awarded", None, None), ("annulled", (1, 0), None), ("stands", None, "home")],
)
def test_a_ruling_says_all_that_it_needs_and_no_more(
    ruled: str, goals: object, by: object
) -> None:
    with pytest.raises(ValueError, match="ruling 1"):
        Ruling(number=1, game=GameId("g1"), ruled=ruled, goals=goals, by=by)  # type: ignore[arg-type]
