"""The table against a slow ranking written another way: sets of teams, parted one by one."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import Any, get_args

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

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
SUMS: dict[str, Callable[[tuple[Any, ...]], int]] = {
    "points": lambda game: game[4],
    "wins": lambda game: game[5] == "W",
    "difference": lambda game: game[2] - game[3],
    "goals": lambda game: game[2],
    "against": lambda game: game[3],
    "away_goals": lambda game: game[2] * (game[1] == "away"),
    "away_wins": lambda game: (game[5] == "W") * (game[1] == "away"),
}
BUSY = settings(deadline=None, max_examples=200, suppress_health_check=[HealthCheck.too_slow])
"""A busy machine may make a test slow; that is no fault of the table's."""
INFINITE = Fraction(10**9)
Question = tuple[Criterion, str | None]


class Oracle:
    """Ranks by comparing dicts of figures, one level set at a time."""

    def __init__(self, season: dict[str, Any], criteria: Sequence[Criterion]) -> None:
        self.teams: list[TeamId] = season["teams"]
        self.results = [one for one in season["results"] if one.how != "annulled"]
        self.deductions, self.outside = season["deductions"], season["outside"]
        self.parted_by: dict[frozenset[TeamId], Question] = {}
        self.order = self._parted(set(self.teams), list(criteria))

    def _parted(self, level: set[TeamId], steps: list[Criterion]) -> list[set[TeamId]]:
        if len(level) == 1 or not steps:
            return [level]
        first, rest = steps[0], steps[1:]
        names = first.among_level if isinstance(first, AmongLevel) else (None,)
        questions: list[Question] = [(first, name) for name in names]
        lines: dict[TeamId, list[tuple[Question, Any]]] = {team: [] for team in level}
        for question in questions:
            figures = {team: self._figure(question, team, level) for team in level}
            if None not in figures.values():
                for team in level:
                    lines[team].append((question, figures[team]))
        self._note(lines)
        keys = {team: tuple(figure for _, figure in line) for team, line in lines.items()}
        groups = [
            {team for team in level if keys[team] == key}
            for key in sorted(set(keys.values()), reverse=True)
        ]
        again = isinstance(first, AmongLevel) and first.again and len(groups) > 1
        after = steps if again else rest
        return [one for group in groups for one in self._parted(group, after)]

    def _note(self, lines: dict[TeamId, list[tuple[Question, Any]]]) -> None:
        for team, line in lines.items():
            for other, other_line in lines.items():
                unlike = [a[0] for a, b in zip(line, other_line, strict=True) if a[1] != b[1]]
                if unlike:
                    self.parted_by[frozenset({team, other})] = unlike[0]

    def _figure(self, question: Question, team: TeamId, level: set[TeamId]) -> Any:
        criterion, name = question
        if name is not None:
            return self._of_level(name, team, level)
        if criterion == "play_off_match":
            games = [g for g in self.outside.play_offs if {g.home, g.away} <= level]
            own = [_in_play_off(g, team) for g in games if team in (g.home, g.away)]
            return sum(own) if _met(games, level) else None
        if isinstance(criterion, CappedDifference):
            most = criterion.capped_difference
            return sum(max(-most, min(most, g[2] - g[3])) for g in self._games(team))
        if isinstance(criterion, str):
            return self._named(criterion, team)
        if isinstance(criterion, Conduct):
            return self._conduct(team)
        points = self.outside.discipline_points.get(team)
        return None if points is None else -points

    def _named(self, criterion: str, team: TeamId) -> Any:
        if criterion in SUMS:
            return self._sum(criterion, team)
        if criterion == "outside_ranking":
            return -self.outside.ranking[team] if team in self.outside.ranking else None
        if criterion.startswith("opponents_"):
            name = criterion.removeprefix("opponents_")
            return sum(self._sum(name, game[0]) for game in self._games(team))
        return getattr(self, f"_{criterion}")(team)

    def _games(self, team: TeamId) -> list[tuple[Any, ...]]:
        return [_seen(g, team) for g in self.results if team in (g.home, g.away)]

    def _of_level(self, name: str, team: TeamId, level: set[TeamId]) -> Any:
        inner = [g for g in self.results if {g.home, g.away} <= level]
        games = [_seen(g, team) for g in inner if team in (g.home, g.away)]
        if name == "h2h_points_per_game":
            return Fraction(sum(map(SUMS["points"], games)), len(games)) if games else None
        if not _met(inner, level):
            return None
        return sum(int(SUMS[name.removeprefix("h2h_")](game)) for game in games)

    def _sum(self, name: str, team: TeamId) -> int:
        off = sum(d.points for d in self.deductions if d.team == team)
        total = sum(int(SUMS[name](game)) for game in self._games(team))
        return total - off if name == "points" else total

    def _points_per_game(self, team: TeamId) -> Fraction:
        return Fraction(self._sum("points", team), len(self._games(team)) or 1)

    def _goal_average(self, team: TeamId) -> Fraction | None:
        scored, conceded = self._sum("goals", team), self._sum("against", team)
        if conceded:
            return Fraction(scored, conceded)
        return INFINITE if scored else None

    def _ratings_average(self, team: TeamId) -> Fraction | None:
        given = [g.home_rating if g.home == team else g.away_rating for g in self._mine(team)]
        rated = [Fraction(rating) for rating in given if rating is not None]
        return sum(rated, Fraction()) / len(rated) if rated else None

    def _fewest_forfeits(self, team: TeamId) -> int:
        mine = self._mine(team)
        alone = sum(g.how == "forfeit" and (g.by == "home") == (g.home == team) for g in mine)
        return -alone - sum(g.how == "double_forfeit" for g in mine)

    def _mine(self, team: TeamId) -> list[Result]:
        return [g for g in self.results if team in (g.home, g.away)]

    def _conduct(self, team: TeamId) -> int | None:
        total = 0
        for game in self._mine(team):
            cards = game.home_cards if game.home == team else game.away_cards
            if cards is not None:
                total -= cards.yellow + 3 * cards.second_yellow + 4 * cards.straight_red
                total -= 5 * cards.yellow_and_straight_red
            elif game.how == "played" or game.played_score:
                return None
        return total


def _met(games: Sequence[Result], level: set[TeamId]) -> bool:
    pairs = {frozenset({g.home, g.away}) for g in games}
    return all(frozenset({a, b}) in pairs for a in level for b in level if a != b)


def _seen(game: Result, team: TeamId) -> tuple[Any, ...]:
    """Opponents, ground, goals for, goals against, points, W D or L, as `team` sees it."""
    at_home = game.home == team
    opponents = game.away if at_home else game.home
    ground = "neutral" if game.neutral else "home" if at_home else "away"
    ours, theirs = game.home_goals, game.away_goals
    if not at_home:
        ours, theirs = theirs, ours
    if game.how == "double_forfeit":
        return opponents, ground, 0, 0, -1, "L"
    if game.how in ("forfeit", "default"):
        guilty = (game.by == "home") == at_home
        lost, won = (0, 3) if game.how == "forfeit" else (0, 0)
        if game.how == "forfeit" and game.played_score is not None:
            home, away = game.played_score
            played = (home, away) if game.by == "home" else (away, home)
            if played[1] - played[0] > 3:
                lost, won = played
        if guilty:
            return opponents, ground, lost, won, -1 if game.how == "forfeit" else 0, "L"
        return opponents, ground, won, lost, 3, "W"
    outcome = "W" if ours > theirs else "L" if ours < theirs else "D"
    return opponents, ground, ours, theirs, {"W": 3, "D": 1, "L": 0}[outcome], outcome


def _in_play_off(game: Result, team: TeamId) -> int:
    """Points of a play-off match; kicks decide it only where its goals do not."""
    *_, points, outcome = _seen(game, team)
    if outcome != "D" or game.kicks is None:
        return int(points)
    ours, theirs = game.kicks if game.home == team else game.kicks[::-1]
    return 3 if ours > theirs else 0 if ours < theirs else 1


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
        "results": [draw(_results(number, *pair)) for number, pair in enumerate(games)],
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


HOWS: list[How] = [*get_args(How), *get_args(How)[:1] * 7]
"""Every way a game can count; most are played."""


@st.composite
def _results(draw: st.DrawFn, number: int, home: TeamId, away: TeamId) -> Result:
    goals = st.integers(0, 2)
    how = draw(st.sampled_from(HOWS))
    cards = st.none() | st.builds(CardCounts, yellow=goals, straight_red=st.integers(0, 1))
    rating = st.none() | st.sampled_from([Decimal("3.5"), Decimal(4)])
    return Result(
        game=GameId(f"game {number}"),
        round=1 + number % 3,
        home=home,
        away=away,
        home_goals=draw(goals),
        away_goals=draw(goals),
        how=how,
        by=draw(st.sampled_from(["home", "away"])) if how in ("forfeit", "default") else None,
        played_score=draw(st.none() | st.tuples(st.integers(0, 5), st.integers(0, 5))),
        home_cards=draw(cards),
        away_cards=draw(cards),
        home_rating=draw(rating),
        away_rating=draw(rating),
        neutral=draw(st.booleans()),
    )


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
