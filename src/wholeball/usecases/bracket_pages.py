"""Lays out a page for each bracket that is drawn or could be drawn now."""

from collections.abc import Mapping, Sequence

from wholeball.kernel.identity import GameId
from wholeball.reports.bracket_page import BracketTold, bracket_page
from wholeball.reports.shell import Link, Shell
from wholeball.usecases.bracket_stands import BracketStands


def bracket_links(stand: Sequence[BracketStands]) -> tuple[Link, ...]:
    """Return the links to the brackets that have a page."""
    return tuple(
        Link(label=f"Bracket {one.bracket}".strip(), href=href)
        for href, one in _shown(stand).items()
    )


def bracket_pages(
    league: str, stand: Sequence[BracketStands], shell: Shell, games: Mapping[GameId, str]
) -> dict[str, bytes]:
    """Return the pages by the names of their files; `games` are the pages of games."""
    return {
        href: bracket_page(bracket_told(league, one, games), shell=shell, here=href).encode()
        for href, one in _shown(stand).items()
    }


def bracket_told(league: str, one: BracketStands, games: Mapping[GameId, str]) -> BracketTold:
    """Return what a page tells of a bracket: its seeds too, while it is not drawn."""
    return BracketTold(
        league=league,
        name=one.bracket,
        lines=one.lines,
        teams=one.teams,
        left=one.left,
        seeding=None if one.drawn else one.seeding,
        games=games,
    )


def _shown(stand: Sequence[BracketStands]) -> dict[str, BracketStands]:
    """Return the brackets that have a page by the name of its file."""
    return {
        f"bracket-{number}.html" if one.bracket else "bracket.html": one
        for number, one in enumerate(stand, start=1)
        if one.lines and (one.drawn or one.can_be_drawn)
    }
