"""Arranges the teams of a season in pools: dealt out evenly, or team by team."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice
from string import ascii_uppercase
from typing import Final

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.table import write_table
from wholeball.files.teams import COLUMNS, FILE
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import DivisionId, PoolId, TeamId
from wholeball.league.league import Team
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
class PoolsShown:
    """The pools of a season; `spreads` says which numbers of pools there can be, and their sizes.

    `is_open` is False once a game has been played: then everybody stays where they are.
    """

    pools: tuple[Pool, ...]
    teams: tuple[Team, ...]
    spreads: tuple[tuple[int, str], ...]
    names: tuple[PoolId, ...]
    is_open: bool


def show_pools(record: LeagueRecord) -> PoolsShown:
    """Return the pools of a season.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    read = read_folder(record)
    teams = read.season.league.teams
    parts = [one for _, one in _parts(teams)]
    fewest = min(map(len, parts), default=0)
    pools = _pools(teams)
    free = (one for one in map(PoolId, LETTERS) if one not in {each.pool for each in pools})
    return PoolsShown(
        pools=pools,
        teams=teams,
        spreads=tuple(
            (many, _sizes(many, parts))
            for many in range(1, min(fewest // LEAST, len(LETTERS)) + 1)
        ),
        names=(*(one.pool for one in pools), *islice(free, MORE)),
        is_open=not has_played(read),
    )


def has_played(read: SeasonFolder) -> bool:
    """Tell whether anything is recorded of any game."""
    season = read.season
    return bool(season.results or season.play_offs or read.rows or read.sheets)


def spread_teams(record: LeagueRecord, pools: int) -> int:
    """Deal the teams of each division out into so many pools, one to each in turn.

    Returns the number of teams that are in another pool now.

    Raises:
        WholeballError: a game was played, or a pool would have fewer than two teams.
    """

    def dealt(teams: Sequence[Team]) -> dict[TeamId, PoolId]:
        parts = _parts(teams)
        fewest = min((len(one) for _, one in parts), default=0)
        if not 1 <= pools <= min(fewest // LEAST, len(LETTERS)):
            raise WholeballError(
                f"{counted(fewest, 'team')} cannot be dealt out into {counted(pools, 'pool')}.",
                fix="Nothing was changed. A pool has two teams at least.",
                code="limits",
            )
        return {
            one.team: PoolId(f"{f'{division} ' if division else ''}{LETTERS[at % pools]}")
            for division, part in parts
            for at, one in enumerate(part)
        }

    return _arranged(record, dealt)


def move_teams(record: LeagueRecord, pools: Mapping[TeamId, PoolId]) -> int:
    """Put teams into pools, and return how many are in another one now.

    Raises:
        InputFaults: the season would have a fault; nothing was changed.
        WholeballError: a game was played.
    """
    return _arranged(record, lambda _: pools)


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


def _arranged(
    record: LeagueRecord, pools_of: Callable[[Sequence[Team]], Mapping[TeamId, PoolId]]
) -> int:
    with record.held():
        read = read_folder(record)
        if has_played(read):
            raise WholeballError(
                "Games have been played, so every team stays in its pool.",
                fix="Nothing was changed. Import another season to begin anew.",
                code="played",
            )
        teams = read.season.league.teams
        pools = pools_of(teams)
        new = [replace(one, pool=pools.get(one.team, one.pool)) for one in teams]
        moved = sum(one.pool != other.pool for one, other in zip(teams, new, strict=True))
        if moved:
            data = write_table([one.name for one in COLUMNS], team_cells(new))
            read_folder(record, instead={FILE: data})
            record.write({FILE: data})
    return moved


def _parts(teams: Iterable[Team]) -> list[tuple[DivisionId | None, list[Team]]]:
    """Return the teams by division; pools do not mix divisions."""
    parts: dict[DivisionId | None, list[Team]] = {}
    for one in teams:
        parts.setdefault(one.division, []).append(one)
    return list(parts.items())


def _pools(teams: Iterable[Team]) -> tuple[Pool, ...]:
    found: dict[PoolId, list[Team]] = {}
    for one in teams:
        found.setdefault(one.pool, []).append(one)
    return tuple(Pool(pool=pool, teams=tuple(found[pool])) for pool in sorted(found))


def _sizes(many: int, parts: Sequence[Sequence[Team]]) -> str:
    """Say how large so many pools would be: "3 pools of 4", "5 pools of 2 or 3"."""
    sizes = sorted({size for one in parts for size in (len(one) // many, -(-len(one) // many))})
    each = " in each division" if len(parts) > 1 else ""
    told = f"{sizes[0]}" if len(sizes) == 1 else f"{sizes[0]} to {sizes[-1]}"
    return f"{counted(many, 'pool')} of {told}{each}"
