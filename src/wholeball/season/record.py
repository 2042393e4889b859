"""Compares teams of different pools, whose sizes or numbers of games may be unequal."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.rulebook.criteria import Criterion
from wholeball.season.result import Result
from wholeball.season.season import Season, outside_a_pool, regulation
from wholeball.season.standings import Regulation, Standings, standings
from wholeball.season.upheld import upheld


@dataclass(frozen=True, slots=True, kw_only=True)
class PoolStands:
    """One pool as it stands: its table, its results as they count, and who was taken out.

    Of those taken out, all games of the `annulled` count for nothing: the pool is smaller by them.
    """

    pool: PoolId
    table: Standings
    results: tuple[Result, ...]
    out: frozenset[TeamId]
    annulled: frozenset[TeamId] = frozenset()

    @property
    def best_first(self) -> tuple[TeamId, ...]:
        """The teams whose games count, best first; those that were taken out come last."""
        teams = [row.team for row in self.table.rows if row.team not in self.annulled]
        return tuple(sorted(teams, key=lambda team: team in self.out))


@dataclass(frozen=True, slots=True, kw_only=True)
class Dropped:
    """The games against one last team of a larger pool, which do not count between pools."""

    team: TeamId
    pool: PoolId
    games: tuple[GameId, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """The table of all pools' teams together, and how they were made comparable.

    With `per_game` what adds up over games is divided by the games played, since the teams
    have played `least` to `most`. Teams whose games are `dropped` have no counterpart in the
    smallest pool and stand below all others. `unclear` are sets of level teams of which nobody
    can say who is last, and so whose games to drop.
    """

    table: Standings
    per_game: bool
    least: int
    most: int
    dropped: tuple[Dropped, ...] = ()
    unclear: tuple[tuple[TeamId, ...], ...] = ()


def pools_stand(season: Season) -> tuple[PoolStands, ...]:
    """Return every pool as it stands by its newest results; without any, all are level."""
    return tuple(_pool(season, pool) for pool in season.league.pools)


def record(
    season: Season, pools: Sequence[PoolStands], *, tiers: Mapping[TeamId, int]
) -> Record:
    """Return how the teams of all pools compare; those of a lower tier stand above a higher.

    Where games against the last of larger pools are dropped, whoever was taken out is the last.
    Figures of games among level teams part only teams that have all met. Lots are asked last
    of all, also where the rulebook lets pools share a place: no two teams can have one seed.
    """
    least = min((len(one.best_first) for one in pools), default=0)
    larger = _larger(season, pools)
    dropped = tuple(chain.from_iterable(_dropped(one, least) for one in larger))
    gone = {game for one in dropped for game in one.games}
    below = {one.team for one in dropped} | {team for one in pools for team in one.out}
    kept = [one for pool in pools for one in pool.results if one.game not in gone]
    rules = regulation(season.rulebook)
    played = _played(kept, season, rules, below)
    per_game = len(pools) > 1 and len(set(played)) > 1
    last = 1 + max(tiers.values(), default=0)
    lower = {one.team: last + tiers.get(one.team, 0) for one in dropped}
    return Record(
        table=standings(
            kept,
            replace(_between_pools(rules), per_game=per_game),
            teams=[one.team for one in season.league.teams],
            deductions=season.deductions,
            outside=replace(season.outside, tiers={**tiers, **lower}),
            out={team for one in pools for team in one.out},
        ),
        per_game=per_game,
        least=min(played, default=0),
        most=max(played, default=0),
        dropped=dropped,
        unclear=tuple(chain.from_iterable(_unclear(one, least) for one in larger)),
    )


def drops_games(season: Season, pools: Sequence[PoolStands]) -> bool:
    """Tell whether games against the last of larger pools do not count between pools."""
    return bool(_larger(season, pools))


def _larger(season: Season, pools: Sequence[PoolStands]) -> list[PoolStands]:
    if season.rulebook.play_offs.unequal_pools != "drop_games_against_last":
        return []
    least = min((len(one.best_first) for one in pools), default=0)
    return [one for one in pools if len(one.best_first) > least]


def _pool(season: Season, pool: PoolId) -> PoolStands:
    teams = season.league.pools[pool]
    members = frozenset(teams)
    stand = upheld([one for one in season.results if one.home in members], season.rulebook)
    return PoolStands(
        pool=pool,
        table=standings(
            stand.results,
            regulation(season.rulebook),
            teams=teams,
            deductions=[one for one in season.deductions if one.team in members],
            outside=outside_a_pool(season),
            out=stand.last,
        ),
        results=stand.results,
        out=frozenset(one.team for one in stand.out),
        annulled=stand.last,
    )


def _dropped(pool: PoolStands, least: int) -> Iterator[Dropped]:
    for team in pool.best_first[least:]:
        against = (one.game for one in pool.results if team in (one.home, one.away))
        yield Dropped(team=team, pool=pool.pool, games=tuple(against))


def _unclear(pool: PoolStands, least: int) -> Iterator[tuple[TeamId, ...]]:
    """Yield the level set that holds both a team that is compared and one whose games drop."""
    place = {row.team: row.place for row in pool.table.rows}
    last_in, first_out = pool.best_first[least - 1 : least + 1]
    if first_out not in pool.out and place[last_in] == place[first_out]:
        level = place[first_out]
        yield tuple(
            team for team in pool.best_first if place[team] == level and team not in pool.out
        )


def _played(
    kept: Sequence[Result], season: Season, rules: Regulation, below: Collection[TeamId]
) -> list[int]:
    counts = {one.team: 0 for one in season.league.teams if one.team not in below}
    for result in kept:
        if rules.counting.counts(result):
            for team in (result.home, result.away):
                if team in counts:
                    counts[team] += 1
    return list(counts.values())


def _between_pools(rules: Regulation) -> Regulation:
    """Return what parts teams whose places a pool's rules cannot part, lots at the end."""
    if rules.last_resort in ("lots", "coordinator"):
        return rules
    resort: list[Criterion] = []
    match rules.last_resort:
        case "play_off_match" | "outside_ranking" as asked if asked not in rules.criteria:
            resort = [asked]
        case _:
            pass
    return replace(rules, criteria=(*rules.criteria, *resort), last_resort="lots")
