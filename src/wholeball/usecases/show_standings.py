"""Shows the standings of a season after a round, and writes their pages and pictures."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.write import write_files
from wholeball.kernel.faults import Fault, WholeballError
from wholeball.kernel.identity import PoolId
from wholeball.reports.places_svg import places_svg
from wholeball.reports.shipped import assets
from wholeball.season.season import Season, pool_tables
from wholeball.season.standings import RoundTable
from wholeball.usecases.lay_out_pages import shell_of, standings_pages


@dataclass(frozen=True, slots=True, kw_only=True)
class PoolShown:
    """One pool's tables up to the round asked for, oldest first; empty before its first result."""

    pool: PoolId
    tables: tuple[RoundTable, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingsShown:
    """What was asked for: the season, its pools, remarks on its folder, and what was written."""

    season: Season
    pools: tuple[PoolShown, ...]
    remarks: tuple[Fault, ...]
    written: tuple[Path, ...]


def show_standings(
    folder: Path, *, round_: int | None, html: Path | None, svg: Path | None, printed: datetime
) -> StandingsShown:
    """Return a season's standings after a round, the last one otherwise.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder, or no result up to that round.
    """
    read = read_folder(folder)
    season = read.season
    pools = tuple(
        PoolShown(
            pool=pool,
            tables=tuple(
                one
                for one in pool_tables(season, pool)
                if round_ is None or one.round <= round_
            ),
        )
        for pool in season.league.pools
    )
    if round_ is not None and not any(pool.tables for pool in pools):
        raise WholeballError(
            f"No game up to round {round_} has a result.",
            fix="Leave the round out to see the newest standings.",
            code="range",
        )
    written = (*_pages(read, html, printed), *_pictures(pools, svg))
    return StandingsShown(season=season, pools=pools, remarks=read.remarks, written=written)


def _pages(read: SeasonFolder, html: Path | None, printed: datetime) -> Iterator[Path]:
    if html is None:
        return
    pages = standings_pages(read.season, shell_of(read.season, printed=printed))
    write_files(html, {**pages, **assets()})
    yield from (html / name for name in pages)


def _pictures(pools: tuple[PoolShown, ...], svg: Path | None) -> Iterator[Path]:
    if svg is None:
        return
    pictures = {
        f"places-{number}.svg": places_svg(pool.tables).encode()
        for number, pool in enumerate(pools, start=1)
        if pool.tables
    }
    write_files(svg, pictures)
    yield from (svg / name for name in pictures)
