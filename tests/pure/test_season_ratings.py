"""What ratings come to by the rulebook: the average that counts, its gate, what to look at."""

from dataclasses import replace
from datetime import date, time
from decimal import Decimal
from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.game.event import Moment
from wholeball.game.happenings import EventId
from wholeball.game.state import Rating
from wholeball.kernel.identity import GameId, PoolId, Side, TeamId
from wholeball.league.crew import OnCrew
from wholeball.league.fixture import Fixture
from wholeball.league.league import League, Team
from wholeball.rulebook.load import load
from wholeball.season.appearances import GameSheet
from wholeball.season.average import average, mean
from wholeball.season.raters import rated_in
from wholeball.season.ratings import (
    Gate,
    Rated,
    RatedGame,
    SeasonRatings,
    TeamRatings,
    ToReview,
    gate,
    opinions,
    season_ratings,
)
from wholeball.season.result import CardCounts, Result
from wholeball.season.season import Season, pool_tables
from wholeball.season.upheld import upheld

A, B, C = (TeamId(name) for name in "ABC")
RULES = """
base = "laws-2025-26"
name = "House"
source = "the house"
[ratings]
by = "BY"
scale = { low = 1, high = 5, step = 0.5 }
reason_at_or_below = 2
cap_after_sending_off = 3
floor = 1.5
minimum_count = 2
play_off_minimum = 3.5
[ratings.given]
forfeiting = 2
defaulting = 4
ready = 5
[standings]
criteria = ["points", "ratings_average"]
"""
RED = CardCounts(straight_red=1)


@pytest.mark.parametrize(
    ("found", "expected"),
    [
        (Fraction(7, 2), "passes"),
        (Fraction("3.495"), "below"),
        (Fraction("3.4999999999999999999999999999999"), "below"),
        (Fraction(5), "passes"),
        (None, "too_few"),
    ],
)
def test_the_gate_compares_what_is_not_rounded(found: Fraction | None, expected: Gate) -> None:
    assert gate(found, Decimal("3.5")) == expected


def test_games_whose_means_have_no_end_in_decimals_average_exactly() -> None:
    """10/3, 10/3 and 23/6 are 3.5 on average; each cut to 28 digits first, they fall short."""
    means = [Fraction(10, 3), Fraction(10, 3), Fraction(23, 6)]
    short = [Fraction(Decimal(one.numerator) / one.denominator) for one in means]
    assert gate(average(short, least=3), Decimal("3.5")) == "below"
    assert gate(average(means, least=3), Decimal("3.5")) == "passes"


def test_an_average_counts_from_the_stated_number_of_games_on() -> None:
    one = _team(_ratings(_game(1, home="5")), A)
    two = _team(_ratings(_game(1, home="5"), _game(2, home="3.5")), A)
    assert (one.count, one.average, one.gate) == (1, None, "too_few")
    assert (two.count, two.average, two.gate) == (2, Fraction(17, 4), "passes")


@pytest.mark.parametrize(
    ("given", "counts", "source"),
    [
        (("5", "2"), "2.5", "capped"),
        (("3.5", "2"), "2.5", "capped"),
        (("3", "2"), "2.5", "rated"),
        (("2", "1"), "1.5", "rated"),
        ((), "3", "capped"),
    ],
)
def test_of_a_side_with_a_red_each_rating_is_capped_before_the_mean(
    given: tuple[str, ...], counts: str, source: Literal["rated", "capped"]
) -> None:
    """A cap of 3, our own rule; where nobody knows the single ratings the mean is capped."""
    values = tuple(map(Fraction, given))
    mean = sum(values, Fraction()) / len(values) if values else Fraction("4.5")
    game = replace(
        _game(1), home_cards=RED, away_cards=CardCounts(), home_rating=mean, home_ratings=values
    )
    was = str(mean) if source == "capped" else None
    assert _team(_ratings(game), A).games == (_rated_game(1, counts, source=source, was=was),)


def test_a_game_whose_ratings_stand_is_not_written_anew() -> None:
    """A table is made after each round, so that copying every game takes most of the time."""
    season = _season(_game(1, home="4"), _game(2), _game(3, how="forfeit", by="home"))
    stand = upheld(season.results, season.rulebook).results
    same = [one is other for one, other in zip(stand, season.results, strict=True)]
    assert same == [True, True, False]


def test_given_and_capped_ratings_count_and_are_marked() -> None:
    found = _ratings(
        _game(3, how="forfeit", by="home"),
        replace(_game(2, home="4.5"), home_cards=RED, away_cards=CardCounts()),
        _game(1, home="4"),
        _game(4, home="1", how="annulled"),
    )
    team = _team(found, A)
    assert team.games == (
        _rated_game(1, "4"),
        _rated_game(2, "3", source="capped", was="4.5"),
        _rated_game(3, "2", source="given"),
    )
    assert (team.average, team.gate) == (Fraction(3), "below")
    assert _team(found, B).games == (_rated_game(3, "5", source="given"),)


def test_teams_stand_in_the_order_of_the_list_whatever_their_ratings() -> None:
    for first, second in (("1", "5"), ("5", "1")):
        found = _ratings(_game(1, home=first, away=second), _game(2, home=first, away=second))
        assert [one.team for one in found.teams] == [C, A, B]


def test_a_league_in_which_nobody_rates_has_no_averages() -> None:
    found = _ratings(_game(1, home="1"), by="nobody")
    assert (found.teams, found.review) == ((), ())


@given(
    st.lists(
        st.tuples(
            st.integers(2, 10), st.integers(2, 10), st.sampled_from(["played", "annulled"])
        ),
        min_size=1,
        max_size=8,
    )
)
def test_the_average_is_the_one_that_the_table_reads(games: list[tuple[int, int, str]]) -> None:
    """The table asks for the average where points are level, and shows what it found."""
    played = [
        _game(at, home=str(Decimal(home) / 2), away=str(Decimal(away) / 2), how=how)
        for at, (home, away, how) in enumerate(games, start=1)
    ]
    season = _season(*played)
    ours = {one.team: one.average for one in season_ratings(season, ()).teams}
    for parted in pool_tables(season, PoolId("Pool"))[-1].standings.neighbours:
        for asked in parted.asked:
            if asked.question.criterion == "ratings_average" and asked.above is not None:
                assert asked.above == ours[parted.above]
                assert asked.below == ours[parted.below]


@given(
    st.lists(st.decimals(1, 5, places=2), min_size=1, max_size=9), st.decimals(-3, 3, places=2)
)
def test_the_mean_of_values_each_raised_is_raised_as_much(
    values: list[Decimal], by: Decimal
) -> None:
    before, after = mean(values), mean([one + by for one in reversed(values)])
    assert before is not None
    assert after == before + Fraction(by)


@pytest.mark.parametrize(
    ("value", "reason", "red", "why"),
    [
        ("1.5", "shouted", False, ["floor"]),
        ("2", "shouted", False, []),
        ("2", " ", False, ["no_reason"]),
        ("2.5", "", False, []),
        ("1", "", False, ["floor", "no_reason"]),
        ("3", "", True, []),
        ("3.5", "", True, ["above_cap"]),
        ("3.5", "", False, []),
    ],
)
def test_what_the_coordinator_is_to_look_at(
    value: str, reason: str, *, red: bool, why: list[str]
) -> None:
    one = _rated(1, A, value, reason=reason)
    game = replace(_game(1, home=value), home_cards=RED if red else CardCounts())
    found = season_ratings(_season(game), (one,))
    assert found.review == tuple(ToReview(rated=one, why=each) for each in why)  # type: ignore[arg-type]


def test_a_rating_that_nobody_signed_is_looked_at_and_one_that_a_rule_gave_is_not() -> None:
    found = _ratings(_game(1, away="1"), _game(2, how="forfeit", by="home"))
    unsigned = Rated(game=GameId("g1"), round=1, team=B, value=Decimal(1))
    assert found.review == (ToReview(rated=unsigned, why="floor"),)


def test_what_to_look_at_is_in_the_order_of_the_list_and_of_the_rounds() -> None:
    rated = [_rated(2, B, "1"), _rated(2, A, "1"), _rated(1, A, "1"), _rated(1, B, "1")]
    rated = [replace(one, reason="late") for one in rated]
    season = _season(_game(1, home="1", away="1"), _game(2, home="1", away="1"))
    found = season_ratings(season, rated)
    assert [(one.rated.team, one.rated.round) for one in found.review] == [
        (A, 1),
        (A, 2),
        (B, 1),
        (B, 2),
    ]


def test_opinions_leave_out_what_a_rule_gave_or_held_down() -> None:
    season = _season(
        _game(1, home="4", away="4"),
        replace(_game(2, home="3", away="4"), home_cards=RED, away_cards=CardCounts()),
        _game(3, how="forfeit", by="home"),
        _game(4, how="awarded", home="4"),
    )
    rated = [_rated(number, team, "4") for number in (1, 2, 3, 4, 5) for team in (A, B)]
    assert [(one.round, one.team) for one in opinions(season, rated)] == [
        (1, A),
        (1, B),
        (2, B),
        (4, A),
        (4, B),
    ]


@pytest.mark.parametrize(
    ("crew", "first", "second"),
    [
        (["trail Kim", "lead Sam"], "Sam", "Kim"),
        (["trail Kim"], "Kim", None),
        (["scorekeeper Alex", "lead Sam"], "Sam", None),
        (["lead Sam", "lead Kim"], "Sam", "Kim"),
        (["assistant Kim", "trail Sam"], "Sam", "Kim"),
        ([], None, None),
    ],
)
def test_who_rated_is_told_from_the_crew(
    crew: list[str], first: str | None, second: str | None
) -> None:
    on_crew = [
        OnCrew(game=GameId(game), role=role, official=f"{name}{'' if game == 'g1' else '2'}")
        for game in ("g2", "g1")
        for role, name in (each.split() for each in crew)
    ]
    sheet = _sheet(
        _given("official", 250, "late"), _given("second_official", 400), _given("opponent", 500)
    )
    found = rated_in([sheet], on_crew, ("lead", "trail"))
    assert found == (
        _rated(1, A, "2.5", official=first, reason="late"),
        _rated(1, A, "4", by="second_official", official=second),
        _rated(1, A, "5", by="opponent"),
    )


def _given(
    by: Literal["official", "second_official", "opponent"], hundredths: int, reason: str = ""
) -> Rating:
    return Rating(
        event=EventId("e"),
        at=Moment(2, 0),
        side="home",
        by=by,
        hundredths=hundredths,
        reason=reason,
    )


def _sheet(*ratings: Rating) -> GameSheet:
    fixture = Fixture(
        game=GameId("g1"),
        round=1,
        day=date(2026, 9, 8),
        start=time(19),
        field="North",
        home=A,
        away=B,
    )
    return GameSheet(fixture=fixture, result=None, is_played=True, ratings=ratings)


def _rated(
    number: int,
    team: TeamId,
    value: str,
    *,
    by: Literal["official", "second_official", "opponent"] = "official",
    official: str | None = None,
    reason: str = "",
) -> Rated:
    return Rated(
        game=GameId(f"g{number}"),
        round=number,
        team=team,
        by=by,
        official=official,
        value=Decimal(value),
        reason=reason,
    )


def _rated_game(
    number: int,
    counts: str,
    *,
    source: Literal["rated", "given", "capped"] = "rated",
    was: str | None = None,
) -> RatedGame:
    return RatedGame(
        game=GameId(f"g{number}"),
        round=number,
        counts=Fraction(counts),
        source=source,
        was=None if was is None else Fraction(was),
    )


def _game(
    number: int,
    *,
    home: str | None = None,
    away: str | None = None,
    how: str = "played",
    by: Side | None = None,
) -> Result:
    return Result(
        game=GameId(f"g{number}"),
        round=number,
        home=A,
        away=B,
        how=how,  # type: ignore[arg-type]
        by=by,
        home_rating=None if home is None else Decimal(home),
        away_rating=None if away is None else Decimal(away),
    )


def _season(*games: Result, by: str = "officials") -> Season:
    rules = RULES.replace("BY", by)
    if by == "nobody":
        rules = rules.replace(', "ratings_average"', "")
    return Season(
        league=League(
            name="League",
            timezone="America/Chicago",
            first_day=date(2026, 9, 1),
            last_day=date(2026, 12, 1),
            teams=tuple(Team(team=team, pool=PoolId("Pool")) for team in (C, A, B)),
        ),
        rulebook=load(rules.encode(), file="house.toml").rulebook,
        results=games,
    )


def _ratings(*games: Result, by: str = "officials") -> SeasonRatings:
    return season_ratings(_season(*games, by=by), ())


def _team(found: SeasonRatings, team: TeamId) -> TeamRatings:
    return next(one for one in found.teams if one.team == team)
