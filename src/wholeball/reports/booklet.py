"""Makes the booklet of a rulebook: every article in words, and what is different here."""

from collections import Counter
from dataclasses import dataclass
from datetime import datetime

from wholeball.reports.article import (
    KIND_WORDS,
    KINDS_SAY,
    Differs,
    Told,
    differs,
    settled,
    told,
)
from wholeball.reports.dates import moment
from wholeball.reports.safety import CAUTIONS, LOCAL_FIRST, Caution
from wholeball.reports.shell import Page, Shell, Spot, rendered
from wholeball.rulebook.book import HouseArticle, Rulebook
from wholeball.rulebook.differences import compared
from wholeball.rulebook.editions import edition
from wholeball.rulebook.sentence import counted
from wholeball.rulebook.value import Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class Booklet:
    """All that stands in a booklet, whatever it is printed with."""

    name: str
    source: str
    laws: str
    laws_source: str
    digest: str
    printed: datetime
    articles: tuple[Told, ...]
    differs: tuple[Differs, ...]
    settled: tuple[Told, ...]
    also: tuple[HouseArticle, ...]
    cautions: tuple[Caution, ...] = CAUTIONS
    local_first: str = LOCAL_FIRST

    @property
    def spot(self) -> Spot:
        """The one number of the booklet: how many articles differ from the Laws."""
        one, many = "article differs from the Laws", "articles differ from the Laws"
        return Spot.counting(len(self.differs), one, many)

    @property
    def added(self) -> list[Told]:
        """What the house adds of its own where the Laws are silent, such as a mercy rule."""
        return [one for one in self.settled if one.kind != "administrative"]

    @property
    def left_to_us(self) -> list[Told]:
        """What the Laws leave to the competition and the house settles."""
        return [one for one in self.settled if one.kind == "administrative"]

    @property
    def kinds(self) -> list[tuple[Kind, str, str, int]]:
        """Each kind that occurs: itself, its word, what it means, and how many articles."""
        counts = Counter(article.kind for article in self.articles)
        return [
            (kind, word, KINDS_SAY[kind], counts[kind])
            for kind, word in KIND_WORDS.items()
            if counts[kind]
        ]

    @property
    def size(self) -> str:
        """How many articles there are, in words."""
        return counted(len(self.articles) + len(self.also), "article")

    @property
    def printed_at(self) -> str:
        """When it was printed, in words."""
        return moment(self.printed)


def booklet(book: Rulebook, *, printed: datetime) -> Booklet:
    """Return what stands in the booklet of a rulebook; `printed` is local time."""
    laws = edition(book.head.base)
    standing = compared(book)
    return Booklet(
        name=book.head.name,
        source=book.head.source,
        laws=laws.head.name,
        laws_source=laws.head.source,
        digest=book.digest,
        printed=printed,
        articles=told(book, standing),
        differs=differs(book, standing),
        settled=settled(book, standing),
        also=book.also,
    )


def booklet_html(
    book: Rulebook, *, shell: Shell, here: str, field: str, pdfs: tuple[tuple[str, str], ...]
) -> str:
    """Return the booklet as one page that can be printed.

    Args:
        book: the rulebook.
        shell: what the pages share.
        here: the name of this page's file.
        field: the field of play as SVG, drawn by us: the one value that is not escaped.
        pdfs: label and href of each PDF of the same booklet.
    """
    made = booklet(book, printed=shell.printed)
    page = Page(here=here, title=made.name, spot=made.spot)
    return rendered(
        "booklet.html",
        page,
        shell,
        made=made,
        field=field,
        pdfs=pdfs,
        here_at=lambda article: f"#{article.anchor}",
    )
