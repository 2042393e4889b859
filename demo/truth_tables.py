"""Works out tables, ratings, fees and removals from what games came to, in the plainest way."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from typing import Literal, NamedTuple, TypeAlias

from demo.account import Account
from demo.house import House
from demo.world import SIDES, Side, other

How: TypeAlias = Literal["played", "forfeit", "default", "double_forfeit", "annulled"]
Key: TypeAlias = tuple[Fraction, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What a game counts as from a day on; goals are those played."""

    game: str
    round: int
    pool: str
    home: str
    away: str
    how: How
    since: date
    goals: tuple[int, int] = (0, 0)
    by: Side | None = None
    ratings: tuple[Fraction | None, Fraction | None] = (None, None)
    was_played: bool = False

    def team(self, side: Side) -> str:
        """Return the team of a side."""
        return self.home if side == "home" else self.away

    @property
    def at_fault(self) -> tuple[str, ...]:
        """Return who forfeited."""
        if self.how == "double_forfeit":
            return self.home, self.away
        return (self.team(self.by),) if self.how == "forfeit" and self.by else ()


class Line(NamedTuple):
    """One team's line of a table; teams that nothing parts share a place."""

    place: int
    team: str
    played: int
    won: int
    drawn: int
    lost: int
    goals_for: int
    goals_against: int
    points: int


def outcome(account: Account, *, since: date, by: Side | None = None) -> Outcome:
    """Return what a game counts as; with `by`, that side forfeits it by a ruling."""
    how: How = "forfeit" if by else "played"
    if not account.was_played:
        how = account.ended  # type: ignore[assignment]
    return Outcome(
        game=account.listed.game,
        round=account.listed.round,
        pool=account.listed.pool,
        home=account.home,
        away=account.away,
        how=how,
        since=since,
        goals=account.score(),
        by=by or account.by,
        ratings=(account.ratings.get("home"), account.ratings.get("away")),
        was_played=account.was_played,
    )


def newest(outcomes: Iterable[Outcome], on: date) -> list[Outcome]:
    """Return what each game counts as on a day; games not known by then are not there."""
    found: dict[str, Outcome] = {}
    for one in sorted(outcomes, key=lambda one: one.since):
        if one.since <= on:
            found[one.game] = one
    return list(found.values())


class Counted(NamedTuple):
    """The games of a pool as they count up to a round, and the team that is out, if one is."""

    games: list[Outcome]
    out: tuple[str, ...]


def counted(known: Sequence[Outcome], rules: House, *, up_to: int) -> Counted:
    """Take the forfeits of a pool together: after the last that is borne, nothing counts."""
    forfeits: dict[str, int] = {}
    out: list[str] = []
    mine = sorted((one for one in known if one.round <= up_to), key=lambda one: one.round)
    for one in mine:
        if not {one.home, one.away} & set(out):
            for team in one.at_fault:
                forfeits[team] = forfeits.get(team, 0) + 1
                if forfeits[team] == rules.removed_after:
                    out.append(team)
    games = [
        replace(one, how="annulled") if {one.home, one.away} & set(out) else one for one in mine
    ]
    return Counted(games, tuple(out))


def rated(found: Counted, team: str, rules: House) -> list[Fraction]:
    """Return what a team was rated game by game, those of forfeits by rule among them."""
    values = []
    for one in found.games:
        for side in SIDES:
            if one.team(side) == team and one.how != "annulled":
                value = _rating(one, side, rules)
                if value is not None:
                    values.append(value)
    return values


def _rating(one: Outcome, side: Side, rules: House) -> Fraction | None:
    given = one.ratings[SIDES.index(side)]
    if given is not None or one.how == "played":
        return given
    if one.how == "default":
        return rules.given_defaulting if one.by == side else rules.given_ready
    is_at_fault = one.how == "double_forfeit" or one.by == side
    return rules.given_forfeiting if is_at_fault else rules.given_ready


def average(values: Sequence[Fraction], rules: House) -> Fraction | None:
    """Return the mean, or nothing of too few."""
    return (
        sum(values, Fraction(0)) / len(values) if len(values) >= rules.ratings_least else None
    )


class Figures:
    """The figures of teams, from games as they count; `per_game` divides what adds up."""

    def __init__(self, found: Counted, rules: House, *, per_game: bool = False) -> None:
        self._found = found
        self._rules = rules
        self._per_game = per_game

    def games(self, team: str, among: Sequence[str] = ()) -> list[tuple[Outcome, Side]]:
        """Return a team's games that count, all or those against some teams."""
        return [
            (one, side)
            for one in self._found.games
            for side in SIDES
            if one.how != "annulled"
            and one.team(side) == team
            and (not among or one.team(other(side)) in among)
        ]

    def points(self, team: str, among: Sequence[str] = ()) -> int:
        """Return points won."""
        return sum(self._points(*one) for one in self.games(team, among))

    def _points(self, one: Outcome, side: Side) -> int:
        if one.how == "double_forfeit":
            return 0
        if one.how != "played":
            return 0 if one.by == side else self._rules.win
        mine, theirs = self.goals(one, side)
        return self._rules.win if mine > theirs else self._rules.draw if mine == theirs else 0

    @staticmethod
    def goals(one: Outcome, side: Side) -> tuple[int, int]:
        """Return the goals that count, a side's own first; those of a forfeit count nowhere."""
        if one.how != "played":
            return 0, 0
        home, away = one.goals
        return (home, away) if side == "home" else (away, home)

    def difference(self, team: str, among: Sequence[str] = (), *, most: int = 99) -> int:
        """Return goals for less goals against, each game's share cut at a margin."""
        margins = [a - b for a, b in (self.goals(*one) for one in self.games(team, among))]
        return sum(max(-most, min(most, one)) for one in margins)

    def scored(self, team: str) -> int:
        """Return goals scored."""
        return sum(self.goals(*one)[0] for one in self.games(team))

    def ordered(self, teams: Sequence[str], *, mini: bool = True) -> list[list[str]]:
        """Return teams best first; those in one list are parted by nothing."""
        most = self._rules.most_of_difference
        level = self._parted([list(teams)], lambda team: self._a_game(team, self.points(team)))
        if mini:
            level = [one for group in level for one in self._mini(group)]
        level = self._parted(
            level, lambda team: self._a_game(team, self.difference(team, most=most))
        )
        level = self._parted(level, lambda team: self._a_game(team, self.scored(team)))
        return [one for group in level for one in self._by_rating(group)]

    def _a_game(self, team: str, value: int) -> Fraction:
        return Fraction(value, max(len(self.games(team)), 1) if self._per_game else 1)

    @staticmethod
    def _parted(level: list[list[str]], key: Callable[[str], Fraction]) -> list[list[str]]:
        found = []
        for group in level:
            values = sorted({key(team) for team in group}, reverse=True)
            found += [[team for team in group if key(team) == one] for one in values]
        return found

    def _mini(self, group: list[str]) -> list[list[str]]:
        """Make a table of the games among a group, and again among those it leaves level."""
        if len(group) < 2 or not self._have_all_met(group):
            return [group]
        level = self._parted([group], lambda team: Fraction(self.points(team, group)))
        level = self._parted(level, lambda team: Fraction(self.difference(team, group)))
        if len(level) == 1:
            return level
        return [one for smaller in level for one in self._mini(smaller)]

    def _have_all_met(self, group: list[str]) -> bool:
        return all(
            self.games(one, [another]) for one in group for another in group if one != another
        )

    def _by_rating(self, group: list[str]) -> list[list[str]]:
        """Part a group by ratings, unless one of it has too few of them."""
        averages = {
            team: average(rated(self._found, team, self._rules), self._rules) for team in group
        }
        if None in averages.values():
            return [group]
        return self._parted([group], lambda team: averages[team] or Fraction(0))


def table(teams: Sequence[str], found: Counted, rules: House) -> list[Line]:
    """Return the table of a pool, best first; a team that is out stands last."""
    figures = Figures(found, rules)
    staying = [team for team in teams if team not in found.out]
    groups = figures.ordered(staying)
    groups += figures.ordered(found.out) if found.out else []
    lines = []
    place = 1
    for group in groups:
        lines += [_line(place, team, figures) for team in sorted(group)]
        place += len(group)
    return lines


def _line(place: int, team: str, figures: Figures) -> Line:
    games = figures.games(team)
    scores = [figures.goals(*one) for one in games]
    drawn = sum(one.how == "played" and one.goals[0] == one.goals[1] for one, _ in games)
    won = sum(
        (one.how == "played" and a > b)
        or (one.how in ("forfeit", "default") and one.by != side)
        for (one, side), (a, b) in zip(games, scores, strict=True)
    )
    return Line(
        place=place,
        team=team,
        played=len(games),
        won=won,
        drawn=drawn,
        lost=len(games) - won - drawn,
        goals_for=sum(a for a, _ in scores),
        goals_against=sum(b for _, b in scores),
        points=figures.points(team),
    )
