"""Odds come from the rest of the season alone, say how sure they are, and never feign proof."""

from datetime import date, time
from itertools import combinations
from math import log, sqrt

import numpy as np
import pytest

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.league.fixture import Fixture
from wholeball.league.league import League, Team
from wholeball.rulebook.load import load
from wholeball.season.odds import odds
from wholeball.season.record import pools_stand
from wholeball.season.result import Result
from wholeball.season.scores import AWAY, HOME, chances, draw_scores
from wholeball.season.season import Season
from wholeball.season.shares import Drawing, NoOdds, Odds, Share
from wholeball.season.strengths import MEAN_GOALS, strengths
from wholeball.season.to_come import ToCome, to_come

A, B, C, D = (TeamId(name) for name in "ABCD")
CHI_SQUARED_24_AT_999 = 51.18
"""The 99.9 % point of chi-squared on 24 degrees of freedom (standard tables, from memory)."""


def test_before_any_game_every_team_is_as_strong_as_the_mean() -> None:
    fitted = strengths([], [A, B])
    assert fitted.goals(A, B) == pytest.approx(MEAN_GOALS)
    assert (fitted.games, fitted.attack, fitted.defence) == (0, {A: 0, B: 0}, {A: 0, B: 0})


def test_strengths_are_shrunk_far_from_what_few_games_show() -> None:
    """One 9-0: a free fit would let B score nothing for ever; ours pulls both to the mean."""
    fitted = strengths([_game(A, B, 9, 0)], [A, B])
    assert 3 < fitted.goals(A, B) < 7
    assert 1 < fitted.goals(B, A) < 2.5


def test_with_hardly_a_prior_the_fitted_goals_are_those_scored() -> None:
    """The score equations of a Poisson model with a term a team: fitted equals observed."""
    results = [_game(a, b, i % 4 + 1, i % 3 + 1) for i, (a, b) in enumerate(_all() * 2)]
    fitted = strengths(results, [A, B, C, D], spread=1e4)
    for team in (A, B, C, D):
        scored = sum(
            one.home_goals if one.home == team else one.away_goals
            for one in results
            if team in (one.home, one.away)
        )
        expected = sum(
            fitted.goals(team, one.away if one.home == team else one.home)
            for one in results
            if team in (one.home, one.away)
        )
        assert expected == pytest.approx(scored, abs=1e-4)


def test_scores_of_forfeits_and_awards_never_feed_the_strengths() -> None:
    given = [
        Result(game=GameId("f"), round=1, home=A, away=B, how="forfeit", by="home"),
        Result(game=GameId("a"), round=1, home=A, away=C, how="awarded", away_goals=9),
    ]
    assert strengths(given, [A, B, C]) == strengths([], [A, B, C])


def test_drawn_scores_have_the_frequencies_of_the_two_poissons() -> None:
    seasons = 50_000
    cells = draw_scores([chances(1.5, 1.2)], seasons, np.random.default_rng(11))[0]
    expected = chances(1.5, 1.2) * seasons
    common = np.argsort(-expected)[:24]
    observed = np.bincount(cells, minlength=256)
    rest = seasons - expected[common].sum()
    chi_squared = ((observed[common] - expected[common]) ** 2 / expected[common]).sum()
    chi_squared += (seasons - observed[common].sum() - rest) ** 2 / rest
    assert chi_squared < CHI_SQUARED_24_AT_999


def test_each_drawn_cell_is_the_one_its_number_falls_in() -> None:
    """A plain search of the whole number agrees with the table in every case."""
    of_cells = chances(2.3, 0.4)
    cells = draw_scores([of_cells], 20_000, np.random.default_rng(12))[0]
    drawn = np.random.default_rng(12).integers(0, 1 << 32, size=(1, 20_000), dtype=np.uint32)
    ends = np.rint(np.cumsum(of_cells) * (1 << 32))
    ends[-1] = 1 << 32
    assert np.array_equal(
        cells, np.searchsorted(ends, drawn[0].astype(np.float64), side="right")
    )


def test_two_level_teams_with_one_game_between_them_split_the_odds() -> None:
    """B and A are level with a game left; each wins as often as the other, draws are by lot."""
    found = _odds(_season([], [(A, B)], teams=(A, B), places=1))
    first, second = found.teams
    assert first.goes_on.hits + second.goes_on.hits == found.seasons
    assert abs(first.goes_on.chance - 0.5) < 4 * first.goes_on.error


def test_the_odds_of_one_game_are_the_chances_of_its_scores() -> None:
    """A and C drew; B against C is left. B goes on by a win, C by anything else."""
    late = _season(
        [_game(A, C, 0, 0)], [(B, C)], teams=(A, B, C), places=1, criteria='["points"]'
    )
    fitted = strengths([_game(A, C, 0, 0)], [A, B, C])
    cells = chances(fitted.goals(B, C), fitted.goals(C, B))
    won = cells[HOME > AWAY].sum()
    lost = cells[HOME < AWAY].sum()
    drawn = 1 - won - lost
    shares = {one.team: one.goes_on for one in _odds(late, seasons=40_000).teams}
    assert shares[B].chance == pytest.approx(won, abs=4 * shares[B].error)
    assert shares[C].chance == pytest.approx(lost + drawn, abs=4 * shares[C].error)


def test_as_many_go_on_in_each_season_as_there_are_places() -> None:
    found = _odds(_season([_game(A, B, 2, 1)], _all()[1:], places=2))
    assert sum(one.goes_on.hits for one in found.teams) == 2 * found.seasons
    assert sum(one.wins.hits for one in found.teams if one.wins) == found.seasons
    assert all(sum(one.places) == found.seasons for one in found.teams)


def test_the_same_seed_gives_the_same_odds_and_another_seed_others() -> None:
    coming = _season([_game(A, B, 2, 1)], _all()[1:], places=2)
    assert _odds(coming, seed=1) == _odds(coming, seed=1)
    assert _odds(coming, seed=1) != _odds(coming, seed=2)


def test_a_supposed_score_changes_only_what_it_brings_about() -> None:
    """C against D plays no part in whether A beats B in a race that A and B run alone."""
    left = [(A, B), (C, D)]
    coming = _season([], left, teams=(A, B, C, D), places=1, pools="XXYY")
    plain = odds(coming, Drawing(seed=4, seasons=2_000))
    supposed = odds(coming, Drawing(seed=4, seasons=2_000), what_if={GameId("C-D"): (9, 0)})
    assert isinstance(plain, Odds)
    assert isinstance(supposed, Odds)
    assert [one.goes_on for one in plain.teams[:2]] == [
        one.goes_on for one in supposed.teams[:2]
    ]
    assert supposed.teams[2].goes_on.hits == 2_000


def test_only_what_is_proven_is_told_as_sure() -> None:
    coming = _season([_game(A, B, 9, 0)], [(A, C)], places=1)
    shares = {
        one.team: one.goes_on
        for one in _odds(coming, proven={A: "clinched", B: "out", C: "alive"}).teams
    }
    assert [shares[team].proven for team in (A, B, C, D)] == ["always", "never", None, None]


def test_a_share_says_its_error_and_what_nothing_at_all_is_below() -> None:
    """The standard error at one half of 10,000 is 0.005; no hit bounds a chance by 3 in 10,000."""
    assert Share(hits=5_000, seasons=10_000).error == pytest.approx(0.005)
    assert Share(hits=0, seasons=10_000).bound == pytest.approx(0.0003)
    exact = 1 - 0.05 ** (1 / 10_000)
    assert Share(hits=0, seasons=10_000).bound == pytest.approx(exact, rel=0.002)


def test_a_team_that_fails_its_rating_never_goes_on_and_the_next_does() -> None:
    coming = _season([_game(A, B, 3, 0), _game(C, D, 1, 0)], [(B, D)], places=1)
    found = odds(coming, Drawing(seed=1, seasons=500), failing=[A])
    assert isinstance(found, Odds)
    shares = {one.team: one.goes_on.hits for one in found.teams}
    assert (shares[A], sum(shares.values())) == (0, 500)


def test_where_there_are_no_play_offs_there_are_no_odds() -> None:
    coming = _season([], _all(), places=0, qualify="none")
    assert odds(coming, Drawing(seed=1, seasons=10)) == NoOdds(why="no_play_offs")


def test_games_of_a_team_taken_out_are_not_played_and_those_who_met_it_win() -> None:
    given_up = [
        Result(game=GameId("1"), round=1, home=A, away=B, how="forfeit", by="home"),
        Result(game=GameId("2"), round=2, home=A, away=C, how="forfeit", by="home"),
    ]
    coming = _season(given_up, [(A, D), (B, C)], places=1, removed_after=2)
    assert [one.game for one in coming.left] == ["B-C"]
    assert coming.season.results[-1] == Result(
        game=GameId("A-D"), round=5, home=A, away=D, how="forfeit", by="home"
    )


def test_a_game_put_off_that_a_team_no_longer_plays_changes_nothing_that_was_played() -> None:
    """Out by its forfeits in rounds 6 and 8; the game of round 5 is given, and is not the first."""
    played = [
        Result(game=GameId("1"), round=6, home=A, away=B, how="forfeit", by="home"),
        Result(game=GameId("2"), round=7, home=A, away=C, home_goals=2, away_goals=0),
        Result(game=GameId("3"), round=8, home=D, away=A, how="forfeit", by="away"),
    ]
    five = (A, B, C, D, TeamId("Elm"))
    put_off = [(A, five[4])]
    coming = _season(played, put_off, teams=five, pools="XXXXX", places=1, removed_after=2)
    assert coming.given == (
        Result(game=GameId("A-Elm"), round=8, home=A, away=five[4], how="forfeit", by="home"),
    )
    [pool] = pools_stand(coming.season)
    assert [(one.game, one.how, one.by) for one in pool.results] == [
        ("1", "forfeit", "home"),
        ("2", "played", None),
        ("3", "forfeit", "away"),
        ("A-Elm", "forfeit", "home"),
    ]


def test_places_parted_by_chance_are_counted() -> None:
    """Nobody has played and nobody will: every place hangs on lots."""
    found = _odds(_season([], [], teams=(A, B, C), places=1))
    assert found.by_chance == found.seasons
    third = found.seasons / 3
    spread = sqrt(found.seasons * 2 / 9)
    assert all(abs(one.goes_on.hits - third) < 4 * spread for one in found.teams)


def test_chances_of_goals_are_those_of_a_poisson() -> None:
    cells = chances(2.0, 1.0)
    zero = cells[HOME == 0].sum()
    assert -log(zero) == pytest.approx(2.0)
    assert cells.sum() == pytest.approx(1.0)


def _all() -> list[tuple[TeamId, TeamId]]:
    return list(combinations((A, B, C, D), 2))


def _game(home: TeamId, away: TeamId, goals: int, against: int) -> Result:
    return Result(
        game=GameId(f"{home}-{away} {goals}-{against}"),
        round=1,
        home=home,
        away=away,
        home_goals=goals,
        away_goals=against,
    )


def _odds(coming: ToCome, **more: object) -> Odds:
    seasons, seed = more.pop("seasons", 4_000), more.pop("seed", 7)
    assert isinstance(seasons, int)
    assert isinstance(seed, int)
    found = odds(coming, Drawing(seed=seed, seasons=seasons), **more)  # type: ignore[arg-type]
    assert isinstance(found, Odds)
    return found


def _season(
    results: list[Result],
    left: list[tuple[TeamId, TeamId]],
    *,
    teams: tuple[TeamId, ...] = (A, B, C, D),
    pools: str = "XXXX",
    places: int,
    qualify: str = "per_pool",
    criteria: str = '["points", "difference", "goals"]',
    removed_after: int = 9,
) -> ToCome:
    text = f"""
        schema = 1
        base = "laws-2025-26"
        name = "House"
        [standings]
        criteria = {criteria}
        last_resort = "lots"
        [play_offs]
        qualify = "{qualify}"
        places = {places}
        [forfeit.removal]
        after_forfeits = {removed_after}
        results = "rest_forfeited"
    """
    games = [*{frozenset((one.home, one.away)): one for one in results}.values()]
    league = League(
        name="League",
        timezone="UTC",
        first_day=date(2027, 3, 1),
        last_day=date(2027, 5, 31),
        teams=tuple(
            Team(team=team, pool=PoolId(pool)) for team, pool in zip(teams, pools, strict=False)
        ),
    )
    season = Season(
        league=league,
        rulebook=load(text.encode(), file="house.toml").rulebook,
        results=tuple(games),
    )
    fixtures = [
        Fixture(
            game=GameId(f"{home}-{away}"),
            round=5,
            day=date(2027, 4, 1),
            start=time(19),
            field="F",
            home=home,
            away=away,
        )
        for home, away in left
    ]
    return to_come(season, fixtures)
