"""Makes the front page of a folder of pages: what it is, and the doors to the rest."""

from dataclasses import dataclass

from wholeball.reports.shell import Link, Page, Shell, Spot, rendered


@dataclass(frozen=True, slots=True, kw_only=True)
class Door:
    """One thing to open, in one or more forms, and what is behind it."""

    links: tuple[Link, ...]
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GameLine:
    """A game that has a page: when it was played, who met, and the score it counts as."""

    href: str
    sides: str
    when: str
    score: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Front:
    """What the front page says: its title, what this is, its number, its doors, its games."""

    title: str
    says: str
    spot: Spot
    doors: tuple[Door, ...]
    games: tuple[GameLine, ...] = ()


def index_page(front: Front, *, shell: Shell, here: str) -> str:
    """Return the front page; `here` is the name of its file."""
    page = Page(here=here, title=front.title, spot=front.spot)
    return rendered("index.html", page, shell, front=front)
