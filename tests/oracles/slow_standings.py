"""Ranks teams slowly and another way: sets of teams, parted one by one."""

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import Any

from wholeball.kernel.identity import TeamId
from wholeball.rulebook.criteria import (
    AmongLevel,
    CappedDifference,
    Conduct,
    Criterion,
)
from wholeball.season.result import Result

SUMS: dict[str, Callable[[tuple[Any, ...]], int]] = {
    "points": lambda game: game[4],
    "wins": lambda game: game[5] == "W",
    "difference": lambda game: game[2] - game[3],
    "goals": lambda game: game[2],
    "against": lambda game: game[3],
    "away_goals": lambda game: game[2] * (game[1] == "away"),
    "away_wins": lambda game: (game[5] == "W") * (game[1] == "away"),
}
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
