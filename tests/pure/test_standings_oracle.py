"""The table against a slow ranking written another way: sets of teams, parted one by one."""

from dataclasses import replace
from decimal import Decimal
from itertools import product
from math import prod
from typing import Any, Final, get_args

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from oracles.slow_standings import Oracle
from wholeball.kernel.identity import GameId, TeamId
from wholeball.rulebook.criteria import (
    AmongLevel,
    CappedDifference,
    Conduct,
    ConductPoints,
    Criterion,
    DisciplinePoints,
    Figure,
    LevelFigure,
)
from wholeball.season.count import Counting, Deduction, ForfeitCounting, Points
from wholeball.season.result import CardCounts, How, Result
from wholeball.season.standings import Regulation, Standings, standings
from wholeball.season.tally import Lots, OutsideFigures

COUNTING = Counting(
    points=Points(win=3, draw=1, loss=0),
    forfeit=ForfeitCounting(goals_for=3, played_score_if_worse=True, points_loser=-1),
    default=ForfeitCounting(goals_for=1, counts_in_difference=False),
)
CONDUCT = Conduct(
    conduct=ConductPoints(
        yellow=-1, second_yellow=-3, straight_red=-4, yellow_and_straight_red=-5
    )
)
H2H: tuple[LevelFigure, ...] = get_args(LevelFigure)
WHOLE: tuple[Criterion, ...] = (
    *get_args(Figure),
    CappedDifference(capped_difference=2),
    CONDUCT,
    DisciplinePoints(discipline_points="fewest"),
)
BUSY = settings(deadline=None, max_examples=200, suppress_health_check=[HealthCheck.too_slow])
"""A busy machine may make a test slow; that is no fault of the table's."""


@st.composite
def seasons(draw: st.DrawFn) -> dict[str, Any]:
    """Return a season of up to six teams with little to tell them apart."""
    teams = [TeamId(name) for name in "ABCDEF"[: draw(st.integers(2, 6))]]
    pairs = [(a, b) for a in teams for b in teams if a != b]
    once = [pair for pair in pairs if pair[0] < pair[1]]
    games = draw(st.just(once) | st.lists(st.sampled_from(pairs), max_size=12))
    some = st.dictionaries(st.sampled_from(teams), st.integers(1, 3), max_size=len(teams))
    play_offs = draw(st.lists(st.sampled_from(pairs), max_size=3))
    return {
        "teams": teams,
        "results": [_result(number, *pair, draw(NUMBERS)) for number, pair in enumerate(games)],
        "deductions": [
            Deduction(team=team, points=points, why="late roster", ref="r 1")
            for team, points in draw(some).items()
        ],
        "outside": OutsideFigures(
            ranking=draw(some),
            discipline_points=draw(some),
            play_offs=[
                Result(
                    game=GameId(f"p{n}"),
                    round=9,
                    home=a,
                    away=b,
                    home_goals=n % 2,
                    kicks=draw(st.none() | st.tuples(st.integers(0, 2), st.integers(0, 2))),
                )
                for n, (a, b) in enumerate(play_offs)
            ],
        ),
    }


HOWS: Final[list[How]] = [*get_args(How), *get_args(How)[:1] * 7]
"""Every way a game can count; most are played."""
CARDS: Final[list[Any]] = [
    None,
    *(CardCounts(yellow=yellow, straight_red=red) for yellow in range(3) for red in range(2)),
]
RATINGS: Final[list[Any]] = [None, Decimal("3.5"), Decimal(4)]
SCORES: Final[list[Any]] = [None, *product((0, 1, 3, 4), repeat=2)]
"""Scores that had been played: a forfeit of 3-0 stands at a margin of 3 and not at one of 4."""
PARTS: Final[dict[str, list[Any]]] = {
    "neutral": [False, True],
    "home_rating": RATINGS,
    "away_rating": RATINGS,
    "home_cards": CARDS,
    "away_cards": CARDS,
    "played_score": SCORES,
    "by": ["home", "away"],
    "home_goals": [0, 1, 2],
    "away_goals": [0, 1, 2],
    "how": [*HOWS],
}
"""What a result is made of, one choice each; a number stands for all of them at once."""
NUMBERS: Final = st.integers(0, prod(map(len, PARTS.values())) - 1)


def _result(number: int, home: TeamId, away: TeamId, code: int) -> Result:
    chosen = {}
    for name, part in PARTS.items():
        code, at = divmod(code, len(part))
        chosen[name] = part[at]
    if chosen["how"] not in ("forfeit", "default"):
        chosen["by"] = None
    game = GameId(f"game {number}")
    return Result(game=game, round=1 + number % 3, home=home, away=away, **chosen)


def all_criteria() -> st.SearchStrategy[tuple[Criterion, ...]]:
    figures = st.lists(st.sampled_from(H2H), min_size=1, max_size=3, unique=True).map(tuple)
    among = st.builds(AmongLevel, among_level=figures, again=st.booleans())
    whole: st.SearchStrategy[Criterion] = st.sampled_from(WHOLE)
    one: st.SearchStrategy[Criterion] = whole | among
    listed: st.SearchStrategy[list[Criterion]] = st.lists(
        one, min_size=1, max_size=6, unique_by=repr
    )
    return listed.map(tuple)


def ranked(season: dict[str, Any], criteria: tuple[Criterion, ...]) -> Standings:
    return standings(
        season["results"],
        Regulation(criteria=criteria, last_resort="lots", counting=COUNTING),
        teams=season["teams"],
        deductions=season["deductions"],
        outside=season["outside"],
    )


def _sets(found: Standings) -> list[set[TeamId]]:
    places = sorted({row.place for row in found.rows})
    return [{row.team for row in found.rows if row.place == place} for place in places]


@BUSY
@given(season=seasons(), criteria=all_criteria())
def test_the_order_is_that_of_the_slow_ranking(
    season: dict[str, Any], criteria: tuple[Criterion, ...]
) -> None:
    assert _sets(ranked(season, criteria)) == Oracle(season, criteria).order


@BUSY
@given(season=seasons())
def test_play_off_matches_alone_order_the_teams_that_all_met_in_them(
    season: dict[str, Any],
) -> None:
    asked: tuple[Criterion, ...] = ("play_off_match",)
    assert _sets(ranked(season, asked)) == Oracle(season, asked).order


@BUSY
@given(season=seasons(), criteria=all_criteria())
def test_what_parts_neighbours_is_what_parts_them_in_the_slow_ranking(
    season: dict[str, Any], criteria: tuple[Criterion, ...]
) -> None:
    oracle = Oracle(season, criteria)
    for separation in ranked(season, criteria).neighbours:
        pair = frozenset({separation.above, separation.below})
        by = separation.by
        found = None if by is None else (by.criterion, by.figure)
        assert found == oracle.parted_by.get(pair)


@BUSY
@given(season=seasons(), criteria=all_criteria())
def test_every_reason_is_level_or_absent_until_the_one_that_parts(
    season: dict[str, Any], criteria: tuple[Criterion, ...]
) -> None:
    for separation in ranked(season, criteria).neighbours:
        verdicts = [asked.verdict for asked in separation.asked]
        assert verdicts.count("parts") == (separation.by is not None)
        assert "parts" not in verdicts[:-1]
        for asked in separation.asked:
            known = asked.above is not None and asked.below is not None
            assert (asked.verdict == "absent") == (asked.reason is not None)
            assert known or asked.verdict == "absent"
            assert asked.verdict == "absent" or (asked.verdict == "level") == (
                asked.above == asked.below
            )


@BUSY
@given(season=seasons(), criteria=all_criteria(), data=st.data())
def test_the_order_of_results_and_teams_never_changes_the_table(
    season: dict[str, Any], criteria: tuple[Criterion, ...], data: st.DataObject
) -> None:
    shuffled = season | {
        name: data.draw(st.permutations(season[name]))
        for name in ("teams", "results", "deductions")
    }
    once, again = ranked(season, criteria), ranked(shuffled, criteria)
    assert once == again
    assert list(once.neighbours) == list(again.neighbours)
    assert once.absences == again.absences


@BUSY
@given(season=seasons(), criteria=all_criteria())
def test_other_names_for_the_teams_give_the_same_table_under_those_names(
    season: dict[str, Any], criteria: tuple[Criterion, ...]
) -> None:
    new = {team: TeamId(f"{'zyxwvu'['ABCDEF'.index(team)]}") for team in season["teams"]}
    before, after = (_sets(ranked(one, criteria)) for one in (season, _renamed(season, new)))
    assert after == [{new[team] for team in level} for level in before]


@BUSY
@given(season=seasons(), criteria=all_criteria())
def test_wins_are_losses_and_goals_for_are_goals_against(
    season: dict[str, Any], criteria: tuple[Criterion, ...]
) -> None:
    rows = ranked(season, criteria).rows
    double = sum(one.how == "double_forfeit" for one in season["results"])
    assert sum(row.won - row.lost for row in rows) == -2 * double
    assert sum(row.goals_for for row in rows) == sum(row.goals_against for row in rows)
    assert sum(row.difference for row in rows) == 0
    assert all(row.played == row.won + row.drawn + row.lost for row in rows)


@BUSY
@given(season=seasons(), criteria=all_criteria(), data=st.data())
def test_lots_among_all_the_teams_leave_nothing_unresolved(
    season: dict[str, Any], criteria: tuple[Criterion, ...], data: st.DataObject
) -> None:
    order = tuple(data.draw(st.permutations(season["teams"])))
    lots = OutsideFigures(lots=[Lots(label="last", order=order)])
    found = ranked(season | {"outside": lots}, criteria)
    assert found.unresolved == ()
    for separation in found.neighbours:
        if separation.by is not None and separation.by.resort:
            assert order.index(separation.above) < order.index(separation.below)
            assert separation.asked[-1].draw == "last"


def _renamed(season: dict[str, Any], new: dict[TeamId, TeamId]) -> dict[str, Any]:
    outside = season["outside"]
    return {
        "teams": [new[team] for team in season["teams"]],
        "results": [_game(one, new) for one in season["results"]],
        "deductions": [replace(one, team=new[one.team]) for one in season["deductions"]],
        "outside": OutsideFigures(
            ranking={new[team]: place for team, place in outside.ranking.items()},
            discipline_points={new[t]: n for t, n in outside.discipline_points.items()},
            play_offs=[_game(one, new) for one in outside.play_offs],
        ),
    }


def _game(one: Result, new: dict[TeamId, TeamId]) -> Result:
    return replace(one, home=new[one.home], away=new[one.away])
