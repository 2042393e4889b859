"""States a race for places: points so far, games left, and what a game can bring."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Literal, TypeAlias

from wholeball.kernel.identity import TeamId
from wholeball.league.fixture import Fixture
from wholeball.season.count import worth_by_game
from wholeball.season.record import PoolStands, drops_games, pools_stand
from wholeball.season.season import Season, regulation
from wholeball.season.standings import Regulation
from wholeball.season.to_come import ToCome

Outcome: TypeAlias = tuple[int, int]
"""The points that a game brings its home and its away team."""
Status: TypeAlias = Literal["clinched", "out", "depends_on_ties", "alive"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Race:
    """Teams that compete for the first `places`; `games` are the two teams' positions.

    A point is `worth` more to a team that plays fewer games, where teams are compared by the
    game; empty where they are not. Those `barred` cannot have a place and take none away. Of
    those `unsure` nobody knows yet whether they will be barred.
    """

    teams: tuple[TeamId, ...]
    points: tuple[int, ...]
    games: tuple[tuple[int, int], ...]
    places: int
    outcomes: tuple[Outcome, ...]
    worth: tuple[int, ...] = ()
    barred: frozenset[TeamId] = frozenset()
    unsure: frozenset[TeamId] = frozenset()

    def __post_init__(self) -> None:
        """Refuse lists of unequal length, and games of teams that are not in the race."""
        n = len(self.teams)
        if len(self.points) != n or len(self.worth) not in (0, n):
            raise ValueError(f"{n} teams with {len(self.points)} totals")
        if not all(0 <= team < n for game in self.games for team in game):
            raise ValueError("a game is of a team that is not in the race")


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What is proven of one team, provided that the games left are played.

    Each tells whether there is a course of the games left with that end, where level points
    always count for the team (`ties_won`) or always against it (`ties_lost`). None: the search
    was cut short, and nothing is proven by it.
    """

    team: TeamId
    in_ties_won: bool | None
    in_ties_lost: bool | None
    out_ties_won: bool | None
    out_ties_lost: bool | None

    @property
    def status(self) -> Status:
        """In whatever happens, out whatever happens, hanging on tie-breakers alone, or open."""
        if self.out_ties_lost is False:
            return "clinched"
        if self.in_ties_won is False:
            return "out"
        if self.in_ties_lost is False or self.out_ties_won is False:
            return "depends_on_ties"
        return "alive"


@dataclass(frozen=True, slots=True, kw_only=True)
class NoRace:
    """Why nothing can be proven: what places hang on first is not points, or not yet known."""

    why: Literal["not_by_points", "games_dropped_later", "no_play_offs"]


def races(
    coming: ToCome,
    *,
    failing: Collection[TeamId] = (),
    unsure: Collection[TeamId] = (),
) -> tuple[Race, ...] | NoRace:
    """Return the races for the places of the play-offs: one a pool, or one of all teams.

    Teams that are `failing` will be barred for
    their rating whatever happens; those `unsure` may be.
    """
    season, left = coming.season, coming.left
    rules = season.rulebook.play_offs
    pools = pools_stand(season)
    out = {team for one in pools for team in one.out}
    making = _Making(season, left, frozenset(failing) | out, frozenset(unsure))
    by_points = regulation(season.rulebook).criteria[0] in ("points", "points_per_game")
    if rules.qualify == "none":
        return NoRace(why="no_play_offs")
    if rules.qualify == "all":
        return tuple(making.race([one], places=len(one.table.rows)) for one in pools)
    if not by_points:
        return NoRace(why="not_by_points")
    if rules.qualify == "per_pool":
        return tuple(making.race([one], places=rules.places) for one in pools)
    if drops_games(season, pools):
        return NoRace(why="games_dropped_later")
    return (making.race(pools, places=rules.places),)


@dataclass(frozen=True, slots=True)
class _Making:
    """What every race of a season shares."""

    season: Season
    left: Sequence[Fixture]
    barred: frozenset[TeamId]
    unsure: frozenset[TeamId]

    def race(self, pools: Sequence[PoolStands], *, places: int) -> Race:
        rules = regulation(self.season.rulebook)
        rows = list(chain.from_iterable(one.table.rows for one in pools))
        position = {row.team: index for index, row in enumerate(rows)}
        games = [
            (position[one.home], position[one.away])
            for one in self.left
            if one.home in position and one.away in position
        ]
        all_games = [row.played for row in rows]
        for team in chain.from_iterable(games):
            all_games[team] += 1
        in_race = [
            games_of
            for row, games_of in zip(rows, all_games, strict=True)
            if row.team not in self.barred
        ]
        by_game = rules.criteria[0] == "points_per_game" or (
            len(pools) > 1 and len(set(in_race)) > 1
        )
        return Race(
            teams=tuple(position),
            points=tuple(row.points for row in rows),
            games=tuple(games),
            places=places,
            outcomes=outcomes(rules),
            worth=worth_by_game(all_games) if by_game else (),
            barred=self.barred & position.keys(),
            unsure=self.unsure & position.keys() - self.barred,
        )


def outcomes(rules: Regulation) -> tuple[Outcome, ...]:
    """Return what a game can bring: won, drawn, lost, and forfeited where that costs more.

    That both sides forfeit is left aside.
    """
    points, forfeit = rules.counting.points, rules.counting.forfeit
    given_up = points.loss if forfeit.points_loser is None else forfeit.points_loser
    ways = (
        (points.win, points.loss),
        (points.draw, points.draw),
        (points.loss, points.win),
        (points.win, given_up),
        (given_up, points.win),
    )
    return tuple(dict.fromkeys(ways))
