"""Says who goes on to the play-offs by the rulebook, with which seed, and why."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from wholeball.kernel.identity import PoolId, TeamId
from wholeball.season.reasons import Separation
from wholeball.season.record import PoolStands, Record, pools_stand, record
from wholeball.season.season import Season
from wholeball.season.standings import Row

Parted: TypeAlias = Literal["pool_place", "record", "lots", "nothing", "last"]
"""What gives a seed before the next: place in the pool, the record, lots; or nothing does."""
Why: TypeAlias = Literal["places", "rating", "out"]
"""Why a team does not go on: no place was left, its rating is too low, it was taken out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seed:
    """A team that goes on, its place in its pool, and its line among all teams as compared.

    `parted` says what gives this seed before the next one, and `separation` how the record
    does so.
    """

    seed: int
    team: TeamId
    pool: PoolId
    place: int
    row: Row
    parted: Parted
    separation: Separation | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut:
    """A team that does not go on, and why."""

    team: TeamId
    pool: PoolId
    place: int
    why: Why


@dataclass(frozen=True, slots=True, kw_only=True)
class Qualified:
    """Who would go on if the season ended now, best seed first.

    `undecided` are sets of level teams that must be parted before the bracket can be drawn:
    lots, or what else the rulebook asks, is still to come. Of those in `cut` only a part goes
    on; the others hang on it for their seeds, or for which games are dropped.
    """

    seeds: tuple[Seed, ...]
    left_out: tuple[LeftOut, ...]
    record: Record
    undecided: tuple[tuple[TeamId, ...], ...]
    cut: tuple[tuple[TeamId, ...], ...] = ()

    @property
    def teams(self) -> tuple[TeamId, ...]:
        """The teams that go on, best seed first."""
        return tuple(one.team for one in self.seeds)


def qualified(season: Season, *, failing: Collection[TeamId] = ()) -> Qualified:
    """Return who goes on by the newest results.

    Teams that are `failing` have an average rating below what play-offs need. Where a team may
    not go on, the next one of its pool, or of all, takes its place (common practice, no source).
    """
    pools = pools_stand(season)
    barred = _barred(pools, failing)
    chosen, cut = _chosen(season, pools, barred)
    places = {row.team: row.place for one in pools for row in one.table.rows}
    tiers = _tiers(season, places, chosen)
    seeding = record(season, pools, tiers=tiers)
    order, level = _order(season, seeding, chosen)
    pool_of = {one.team: one.pool for one in season.league.teams}
    left_out = tuple(
        LeftOut(
            team=team, pool=pool_of[team], place=places[team], why=barred.get(team, "places")
        )
        for team in (row.team for row in seeding.table.rows)
        if team not in chosen
    )
    undecided = dict.fromkeys((*cut, *level, *(seeding.unclear if chosen else ())))
    return Qualified(
        seeds=_seeds(season, seeding, order, places),
        left_out=left_out,
        record=seeding,
        undecided=tuple(undecided),
        cut=tuple(cut),
    )


def _barred(pools: Sequence[PoolStands], failing: Collection[TeamId]) -> dict[TeamId, Why]:
    out: dict[TeamId, Why] = dict.fromkeys(failing, "rating")
    return out | {team: "out" for one in pools for team in one.out}


def _chosen(
    season: Season, pools: Sequence[PoolStands], barred: Mapping[TeamId, Why]
) -> tuple[frozenset[TeamId], list[tuple[TeamId, ...]]]:
    """Return the teams that go on, and the level sets of which only a part does."""
    rules = season.rulebook.play_offs
    if rules.qualify == "none":
        return frozenset(), []
    if rules.qualify == "all":
        every = (one.team for one in season.league.teams)
        return frozenset(team for team in every if team not in barred), []
    if rules.qualify == "per_pool":
        tables = [one.table.rows for one in pools]
    else:
        tables = [record(season, pools, tiers={}).table.rows]
    both = [_first(rows, rules.places, barred) for rows in tables]
    teams = frozenset(team for taken, _ in both for team in taken)
    return teams, [one for _, cut in both for one in cut]


def _first(
    rows: Sequence[Row], places: int, barred: Mapping[TeamId, Why]
) -> tuple[list[TeamId], list[tuple[TeamId, ...]]]:
    able = [row for row in rows if row.team not in barred]
    teams = [row.team for row in able[:places]]
    if len(able) <= places or able[places - 1].place != able[places].place:
        return teams, []
    return teams, [tuple(row.team for row in able if row.place == able[places].place)]


def _tiers(
    season: Season, places: Mapping[TeamId, int], chosen: Collection[TeamId]
) -> dict[TeamId, int]:
    """Return the tiers in which teams are seeded; those that do not go on come last."""
    by_place = season.rulebook.play_offs.seeded_by == "pool_place_then_record"
    last = 1 + max(places.values(), default=0)
    return {
        team: (place if by_place else 0) if team in chosen else last
        for team, place in places.items()
    }


def _order(
    season: Season, seeding: Record, chosen: Collection[TeamId]
) -> tuple[list[TeamId], list[tuple[TeamId, ...]]]:
    """Return the teams that go on by seed, and the sets of them that nothing parts."""
    order = [row.team for row in seeding.table.rows if row.team in chosen]
    if season.rulebook.play_offs.seeded_by != "lots":
        return order, [one for one in seeding.table.unresolved if set(one) & set(chosen)]
    holding = [one.order for one in season.outside.lots if set(chosen) <= set(one.order)]
    if not holding:
        return order, [tuple(order)] if len(order) > 1 else []
    return [team for team in holding[-1] if team in chosen], []


def _seeds(
    season: Season, seeding: Record, order: Sequence[TeamId], places: Mapping[TeamId, int]
) -> tuple[Seed, ...]:
    pool_of = {one.team: one.pool for one in season.league.teams}
    rows = {row.team: row for row in seeding.table.rows}
    found = []
    for number, team in enumerate(order, start=1):
        below = order[number] if number < len(order) else None
        parted, separation = _parted(season, seeding, places, team, below)
        found.append(
            Seed(
                seed=number,
                team=team,
                pool=pool_of[team],
                place=places[team],
                row=rows[team],
                parted=parted,
                separation=separation,
            )
        )
    return tuple(found)


def _parted(
    season: Season,
    seeding: Record,
    places: Mapping[TeamId, int],
    team: TeamId,
    below: TeamId | None,
) -> tuple[Parted, Separation | None]:
    if below is None:
        return "last", None
    rules = season.rulebook.play_offs
    if rules.seeded_by == "lots":
        drawn = any({team, below} <= set(one.order) for one in season.outside.lots)
        return ("lots" if drawn else "nothing"), None
    if rules.seeded_by == "pool_place_then_record" and places[team] != places[below]:
        return "pool_place", None
    teams = [row.team for row in seeding.table.rows]
    separation = seeding.table.neighbours[teams.index(team)]
    if separation.by is None:
        is_last = {one.team for one in seeding.dropped}
        return (
            "pool_place" if (team in is_last) != (below in is_last) else "nothing"
        ), separation
    return "record", separation
