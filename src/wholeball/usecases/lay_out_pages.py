"""Lays out the pages of a season: which files there are and how they lead to each other."""

from collections.abc import Mapping
from datetime import datetime
from types import MappingProxyType
from typing import Final
from zoneinfo import ZoneInfo

from wholeball.kernel.identity import GameId, PoolId
from wholeball.kernel.length import system_of
from wholeball.pitch.markings import markings
from wholeball.reports.booklet import booklet_html
from wholeball.reports.booklet_pdf import booklet_pdf
from wholeball.reports.field_of_play import field_plan
from wholeball.reports.field_page import field_page
from wholeball.reports.field_svg import field_svg
from wholeball.reports.shell import Link, Shell, Spot
from wholeball.reports.standings_page import PoolPages, standings_page
from wholeball.season.season import Season, pool_tables

INDEX: Final = "index.html"
RULEBOOK: Final = "rulebook.html"
FIELD: Final = "field.html"
PROOF: Final = "proof.html"
PDFS: Final = (("PDF, A4", "rulebook-a4.pdf"), ("PDF, Letter", "rulebook-letter.pdf"))


def shell_of(season: Season, *, printed: datetime, more: tuple[Link, ...] = ()) -> Shell:
    """Return what the pages of a season share; `printed` is turned into the season's local time."""
    pools = season.league.pools
    links = [
        Link(label=_pool_label(pool, len(pools)), href=_page(number, rounds[-1]))
        for number, (pool, rounds) in enumerate(_rounds(season).items(), start=1)
        if rounds
    ]
    return Shell(
        links=(Link(label="Season", href=INDEX), *links, *_BOOK, *more),
        rulebook=season.rulebook.head.name,
        digest=season.rulebook.digest,
        printed=printed.astimezone(ZoneInfo(season.league.timezone)),
    )


_BOOK: Final = (Link(label="Rulebook", href=RULEBOOK), Link(label="Field", href=FIELD))


def standings_pages(
    season: Season, shell: Shell, games: Mapping[GameId, str] = MappingProxyType({})
) -> dict[str, bytes]:
    """Return a page for each pool after each round that has a result, by the name of its file.

    `games` are the pages of games, for those that have one.
    """
    pages: dict[str, bytes] = {}
    for number, (pool, rounds) in enumerate(_rounds(season).items(), start=1):
        hrefs = {round_: _page(number, round_) for round_ in rounds}
        told = PoolPages(
            season=season,
            pool=pool,
            tables=pool_tables(season, pool),
            hrefs=hrefs,
            under=hrefs[rounds[-1]] if rounds else INDEX,
            games=games,
        )
        for round_, href in hrefs.items():
            pages[href] = standings_page(told, shown=round_, shell=shell).encode()
    return pages


def rulebook_pages(season: Season, shell: Shell) -> dict[str, bytes]:
    """Return the booklet as a page and as PDFs, and the field with its sizes."""
    book = season.rulebook
    plan, unit = field_plan(book), book.field.unit
    field = field_svg(plan, unit)
    page = booklet_html(book, shell=shell, here=RULEBOOK, field=field, pdfs=PDFS)
    length = book.field.length.measured(system_of(unit))
    spot = Spot(number=f"{length}", label="from goal line to goal line")
    sizes = markings(plan, unit)
    return {
        RULEBOOK: page.encode(),
        FIELD: field_page(field, sizes, spot=spot, shell=shell, here=FIELD).encode(),
        "field.svg": field.encode(),
        "rulebook-a4.pdf": booklet_pdf(book, field=field, printed=shell.printed, paper="a4"),
        "rulebook-letter.pdf": booklet_pdf(
            book, field=field, printed=shell.printed, paper="us-letter"
        ),
    }


def _rounds(season: Season) -> dict[PoolId, tuple[int, ...]]:
    return {
        pool: tuple(table.round for table in pool_tables(season, pool))
        for pool in season.league.pools
    }


def _pool_label(pool: PoolId, pools: int) -> str:
    return "Standings" if pools == 1 else f"Standings {pool}"


def _page(number: int, round_: int) -> str:
    return f"standings-{number}-round-{round_}.html"
