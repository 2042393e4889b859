"""Arranges the teams of a season in divisions and pools: dealt out evenly, or team by team."""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice
from string import ascii_uppercase
from typing import Final

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.table import write_table
from wholeball.files.teams import COLUMNS, FILE, ONE_POOL
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import BlockId, DivisionId, PoolId, TeamId
from wholeball.league.league import League, Team
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.sentence import counted

LEAST: Final = 2
"""Teams that a pool has at least, so that anybody plays."""
LETTERS: Final = ascii_uppercase
MORE: Final = 2
"""Pools that are offered beyond those there are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pool:
    """A pool and its teams in the order of the list."""

    pool: PoolId
    teams: tuple[Team, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a team may be: in a division, and in one of its blocks, or in neither."""

    division: DivisionId | None = None
    block: BlockId | None = None

    @property
    def says(self) -> str:
        """Name it: "Gold", "Gold, Tuesday late"."""
        if self.division is None:
            return "no division"
        return self.division if self.block is None else f"{self.division}, {self.block}"

    @property
    def key(self) -> str:
        """What stands for it in a form; no two blocks have one name, nor two divisions."""
        if self.division is None:
            return "none"
        return f"division:{self.division}" if self.block is None else f"block:{self.block}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """A number of pools that teams may be dealt out into: all of them, or those of one place."""

    pools: int
    place: Place | None
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PoolsShown:
    """The pools of a season; `spreads` says which numbers of pools there can be, and their sizes.

    `places` are the divisions and blocks that a team may be in; none where there is no division.
    `is_open` is False once a game has been played: then everybody stays where they are.
    """

    pools: tuple[Pool, ...]
    teams: tuple[Team, ...]
    spreads: tuple[Spread, ...]
    names: tuple[PoolId, ...]
    places: tuple[Place, ...]
    is_open: bool

    @property
    def is_dealt(self) -> bool:
        """Whether there are pools already that dealing out would undo."""
        return len(self.pools) > 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """Where a team is to be, and in which pool."""

    place: Place
    pool: PoolId


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A team that would be in another pool."""

    team: TeamId
    old: PoolId
    new: PoolId


def show_pools(record: LeagueRecord) -> PoolsShown:
    """Return the pools of a season.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    read = read_folder(record)
    league = read.season.league
    teams = league.teams
    pools = _pools(teams)
    free = (one for one in map(PoolId, LETTERS) if one not in {each.pool for each in pools})
    return PoolsShown(
        pools=pools,
        teams=teams,
        spreads=tuple(_spreads(_parts(teams))),
        names=(*(one.pool for one in pools), *islice(free, MORE)),
        places=tuple(_places(league)),
        is_open=not has_played(read),
    )


def has_played(read: SeasonFolder) -> bool:
    """Tell whether anything is recorded of any game."""
    season = read.season
    return bool(season.results or season.play_offs or read.rows or read.sheets)


def place_of(team: Team) -> Place:
    """Return where a team is."""
    return Place(division=team.division, block=team.block)


def spread_teams(record: LeagueRecord, pools: int, *, place: Place | None = None) -> int:
    """Deal the teams of each division and block out into so many pools, one to each in turn.

    With a `place`, the teams of that one alone. Returns the number of teams that are in another
    pool now.

    Raises:
        WholeballError: a game was played, or a pool would have fewer than two teams.
    """
    return _arranged(record, lambda teams: _dealt(teams, pools, place))


def look_at_spread(
    record: LeagueRecord, pools: int, *, place: Place | None = None
) -> tuple[Moved, ...]:
    """Return who would be in another pool if teams were dealt out so; nothing is written.

    Raises:
        WholeballError: as `spread_teams`.
    """
    read = read_folder(record)
    _refuse_played(read)
    teams = read.season.league.teams
    return tuple(
        Moved(team=old.team, old=old.pool, new=new.pool)
        for old, new in zip(teams, _dealt(teams, pools, place), strict=True)
        if old != new
    )


def place_teams(record: LeagueRecord, chosen: Mapping[TeamId, Chosen]) -> int:
    """Put teams into divisions, blocks and pools, and return how many are elsewhere now.

    A team that changes its division alone goes into the first pool of the new one, unless its
    whole pool does.

    Raises:
        InputFaults: the season would have a fault; nothing was changed.
        WholeballError: a game was played.
    """

    def placed(teams: Sequence[Team]) -> list[Team]:
        return _followed(teams, [_chosen(one, chosen.get(one.team)) for one in teams])

    return _arranged(record, placed)


def team_cells(teams: Iterable[Team]) -> list[tuple[str, ...]]:
    """Return the rows of teams.csv, in the order of its columns."""
    return [
        (
            one.team,
            one.pool,
            one.colours,
            one.second_colours,
            one.division or "",
            one.block or "",
        )
        for one in teams
    ]


def _arranged(record: LeagueRecord, arrange: Callable[[Sequence[Team]], list[Team]]) -> int:
    with record.held():
        read = read_folder(record)
        _refuse_played(read)
        teams = read.season.league.teams
        new = arrange(teams)
        moved = sum(one != other for one, other in zip(teams, new, strict=True))
        if moved:
            data = write_table([one.name for one in COLUMNS], team_cells(new))
            read_folder(record, instead={FILE: data})
            record.write({FILE: data})
    return moved


def _refuse_played(read: SeasonFolder) -> None:
    if has_played(read):
        raise WholeballError(
            "Games have been played, so every team stays in its pool.",
            fix="Nothing was changed. Import another season to begin anew.",
            code="played",
        )


def _dealt(teams: Sequence[Team], pools: int, place: Place | None) -> list[Team]:
    every = _parts(teams)
    parts = every if place is None else {place: every.get(place, [])}
    _refuse_few(pools, parts)
    of = {
        one.team: PoolId(f"{_prefix(part, every)}{LETTERS[at % pools]}")
        for part, listed in parts.items()
        for at, one in enumerate(listed)
    }
    return [replace(one, pool=of.get(one.team, one.pool)) for one in teams]


def _chosen(team: Team, to: Chosen | None) -> Team:
    if to is None:
        return team
    return replace(team, pool=to.pool, division=to.place.division, block=to.place.block)


def _followed(before: Sequence[Team], after: Sequence[Team]) -> list[Team]:
    """Return teams whose pool follows their division where nobody chose one."""
    divisions: dict[PoolId, set[DivisionId | None]] = {}
    first: dict[DivisionId | None, PoolId] = {}
    for old, new in zip(before, after, strict=True):
        divisions.setdefault(new.pool, set()).add(new.division)
        if old.division == new.division or old.pool != new.pool:
            first.setdefault(new.division, new.pool)

    def home(old: Team, new: Team) -> Team:
        follows = old.division != new.division and old.pool == new.pool
        if not follows or len(divisions[new.pool]) == 1:
            return new
        return replace(new, pool=first.get(new.division, PoolId(new.division or ONE_POOL)))

    return [home(old, new) for old, new in zip(before, after, strict=True)]


def _places(league: League) -> Iterator[Place]:
    if league.divisions:
        yield Place()
    for division in league.divisions:
        yield Place(division=division.division)
        for block in league.blocks:
            if block.division == division.division:
                yield Place(division=division.division, block=block.block)


def _parts(teams: Iterable[Team]) -> dict[Place, list[Team]]:
    """Return the teams by place; pools mix no divisions, and teams of two blocks cannot meet."""
    parts: dict[Place, list[Team]] = {}
    for one in teams:
        parts.setdefault(place_of(one), []).append(one)
    return parts


def _prefix(place: Place, parts: Collection[Place]) -> str:
    """Return how the pools of a place begin: by its block too where its division has several."""
    if place.division is None:
        return ""
    is_whole = sum(one.division == place.division for one in parts) == 1
    names = (place.division,) if is_whole else (place.division, place.block)
    return "".join(f"{name} " for name in names if name)


def _spreads(parts: Mapping[Place, Sequence[Team]]) -> Iterator[Spread]:
    """Yield the numbers of pools for all teams, and then for each place where there are several."""
    for many in _numbers(parts):
        yield Spread(pools=many, place=None, says=_sizes(many, parts))
    for place, part in parts.items() if len(parts) > 1 else ():
        one = {place: part}
        for many in _numbers(one):
            says = f"{place.says}: {_sizes(many, one)}"
            yield Spread(pools=many, place=place, says=says)


def _numbers(parts: Mapping[Place, Sequence[Team]]) -> range:
    fewest = min(map(len, parts.values()), default=0)
    return range(1, min(fewest // LEAST, len(LETTERS)) + 1)


def _refuse_few(pools: int, parts: Mapping[Place, Sequence[Team]]) -> None:
    if pools not in _numbers(parts):
        fewest = min(map(len, parts.values()), default=0)
        raise WholeballError(
            f"{counted(fewest, 'team')} cannot be dealt out into {counted(pools, 'pool')}.",
            fix="Nothing was changed. A pool has two teams at least.",
            code="limits",
        )


def _pools(teams: Iterable[Team]) -> tuple[Pool, ...]:
    found: dict[PoolId, list[Team]] = {}
    for one in teams:
        found.setdefault(one.pool, []).append(one)
    return tuple(Pool(pool=pool, teams=tuple(found[pool])) for pool in sorted(found))


def _sizes(many: int, parts: Mapping[Place, Sequence[Team]]) -> str:
    """Say how large so many pools would be: "3 pools of 4", "5 pools of 2 or 3"."""
    lengths = [len(one) for one in parts.values()]
    sizes = sorted({size for one in lengths for size in (one // many, -(-one // many))})
    has_blocks = len({one.division for one in parts}) < len(parts)
    each = f" in each {'block' if has_blocks else 'division'}" if len(parts) > 1 else ""
    told = f"{sizes[0]}" if len(sizes) == 1 else f"{sizes[0]} to {sizes[-1]}"
    return f"{counted(many, 'pool')} of {told}{each}"
