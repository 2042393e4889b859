"""Tells how likely each team is to go on and to win the bracket, by simulating the season's rest."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.season.bracket import MOST, kept_apart
from wholeball.season.bracket_odds import simulated_winners
from wholeball.season.count import Flags, Whole, games, worth_by_game
from wholeball.season.race import Status
from wholeball.season.record import PoolStands, drops_games, pools_stand, record
from wholeball.season.scores import AWAY, HOME, SIDE, chances, draw_scores
from wholeball.season.season import regulation
from wholeball.season.shares import Drawing, NoOdds, Odds, Proven, Share, TeamOdds
from wholeball.season.simulated import Levels, rank_ends
from wholeball.season.simulated_figures import Ends, not_simulated
from wholeball.season.strengths import Strengths, strengths
from wholeball.season.to_come import ToCome


def odds(
    coming: ToCome,
    drawing: Drawing,
    *,
    failing: Collection[TeamId] = (),
    proven: Mapping[TeamId, Status] | None = None,
    what_if: Mapping[GameId, tuple[int, int]] | None = None,
) -> Odds | NoOdds:
    """Return the odds of a season with games to come.

    Teams `failing` the rating do not go on. Only what is `proven` is told as sure. The games of
    `what_if` end as given; all others are drawn alike whatever is supposed, so that a
    difference comes from the supposed scores alone.
    """
    season = coming.season
    pools = pools_stand(season)
    if season.rulebook.play_offs.qualify == "none":
        return NoOdds(why="no_play_offs")
    if not season.league.teams:
        return NoOdds(why="no_teams")
    if season.rulebook.play_offs.qualify == "overall" and drops_games(season, pools):
        if coming.left:
            return NoOdds(why="games_dropped_later")
        if record(season, pools, tiers={}).unclear:
            return NoOdds(why="games_dropped_by_lots")
    simulated = Simulated(coming, drawing, pools, failing, what_if or {})
    return simulated.odds(proven or {})


class Simulated:
    """Simulates the ends of one season; arrays are by team as the league lists, then by season."""

    def __init__(
        self,
        coming: ToCome,
        drawing: Drawing,
        pools: Sequence[PoolStands],
        failing: Collection[TeamId],
        what_if: Mapping[GameId, tuple[int, int]],
    ) -> None:
        self._coming, self._drawing, self._pools = coming, drawing, pools
        self._rules = regulation(coming.season.rulebook)
        self._play_offs = coming.season.rulebook.play_offs
        self._teams = tuple(one.team for one in coming.season.league.teams)
        self._index = {team: number for number, team in enumerate(self._teams)}
        out = {team for one in pools for team in one.out}
        self._barred = np.array([one in out or one in failing for one in self._teams])
        scores, self._bracket, *self._lots = np.random.default_rng(drawing.seed).spawn(5)
        self.strengths = strengths(coming.season.results, self._teams)
        self._ends = self.make_ends(scores, what_if)
        compared = record(coming.season, pools, tiers={})
        drops = drops_games(coming.season, pools)
        self._is_drop_open = drops and bool(coming.left or compared.unclear)
        self._gone = {game for one in compared.dropped for game in one.games}
        below = {one.team for one in compared.dropped}
        self._below = np.array([one in below for one in self._teams])

    def odds(self, proven: Mapping[TeamId, Status]) -> Odds:
        """Return what the simulated seasons come to."""
        ranked = rank_ends(self._ends, self._rules.criteria, self.pool_tiers(), self._lots[0])
        place = ranked.rank.astype(np.int64) - self._first_of_pool()[:, None]
        if self._play_offs.qualify == "overall":
            tiers = np.where(self._barred, 2, self._below)
            between = rank_ends(self._by_game(), self._rules.criteria, tiers, self._lots[1])
            goes_on = (between.rank < self._play_offs.places) & ~self._barred[:, None]
            hung = _hangs(between.before_lots, goes_on, self._barred)
        else:
            goes_on = self._of_pools(place)
            hung = _hangs(ranked.before_lots, goes_on, self._barred)
        wins = self._winners(place, goes_on)
        return Odds(
            seed=self._drawing.seed,
            seasons=self._drawing.seasons,
            left=len(self._coming.left),
            fed_by=self.strengths.games,
            by_chance=int(hung.sum()),
            not_simulated=not_simulated(self._rules.criteria),
            teams=tuple(
                self._team_odds(number, place, goes_on, wins, proven)
                for number in range(len(self._teams))
            ),
        )

    def make_ends(
        self, scores: np.random.Generator, what_if: Mapping[GameId, tuple[int, int]]
    ) -> Ends:
        """Return the ends of all seasons, with scores that are drawn from the strengths."""
        left = sorted(self._coming.left, key=lambda one: one.game)
        goals = self.strengths.goals
        tables = [chances(goals(g.home, g.away), goals(g.away, g.home)) for g in left]
        cells = draw_scores(tables, self._drawing.seasons, scores)
        for number, game in enumerate(left):
            if game.game in what_if:
                home, away = what_if[game.game]
                cells[number] = SIDE * min(home, SIDE - 1) + min(away, SIDE - 1)
        results = [one for pool in self._pools for one in pool.results]
        deducted = np.zeros(len(self._teams), dtype=np.int64)
        for one in self._coming.season.deductions:
            deducted[self._index[one.team]] += one.points
        return Ends(
            teams=len(self._teams),
            played=games(results, self._index, self._rules.counting),
            deducted=deducted,
            left=[(self._index[one.home], self._index[one.away]) for one in left],
            cells=cells,
            points=self._rules.counting.points,
            worth=np.ones(len(self._teams), dtype=np.int64),
        )

    def pool_tiers(self) -> Whole:
        """Return tiers that keep pools apart, in each the teams last whose games are annulled."""
        removal = self._coming.season.rulebook.forfeit.removal
        tiers = np.zeros(len(self._teams), dtype=np.int64)
        for number, pool in enumerate(self._pools):
            for row in pool.table.rows:
                is_last = removal.results == "annulled" and row.team in pool.out
                tiers[self._index[row.team]] = 2 * number + is_last
        return tiers

    def _first_of_pool(self) -> Whole:
        """Return for each team how many teams the pools before its own have."""
        first = np.zeros(len(self._teams), dtype=np.int64)
        before = 0
        for pool in self._pools:
            for row in pool.table.rows:
                first[self._index[row.team]] = before
            before += len(pool.table.rows)
        return first

    def _by_game(self) -> Ends:
        """Return the same ends, figures made comparable where teams play unequally often."""
        ends = self._ends
        if self._gone:
            kept = [one for pool in self._pools for one in pool.results]
            kept = [one for one in kept if one.game not in self._gone]
            ends = replace(ends, played=games(kept, self._index, self._rules.counting))
        left = np.array(ends.left, dtype=np.int64).ravel()
        sides = np.concatenate((ends.played.home, ends.played.away, left))
        counts = np.bincount(sides, minlength=ends.teams)
        compared = ~self._barred & ~self._below
        if len(self._pools) == 1 or len(set(counts[compared].tolist())) == 1:
            return ends
        return replace(ends, worth=np.array(worth_by_game(counts.tolist()), dtype=np.int64))

    def _of_pools(self, place: Whole) -> Flags:
        """Return who goes on of each pool, the barred passed over."""
        if self._play_offs.qualify == "all":
            return np.broadcast_to(~self._barred[:, None], place.shape)
        ahead = place.copy()
        for pool in self._pools:
            members = np.array([self._index[row.team] for row in pool.table.rows])
            for barred in members[self._barred[members]].tolist():
                ahead[members] -= place[barred] < place[members]
        able = ~self._barred[:, None]
        return np.asarray((ahead < self._play_offs.places) & able, dtype=np.bool_)

    def _winners(self, place: Whole, goes_on: Flags) -> Whole | None:
        """Return who wins the bracket in each season; None where seeds cannot be told or made."""
        on = int(goes_on[:, 0].sum())
        if not 2 <= on <= MOST or self._is_drop_open:
            return None
        by_place = self._play_offs.seeded_by == "pool_place_then_record"
        lower = len(self._teams) * self._below[:, None]
        tiers = np.where(goes_on, (place if by_place else 0) + lower, 2 * len(self._teams))
        criteria = () if self._play_offs.seeded_by == "lots" else self._rules.criteria
        ranked = rank_ends(self._by_game(), criteria, tiers, self._lots[2])
        by_seed = np.empty(ranked.rank.shape, dtype=np.int64)
        teams = np.broadcast_to(np.arange(len(self._teams))[:, None], ranked.rank.shape)
        np.put_along_axis(by_seed, ranked.rank, teams, axis=0)
        by_seed = by_seed[:on]
        if self._play_offs.same_pool == "kept_apart_in_first_round":
            by_seed = self._kept_apart(by_seed)
        return simulated_winners(by_seed, self._beats(), self._bracket)

    def _kept_apart(self, by_seed: Whole) -> Whole:
        """Return the seeds after teams of one pool are kept apart; each pattern of pools once."""
        pool_of = {one.team: one.pool for one in self._coming.season.league.teams}
        numbers = {pool: number for number, pool in enumerate(dict.fromkeys(pool_of.values()))}
        pools = np.array([numbers[pool_of[team]] for team in self._teams])
        patterns, which = np.unique(pools[by_seed].T, axis=0, return_inverse=True)
        seats = [TeamId(str(seed)) for seed in range(len(by_seed))]
        orders = [
            [
                int(seat)
                for seat in kept_apart(
                    seats, {s: PoolId(str(p)) for s, p in zip(seats, row, strict=True)}
                ).teams
            ]
            for row in patterns.tolist()
        ]
        moved = np.array(orders, dtype=np.int64)[which.ravel()]
        return np.take_along_axis(by_seed, moved.T, axis=0)

    def _beats(self) -> NDArray[np.float64]:
        n = len(self._teams)
        beats = np.full((n, n), 0.5)
        for one in range(n):
            for other in range(n):
                if one != other:
                    teams = self._teams[one], self._teams[other]
                    beats[one, other] = wins_play_off(self.strengths, *teams)
        return beats

    def _team_odds(
        self,
        number: int,
        place: Whole,
        goes_on: Flags,
        wins: Whole | None,
        proven: Mapping[TeamId, Status],
    ) -> TeamOdds:
        team, seasons = self._teams[number], self._drawing.seasons
        pool = next(one for one in self._pools if team in {r.team for r in one.table.rows})
        status = proven.get(team)
        return TeamOdds(
            team=team,
            pool=pool.pool,
            goes_on=Share(
                hits=int(goes_on[number].sum()),
                seasons=seasons,
                proven=_SURE.get(status) if status else None,
            ),
            wins=None
            if wins is None
            else Share(
                hits=int((wins == number).sum()),
                seasons=seasons,
                proven="never" if status == "out" else None,
            ),
            places=tuple(np.bincount(place[number], minlength=len(pool.table.rows)).tolist()),
        )


_SURE: Final[dict[Status, Proven]] = {"clinched": "always", "out": "never"}


def wins_play_off(fitted: Strengths, team: TeamId, against: TeamId) -> float:
    """Return how likely a team wins a play-off game; a level one it wins every other time."""
    cells = chances(fitted.goals(team, against), fitted.goals(against, team))
    return float(cells[HOME > AWAY].sum() + cells[HOME == AWAY].sum() / 2)


def _hangs(before_lots: Levels, goes_on: Flags, barred: Flags) -> Flags:
    """Tell in which seasons chance parted a team that goes on from one that does not."""
    able, on = before_lots[~barred].astype(np.int64), goes_on[~barred]
    last_in = np.where(on, able, -1)
    taken = np.zeros((len(before_lots) + 1, able.shape[1]), dtype=np.bool_)
    np.put_along_axis(taken, last_in, on, axis=0)
    return np.asarray(
        (np.take_along_axis(taken, able, axis=0) & ~on).any(axis=0), dtype=np.bool_
    )
