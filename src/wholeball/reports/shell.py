"""Is the shell of every page: its links, its foot, and the templates it is made from."""

from dataclasses import dataclass
from datetime import datetime
from functools import cache
from typing import Final, Self

from jinja2 import Environment, PackageLoader, StrictUndefined

from wholeball.reports.dates import moment
from wholeball.reports.whole_scores import score_parts

SHORT: Final = 12
"""Hexadecimal digits of a digest that people compare by eye."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A link to another page of the same folder; `href` is relative."""

    label: str
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shell:
    """What all pages of one folder share: the links to each other, and what the foot says.

    `rulebook` and `digest` are the name and the digits of the rulebook that everything on the
    pages was computed from; `printed` is local time, and `as_of` what it is the time of.
    `styles` are the style sheets in their order. What stands `within` a page of a site is made
    without head, links and foot: those are the site's.
    """

    links: tuple[Link, ...]
    rulebook: str
    digest: str
    printed: datetime
    as_of: str = "printed"
    styles: tuple[str, ...] = ("assets/wholeball.css",)
    within: bool = False

    @property
    def foot(self) -> str:
        """Return what stands under every page, but for the rulebook's name."""
        return f"{self.as_of} {moment(self.printed)}"

    @property
    def digits(self) -> str:
        """Return the first digits of the rulebook's, which stand behind "why?"."""
        return self.digest[:SHORT]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """The one number of a page, in the centre circle, and what it counts."""

    number: str
    label: str

    @classmethod
    def counting(cls, count: int, one: str, many: str | None = None) -> Self:
        """Return a count over its noun: "1 result", "2 results"."""
        return cls(number=f"{count:,}", label=one if count == 1 else many or f"{one}s")


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """What heads one page: its file, its title and its number.

    `under` is the link that leads to it, where it is not one of the links itself; `about` is
    added to the title that a browser shows, so that no two pages share one.
    """

    here: str
    title: str
    spot: Spot
    under: str = ""
    about: str = ""


def rendered(template: str, page: Page, shell: Shell, **values: object) -> str:
    """Return a whole page as HTML; every value is escaped."""
    return _environment().get_template(template).render(page=page, shell=shell, **values)


def paragraphs(text: str) -> list[list[str]]:
    """Return the lines of each paragraph; a blank line ends one."""
    blocks = ([line for line in block.split("\n") if line] for block in text.split("\n\n"))
    return [block for block in blocks if block]


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("wholeball.reports"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["paragraphs"] = paragraphs
    environment.filters["score_parts"] = score_parts
    return environment
