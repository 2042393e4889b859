"""Shows the standings of a season after a round, and writes their pages and pictures."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final, TypeAlias

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.write import write_places
from wholeball.kernel.faults import Fault, WholeballError
from wholeball.kernel.identity import PoolId
from wholeball.kernel.plain_table import PlainTable
from wholeball.league.record import LeagueRecord
from wholeball.reports.places_svg import places_svg
from wholeball.reports.shipped import assets
from wholeball.season.season import Season, pool_tables
from wholeball.season.standings import RoundTable, Row
from wholeball.usecases.lay_out_pages import shell_of, standings_pages

Places: TypeAlias = dict[Path, dict[str, bytes]]
"""What to write, by folder and name."""
_HEADER: Final = (
    "pool",
    "after_round",
    "place",
    "team",
    "played",
    "won",
    "drawn",
    "lost",
    "goals_for",
    "goals_against",
    "difference",
    "points",
    "deducted",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PoolShown:
    """One pool's tables up to the round asked for, oldest first; empty before its first result.

    `is_newest` tells that no later round has a result.
    """

    pool: PoolId
    tables: tuple[RoundTable, ...]
    is_newest: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingsShown:
    """What was asked for: the season, its pools, remarks on its folder, and what was written."""

    season: Season
    pools: tuple[PoolShown, ...]
    remarks: tuple[Fault, ...]
    written: tuple[Path, ...]


def show_standings(
    record: LeagueRecord,
    *,
    round_: int | None,
    html: Path | None,
    svg: Path | None,
    printed: datetime,
) -> StandingsShown:
    """Return a season's standings after a round, the last one otherwise.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder, no result up to that round, or none so late.
    """
    read = read_folder(record)
    season = read.season
    pools = tuple(_pool(season, pool, round_) for pool in season.league.pools)
    if round_ is not None:
        _refuse_round(season, pools, round_)
    pages = {} if html is None else {html: _pages(read, printed)}
    pictures = {} if svg is None else {svg: _pictures(pools)}
    written = tuple(
        folder / name
        for places in (pages, pictures)
        for folder, names in places.items()
        for name in names
    )
    _write(pages, pictures)
    return StandingsShown(season=season, pools=pools, remarks=read.remarks, written=written)


def standings_table(season: Season) -> PlainTable:
    """Return the newest table of every pool that has one, as one table for a spreadsheet."""
    newest = ((pool, pool_tables(season, pool)[-1:]) for pool in season.league.pools)
    return PlainTable(
        title="Standings",
        header=_HEADER,
        rows=tuple(
            _row(pool, table.round, row)
            for pool, tables in newest
            for table in tables
            for row in table.standings.rows
        ),
    )


def _row(pool: PoolId, after: int, row: Row) -> tuple[str | int, ...]:
    return (
        pool,
        after,
        row.place,
        row.team,
        row.played,
        row.won,
        row.drawn,
        row.lost,
        row.goals_for,
        row.goals_against,
        row.difference,
        row.points,
        row.deducted,
    )


def _refuse_round(season: Season, pools: tuple[PoolShown, ...], round_: int) -> None:
    last = max((result.round for result in season.results), default=0)
    if round_ > last > 0:
        raise WholeballError(
            f"Round {round_} has no result; the last round that has one is {last}.",
            fix=f"Give 1 to {last}, or leave the round out to see the newest standings.",
            code="range",
        )
    if not any(pool.tables for pool in pools):
        raise WholeballError(
            f"No game up to round {round_} has a result.",
            fix="Leave the round out to see the newest standings.",
            code="range",
        )


def _write(pages: Places, pictures: Places) -> None:
    """Write pages, what they need, and pictures: all or none."""
    places = {folder: {**names, **assets()} for folder, names in pages.items()}
    for folder, names in pictures.items():
        places[folder] = {**places.get(folder, {}), **names}
    write_places(places)


def _pool(season: Season, pool: PoolId, round_: int | None) -> PoolShown:
    every = pool_tables(season, pool)
    tables = tuple(one for one in every if round_ is None or one.round <= round_)
    return PoolShown(pool=pool, tables=tables, is_newest=len(tables) == len(every))


def _pages(read: SeasonFolder, printed: datetime) -> dict[str, bytes]:
    return standings_pages(read.season, shell_of(read.season, printed=printed))


def _pictures(pools: tuple[PoolShown, ...]) -> dict[str, bytes]:
    return {
        f"places-{number}.svg": places_svg(pool.tables).encode()
        for number, pool in enumerate(pools, start=1)
        if pool.tables
    }
