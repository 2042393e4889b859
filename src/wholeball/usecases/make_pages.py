"""Makes a folder of pages of a season that open without a server."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from urllib.parse import quote

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.pages import write_pages
from wholeball.kernel.identity import GameId
from wholeball.league.record import LeagueRecord
from wholeball.reports.dates import day
from wholeball.reports.index_page import Door, Front, GameLine, index_page
from wholeball.reports.proof_page import Proof, proof_page
from wholeball.reports.shell import Link, Shell, Spot
from wholeball.reports.shipped import assets
from wholeball.rulebook.differences import compared
from wholeball.season.season import Season, pool_tables
from wholeball.usecases.bracket_pages import bracket_links, bracket_pages
from wholeball.usecases.bracket_stands import brackets_stand
from wholeball.usecases.calendar_pages import LINK, calendar_pages, has_calendar
from wholeball.usecases.lay_out_pages import (
    FIELD,
    INDEX,
    PDFS,
    PROOF,
    RULEBOOK,
    rulebook_pages,
    shell_of,
    standings_pages,
)
from wholeball.usecases.show_game import game_pages, page_name, score_in
from wholeball.usecases.show_rulings import DIFFERENT, RULINGS, ruling_pages


def make_pages(
    record: LeagueRecord, out: Path, *, printed: datetime, back: Link | None = None
) -> Path:
    """Write the pages of a season, all with the link `back`, and return the front page.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder, files that were not made here stand in the
            way, or the disk refuses.
    """
    read = read_folder(record)
    made = Made(record=record, read=read, proofs=_proofs(read), back=back)
    return _write(made, out, printed=printed)


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What pages are made of: a season, its folder, and its tables beside published ones.

    `back` leads from every page to what the pages belong to.
    """

    record: LeagueRecord
    read: SeasonFolder
    proofs: tuple[Proof, ...]
    back: Link | None = None


def _write(made: Made, out: Path, *, printed: datetime) -> Path:
    season, proofs = made.read.season, made.proofs
    stand = brackets_stand(made.read)
    more = (
        *bracket_links(stand),
        *((LINK,) if has_calendar(made.read) else ()),
        Link(label="Rulings", href=RULINGS),
        *((Link(label="Proof", href=PROOF),) if proofs else ()),
        *((made.back,) if made.back else ()),
    )
    shell = shell_of(season, printed=printed, more=more)
    games = game_pages(made.record, made.read, shell, under=INDEX, rulebook=RULEBOOK)
    hrefs = {
        one.game: quote(page_name(one.game))
        for one in made.read.timetable
        if page_name(one.game) in games
    }
    front = _front(made, shell, hrefs)
    pages = {
        INDEX: index_page(front, shell=shell, here=INDEX).encode(),
        **standings_pages(season, shell, hrefs),
        **games,
        **bracket_pages(season.league.name, stand, shell, hrefs),
        **calendar_pages(made.read, shell),
        **rulebook_pages(season, shell),
        **ruling_pages(season.rulebook, shell),
    }
    if proofs:
        pages[PROOF] = proof_page(proofs, shell=shell, here=PROOF).encode()
    write_pages(out, {**pages, **assets()})
    return out / INDEX


def _proofs(read: SeasonFolder) -> tuple[Proof, ...]:
    """Return each pool that has a published table, beside the table computed from its games."""
    return tuple(
        Proof(
            title=f"{read.season.league.name}, {pool}",
            source=read.season.source,
            computed=pool_tables(read.season, pool)[-1].standings,
            published=tuple(line for line in read.published if line.team in teams),
        )
        for pool, teams in read.season.league.pools.items()
        if read.published and pool_tables(read.season, pool)
    )


def _front(made: Made, shell: Shell, games: Mapping[GameId, str]) -> Front:
    season = made.read.season
    rounds = len({result.round for result in season.results})
    return Front(
        title=season.league.name,
        says=(
            "The rules of a league, and the tables that follow from them. Everything here is "
            "computed from one rulebook and the results as they came in."
        ),
        spot=Spot.counting(rounds, "round played", "rounds played"),
        doors=tuple(_doors(season, shell, made.proofs)),
        games=_games(made.read, games),
    )


def _games(read: SeasonFolder, pages: Mapping[GameId, str]) -> tuple[GameLine, ...]:
    """Return the games that have a page, in the order of the timetable."""
    return tuple(
        GameLine(
            href=pages[one.game],
            sides=f"{one.home} v {one.away}",
            when=f"{day(one.day)}, {one.start:%H:%M}",
            score=score_in(read, one.game),
        )
        for one in read.timetable
        if one.game in pages
    )


def _doors(season: Season, shell: Shell, proofs: tuple[Proof, ...]) -> list[Door]:
    differing = sum(one.standing == "differs" for one in compared(season.rulebook).values())
    book = (Link(label="Rulebook", href=RULEBOOK), *(Link(label=a, href=b) for a, b in PDFS))
    standings = tuple(link for link in shell.links if link.href.startswith("standings-"))
    doors = [
        Door(
            links=book,
            says=f"Every article in plain words; {_differing(differing)} the Laws of the Game.",
        ),
        Door(
            links=(Link(label="Field", href=FIELD),),
            says="The field of play to scale, every marking with its size.",
        ),
        Door(
            links=(
                Link(label="Rulings", href=RULINGS),
                Link(label="Different here", href=DIFFERENT),
            ),
            says="Situations with a scene each, ruled by this rulebook and held to the Laws.",
        ),
    ]
    if standings:
        says = "The standings after each round, with the reason for every place."
        doors.insert(0, Door(links=standings, says=says))
    if proofs:
        agreeing = sum(proof.agrees for proof in proofs)
        tables = "table comes" if len(proofs) == 1 else "tables come"
        says = f"{agreeing} of {len(proofs)} published {tables} out the same from their games."
        doors.append(Door(links=(Link(label="Proof", href=PROOF),), says=says))
    return doors


def _differing(articles: int) -> str:
    return "1 differs from" if articles == 1 else f"{articles} differ from"
