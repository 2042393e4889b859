"""A race states points, games left and what they bring; the gate of ratings its open cases."""

from datetime import date, time
from decimal import Decimal

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.league.fixture import Fixture
from wholeball.league.league import League, Team
from wholeball.rulebook.load import load
from wholeball.season.count import Deduction
from wholeball.season.gate_open import Gates, gates
from wholeball.season.race import NoRace, Race, races
from wholeball.season.result import Result
from wholeball.season.season import Season
from wholeball.season.to_come import ToCome, to_come

A, B, C, X, Y = (TeamId(name) for name in "ABCXY")
RATED = """
[ratings]
by = "officials"
scale = { low = 1, high = 5, step = 1 }
reason_at_or_below = 2
cap_after_sending_off = 3
floor = 1
minimum_count = 2
play_off_minimum = 3
given = { forfeiting = 1, defaulting = 3, ready = 5 }
"""


def test_each_pool_is_a_race_of_its_points_after_deductions() -> None:
    coming = _coming(
        [_game(A, B, 2, 0), _game(X, Y, 1, 1)],
        [(B, C), (A, C)],
        deductions=(Deduction(team=A, points=1, why="", ref=""),),
    )
    assert races(coming) == (
        Race(
            teams=(A, C, B),
            points=(2, 0, 0),
            games=((2, 1), (0, 1)),
            places=1,
            outcomes=((3, 0), (1, 1), (0, 3)),
        ),
        Race(
            teams=(X, Y), points=(1, 1), games=(), places=1, outcomes=((3, 0), (1, 1), (0, 3))
        ),
    )


def test_a_forfeit_that_costs_more_than_a_loss_is_one_more_way_a_game_can_end() -> None:
    (north, _) = _races(_coming([], [(A, B)], more="points.forfeit_loss = -1"))
    assert north.outcomes == ((3, 0), (1, 1), (0, 3), (3, -1), (-1, 3))


def test_a_point_is_worth_more_to_those_who_play_fewer_games_of_all() -> None:
    """A and B will have played three times, C twice, X and Y once: all compare in sixths."""
    coming = _coming([_game(A, B, 2, 0)], [(B, C), (A, C), (B, A), (X, Y)], qualify="overall")
    (race,) = _races(coming)
    assert dict(zip(race.teams, race.worth, strict=True)) == {A: 2, B: 2, C: 3, X: 6, Y: 6}


def test_equal_numbers_of_games_are_compared_by_totals() -> None:
    (race,) = _races(_coming([], [(A, B), (X, Y)], qualify="overall", teams=(A, B, X, Y)))
    assert race.worth == ()


def test_no_race_is_run_where_points_do_not_come_first_or_games_will_be_dropped() -> None:
    by_wins = _coming([], [(A, B)], criteria='["wins", "points"]')
    assert races(by_wins) == NoRace(why="not_by_points")
    dropped = _coming([], [(A, B)], qualify="overall", unequal="drop_games_against_last")
    assert races(dropped) == NoRace(why="games_dropped_later")
    assert races(_coming([], [], qualify="none", places=0)) == NoRace(why="no_play_offs")


def test_a_gate_is_shut_or_passed_for_sure_only_when_no_rating_to_come_can_change_it() -> None:
    """Needed 3 of two or more; A has 1 1, B has 5 5, and C has 3 3 and a game left."""
    results = [
        _game(A, B, 1, 0, ratings=(1, 5)),
        _game(A, X, 1, 0, ratings=(1, 4)),
        _game(B, X, 1, 0, ratings=(5, 4)),
        _game(C, X, 1, 0, ratings=(3, 4)),
        _game(C, Y, 1, 0, ratings=(3, 4)),
    ]
    coming = _coming(results, [(C, B)], more=RATED, pools="NNNNN")
    assert gates(coming.season, coming.left) == Gates(
        below=frozenset((A,)), surely_below=frozenset((A,)), unsure=frozenset((C,))
    )


def test_a_team_below_the_gate_may_still_pass_it_with_games_left() -> None:
    results = [_game(A, B, 1, 0, ratings=(1, 5)), _game(A, X, 1, 0, ratings=(4, 5))]
    coming = _coming(results, [(A, C)], more=RATED, pools="NNNNN")
    found = gates(coming.season, coming.left)
    assert found.below == frozenset((A,))
    assert A in found.unsure - found.surely_below


def test_too_few_ratings_bar_nobody() -> None:
    coming = _coming([_game(A, B, 1, 0, ratings=(1, 1))], [], more=RATED)
    assert gates(coming.season, ()) == Gates(
        below=frozenset(), surely_below=frozenset(), unsure=frozenset()
    )


def _races(coming: ToCome) -> tuple[Race, ...]:
    found = races(coming)
    assert isinstance(found, tuple)
    return found


def _game(
    home: TeamId,
    away: TeamId,
    goals: int,
    against: int,
    *,
    ratings: tuple[int, int] | None = None,
) -> Result:
    return Result(
        game=GameId(f"{home}{away}"),
        round=1,
        home=home,
        away=away,
        home_goals=goals,
        away_goals=against,
        home_rating=None if ratings is None else Decimal(ratings[0]),
        away_rating=None if ratings is None else Decimal(ratings[1]),
    )


def _coming(
    results: list[Result],
    left: list[tuple[TeamId, TeamId]],
    *,
    teams: tuple[TeamId, ...] = (A, B, C, X, Y),
    pools: str = "",
    qualify: str = "per_pool",
    places: int = 1,
    unequal: str = "per_game",
    criteria: str = '["points", "difference"]',
    more: str = "",
    deductions: tuple[Deduction, ...] = (),
) -> ToCome:
    text = f"""
        schema = 1
        base = "laws-2025-26"
        name = "House"
        [play_offs]
        qualify = "{qualify}"
        places = {places}
        unequal_pools = "{unequal}"
        [standings]
        criteria = {criteria}
        last_resort = "lots"
        {more}
    """
    north = pools or "".join("N" if team in "ABC" else "S" for team in teams)
    season = Season(
        league=League(
            name="League",
            timezone="UTC",
            first_day=date(2027, 3, 1),
            last_day=date(2027, 5, 31),
            teams=tuple(
                Team(team=team, pool=PoolId(pool))
                for team, pool in zip(teams, north, strict=True)
            ),
        ),
        rulebook=load(text.encode(), file="house.toml").rulebook,
        results=tuple(results),
        deductions=deductions,
    )
    fixtures = [
        Fixture(
            game=GameId(f"left {home}{away}"),
            round=2,
            day=date(2027, 4, 1),
            start=time(19),
            field="F",
            home=home,
            away=away,
        )
        for home, away in left
    ]
    return to_come(season, fixtures)
