"""What a rulebook makes of results: late defaults, given ratings, teams that are out."""

from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.cli.standings import print_standings
from wholeball.kernel.identity import GameId, PoolId, Side, TeamId
from wholeball.league.league import League, Team
from wholeball.reports.not_as_played import changes, out_of_league
from wholeball.reports.shell import Link, Shell
from wholeball.reports.standings_page import PoolPages, standings_page
from wholeball.rulebook.load import load
from wholeball.season.count import Deduction
from wholeball.season.recorded import at_fault
from wholeball.season.result import CardCounts, Result
from wholeball.season.season import Season, pool_tables, regulation, upheld_in
from wholeball.season.upheld import Upheld
from wholeball.usecases.show_standings import PoolShown, StandingsShown

A, B, C = (TeamId(name) for name in "ABC")
POOL = PoolId("Pool")
PLAYED = "the games it has played still count"
SHELL = Shell(
    links=(Link(label="Table", href="round-2.html"),),
    rulebook="House",
    digest="ab" * 32,
    printed=datetime(2026, 10, 13, 15, 5, tzinfo=UTC),
)
RULES = """
base = "laws-2025-26"
name = "House"
source = "the house"
[forfeit]
score = { winners = 4, losers = 0 }
in_difference = true
[forfeit.default]
allowed = 1
score = { winners = 2, losers = 0 }
in_difference = true
[forfeit.removal]
ref = "H 11.4"
after_forfeits = 2
results = "RESULTS"
[forfeit.double]
then = "DOUBLE"
[ratings]
by = "BY"
cap_after_sending_off = 3
[ratings.given]
forfeiting = 2
defaulting = 4
ready = 5
[standings]
points = { win = 3, draw = 1, loss = 0, forfeit_loss = -1 }
criteria = ["points", "fewest_forfeits"]
last_resort = "lots"
"""


def test_a_default_beyond_the_allowance_is_a_forfeit_in_order_of_round() -> None:
    late, first = _game(3, "default", by="home"), _game(1, "default", by="home")
    found = _upheld(late, first)
    assert [(one.game, one.how) for one in found.results] == [
        ("g3", "forfeit"),
        ("g1", "default"),
    ]
    assert found.beyond == {"g3"}
    within = _upheld(first, _game(2, "default", by="away"))
    assert [one.how for one in within.results] == ["default", "default"]
    assert within.beyond == frozenset()


def test_a_default_beyond_the_allowance_has_the_score_and_the_points_of_a_forfeit() -> None:
    tables = pool_tables(_season(*(_game(n, "default", by="home") for n in (1, 2))), POOL)
    rows = [
        {row.team: (row.points, row.goals_against) for row in table.standings.rows}[A]
        for table in tables
    ]
    assert rows == [(0, 2), (-1, 6)]


@pytest.mark.parametrize(
    ("how", "by", "ratings"),
    [
        ("forfeit", "home", (Decimal(2), Decimal(5))),
        ("forfeit", "away", (Decimal(5), Decimal(2))),
        ("default", "home", (Decimal(4), Decimal(5))),
        ("double_forfeit", None, (Decimal(2), Decimal(2))),
        ("played", None, (None, None)),
    ],
)
def test_a_game_given_up_brings_its_ratings(
    how: str, by: str | None, ratings: tuple[Decimal | None, Decimal | None]
) -> None:
    game = _game(1, how, by=by)
    assert _ratings(_upheld(game)) == [ratings]
    assert _ratings(_upheld(game, rated_by="nobody")) == [(None, None)]
    written = replace(game, home_rating=Decimal(3))
    assert _ratings(_upheld(written)) == [(Decimal(3), ratings[1])]


@pytest.mark.parametrize(
    ("cards", "staff", "rated", "counts"),
    [
        (CardCounts(yellow=4), (), "5", "5"),
        (CardCounts(second_yellow=1), (), "5", "3"),
        (CardCounts(straight_red=1), (), "3.01", "3"),
        (CardCounts(yellow_and_straight_red=1), (), "3", "3"),
        (CardCounts(straight_red=1), (), "1", "1"),
        (CardCounts(), ("home",), "5", "3"),
        (CardCounts(), ("away",), "5", "5"),
        (None, (), "5", "5"),
    ],
)
def test_a_side_with_a_red_is_rated_at_most_the_cap(
    cards: CardCounts | None, staff: tuple[Side, ...], rated: str, counts: str
) -> None:
    game = replace(
        _game(1, "played"),
        home_cards=cards,
        away_cards=CardCounts(),
        home_rating=Decimal(rated),
        away_rating=Decimal(2),
        red_staff=frozenset(staff),
    )
    assert _ratings(_upheld(game)) == [(Decimal(counts), Decimal(2))]
    assert _ratings(_upheld(game, rated_by="nobody")) == [(Decimal(rated), Decimal(2))]


def test_a_team_is_out_at_the_number_of_forfeits_and_a_default_in_time_is_none() -> None:
    one_short = (_game(1, "default", by="home"), _game(2, "forfeit", by="home"))
    assert _upheld(*one_short).out == ()
    reached = _upheld(*one_short, _game(3, "default", by="home"))
    assert [(one.team, one.forfeits, one.round) for one in reached.out] == [(A, 2, 3)]
    assert [one.how for one in reached.results] == ["annulled"] * 3


def test_a_double_forfeit_takes_both_out_unless_it_counts_nowhere() -> None:
    games = (_game(1, "double_forfeit"), _game(2, "double_forfeit"))
    assert [one.team for one in _upheld(*games).out] == [A, B]
    assert _upheld(*games, double="annulled").out == ()


@pytest.mark.parametrize(
    ("results", "says", "rows"),
    [
        (
            "annulled",
            "A is out of the league after 2 forfeits, by H 11.4; its games do not count.",
            [(B, 0, 0), (C, 0, 0), (A, 0, 0)],
        ),
        (
            "kept",
            f"A is out of the league after 2 forfeits, by H 11.4; {PLAYED}, the rest do not.",
            [(B, 2, 6), (A, 3, 1), (C, 1, 0)],
        ),
        (
            "rest_forfeited",
            f"A is out of the league after 2 forfeits, by H 11.4; {PLAYED}, and it forfeits the rest.",
            [(B, 2, 6), (A, 3, 1), (C, 1, 0)],
        ),
    ],
)
def test_a_team_that_is_out_is_named_and_its_games_count_as_the_rulebook_says(
    results: str,
    says: str,
    rows: list[tuple[TeamId, int, int]],
    capsys: pytest.CaptureFixture[str],
) -> None:
    won = replace(_game(1, "played"), away=C, home_goals=1)
    games = (won, _game(2, "forfeit", by="home"), _game(3, "forfeit", by="home"))
    season = _season(*games, results=results)
    tables = pool_tables(season, POOL)
    before = {row.team: (row.played, row.points) for row in tables[1].standings.rows}
    assert before == {A: (2, 2), B: (1, 3), C: (1, 0)}
    assert [(r.team, r.played, r.points) for r in tables[2].standings.rows] == rows
    assert upheld_in(season, POOL, up_to=2).out == ()
    out = upheld_in(season, POOL, up_to=3).out
    assert [str(out_of_league(one, {})) for one in out] == [says]
    pool = PoolShown(pool=POOL, tables=tables, is_newest=True)
    print_standings(StandingsShown(season=season, pools=(pool,), remarks=(), written=()))
    assert says in capsys.readouterr().out


@pytest.mark.parametrize(
    ("results", "points", "says"),
    [
        ("annulled", {A: 0, B: 0, C: 0}, ["left out, because A was out by then"]),
        ("kept", {A: -2, B: 6, C: 0}, ["left out, because A was out by then"]),
        (
            "rest_forfeited",
            {A: -3, B: 6, C: 3},
            [
                "forfeited by A, because A was out by then",
                "counts 4\u20130",
                "1 point off A for the forfeit",
            ],
        ),
    ],
)
def test_a_game_listed_after_a_team_was_out_counts_as_the_rulebook_says(
    results: str, points: dict[TeamId, int], says: list[str]
) -> None:
    given_up = [_game(number, "forfeit", by="home") for number in (1, 2)]
    late = replace(_game(3, "played", home_goals=1, away_goals=5), home=C, away=A)
    season = _season(late, *given_up, results=results)
    table = pool_tables(season, POOL)[-1].standings
    assert {row.team: row.points for row in table.rows} == points
    stand = upheld_in(season, POOL, up_to=3)
    assert stand.late == {"g3": (A,)}
    counting = regulation(season.rulebook).counting
    found = changes(stand, (), counting, {}, {})
    told = "; ".join(["played 1\u20135", *says])
    assert str(found[0].says) == f"Game g3, C v A: {told}."


@pytest.mark.parametrize("results", ["kept", "rest_forfeited"])
def test_the_game_before_a_team_is_out_still_counts_as_played(results: str) -> None:
    won = replace(_game(2, "played", home_goals=2), game=GameId("g0"), away=C)
    games = [_game(number, "forfeit", by="home") for number in (1, 2)]
    before = _upheld(games[0], won, games[1], results=results)
    assert (before.results[1], dict(before.late)) == (won, {})
    after = _upheld(games[0], games[1], won, results=results)
    assert dict(after.late) == {"g0": (A,)}
    assert after.results[2].how == ("annulled" if results == "kept" else "forfeit")


def test_a_forfeit_or_default_against_a_team_that_is_out_takes_nobody_out() -> None:
    given_up = [_game(number, "forfeit", by="home") for number in (1, 2)]
    late = [_game(number, "forfeit", by="away") for number in (3, 4)]
    found = _upheld(*given_up, *late, _game(5, "default", by="away"), results="kept")
    assert [one.team for one in found.out] == [A]
    assert found.beyond == frozenset()
    assert [one.how for one in found.results] == ["forfeit"] * 2 + ["annulled"] * 3


def test_two_teams_that_are_out_both_forfeit_the_game_between_them() -> None:
    games = (_game(1, "double_forfeit"), _game(2, "double_forfeit"), _game(3, "played"))
    season = _season(*games, results="rest_forfeited")
    stand = upheld_in(season, POOL, up_to=3)
    assert (stand.results[2].how, stand.late) == ("double_forfeit", {"g3": (A, B)})
    counting = regulation(season.rulebook).counting
    found = changes(stand, (), counting, {}, {})
    assert str(found[2].says) == (
        "Game g3, A v B: played 0\u20130; forfeited by A and B, because A and B were out by then; "
        "both lose; 1 point off each for the forfeit."
    )


@given(
    st.lists(
        st.tuples(
            st.permutations((A, B, C)),
            st.integers(1, 4),
            st.sampled_from([("played", None), ("forfeit", "home"), ("forfeit", "away")]),
        ),
        max_size=8,
    ),
    st.sampled_from(["annulled", "kept", "rest_forfeited"]),
)
def test_no_team_gains_a_point_once_it_is_out_and_no_game_is_lost(
    drawn: list[tuple[list[TeamId], int, tuple[str, str | None]]], results: str
) -> None:
    games = [
        replace(_game(1, how, by=by, home_goals=by is None), game=GameId(str(index)))
        for index, (_, _, (how, by)) in enumerate(drawn)
    ]
    games = [
        replace(game, round=number, home=teams[0], away=teams[1])
        for game, (teams, number, _) in zip(games, drawn, strict=True)
    ]
    found = _upheld(*games, results=results)
    assert [one.game for one in found.results] == [one.game for one in games]
    left = {team.team: team.round for team in found.out}
    for stands in found.results:
        for team in {stands.home, stands.away} & set(left):
            if stands.round > left[team]:
                assert team in found.late[stands.game]
                assert stands.how != "played"
    if results == "rest_forfeited":
        given_up = [one for one in found.results if one.game in found.late]
        assert all(set(found.late[one.game]) == set(at_fault(one)) for one in given_up)


def test_the_page_names_the_team_that_is_out_and_the_newest_one_every_deduction() -> None:
    games = [_game(number, "forfeit", by="home") for number in (1, 2)]
    taken = Deduction(team=B, points=1, why="Late waivers.", ref="ruling 5", round=9)
    season = replace(_season(*games), deductions=(taken,))
    hrefs = {1: "round-1.html", 2: "round-2.html"}
    pages = PoolPages(
        season=season,
        pool=POOL,
        tables=pool_tables(season, POOL),
        hrefs=hrefs,
        under="round-2.html",
    )
    first, newest = (
        standings_page(pages, shown=shown, shell=SHELL)
        .replace("<bdi>", "")
        .replace("</bdi>", "")
        for shown in (1, 2)
    )
    for says in (
        "A is out of the league after 2 forfeits, by H 11.4; its games do not count.",
        "B: 1 point taken off from round 9 on, by ruling 5.",
        "A is out of the league and stands last. This parts them.",
    ):
        assert (says in first, says in newest) == (False, True), says


def test_the_terminal_writes_differences_as_the_reasons_do(
    capsys: pytest.CaptureFixture[str],
) -> None:
    season = _season(replace(_game(1, "played"), home_goals=2))
    pool = PoolShown(pool=POOL, tables=pool_tables(season, POOL), is_newest=True)
    print_standings(StandingsShown(season=season, pools=(pool,), remarks=(), written=()))
    lines = [line.split() for line in capsys.readouterr().out.splitlines()[2:5]]
    assert {line[1]: line[-2] for line in lines} == {"A": "+2", "B": "\u22122", "C": "0"}


def test_what_does_not_stand_as_played_says_late_defaults_and_games_that_count_nowhere() -> (
    None
):
    season = _season(
        _game(1, "default", by="home"),
        _game(2, "default", by="home"),
        _game(3, "double_forfeit"),
        double="annulled",
    )
    stand = upheld_in(season, POOL, up_to=3)
    counting = regulation(season.rulebook).counting
    found = changes(stand, (), counting, {}, {})
    assert [str(one.says) for one in found] == [
        "Game g1, A v B: defaulted by A; counts 0\u20132.",
        (
            "Game g2, A v B: defaulted by A, beyond its defaults, so a forfeit; counts 0\u20134; "
            "1 point off A for the forfeit."
        ),
        "Game g3, A v B: forfeited by both, counts for nothing.",
    ]


def _ratings(
    found: Upheld,
) -> list[tuple[Decimal | Fraction | None, Decimal | Fraction | None]]:
    return [(one.home_rating, one.away_rating) for one in found.results]


def _upheld(*games: Result, **rules: str) -> Upheld:
    return upheld_in(_season(*games, **rules), POOL, up_to=99)


def _season(
    *games: Result,
    results: str = "annulled",
    double: str = "both_lose",
    rated_by: str = "officials",
) -> Season:
    rules = RULES.replace("RESULTS", results).replace("DOUBLE", double).replace("BY", rated_by)
    return Season(
        league=League(
            name="League",
            timezone="America/Chicago",
            first_day=date(2026, 9, 1),
            last_day=date(2026, 12, 1),
            teams=tuple(Team(team=team, pool=POOL) for team in (A, B, C)),
        ),
        rulebook=load(rules.encode(), file="rulebook.toml").rulebook,
        results=games,
    )


def _game(number: int, how: str, **fields: Any) -> Result:
    given: dict[str, Any] = {"how": how} | fields
    return Result(game=GameId(f"g{number}"), round=number, home=A, away=B, **given)
