"""Makes the house rules as pages for the public: what is different, then a page a chapter."""

from collections.abc import Mapping
from typing import Final, TypeAlias

from wholeball.reports.article import Told
from wholeball.reports.booklet import Booklet, booklet
from wholeball.reports.shell import Link, Page, Shell, Spot, rendered
from wholeball.rulebook.book import Path, Rulebook

IN_WORDS: Final = "The house's own articles"
"""The chapter of what a house adds in words alone."""
Chapters: TypeAlias = Mapping[str, tuple[Told, ...]]


def chapters_of(made: Booklet) -> Chapters:
    """Return the articles of each chapter that has any, in the order of the booklet.

    The chapter of articles in words is there, and empty, where the house has such articles.
    """
    found: dict[str, list[Told]] = {}
    title = ""
    for article in made.articles:
        title = article.opens or title
        found.setdefault(title, []).append(article)
    if made.also:
        found[IN_WORDS] = []
    return {name: tuple(articles) for name, articles in found.items()}


def articles_by_chapter(made: Booklet) -> Mapping[Path, str]:
    """Return the chapter in which each article stands."""
    return {one.path: name for name, told in chapters_of(made).items() for one in told}


def house_rules_page(
    book: Rulebook, *, shell: Shell, here: str, hrefs: Mapping[str, str], field: str
) -> str:
    """Return the page of what is different here, with the way to every chapter.

    `hrefs` lead to the chapters by their titles, and `field` to the field of play.
    """
    made = booklet(book, printed=shell.printed)
    chapters = chapters_of(made)
    titles = articles_by_chapter(made)
    return rendered(
        "house_rules.html",
        Page(here=here, title="House rules", about=made.name, spot=made.spot),
        shell,
        made=made,
        chapters=[Link(label=name, href=hrefs[name]) for name in chapters],
        field=field,
        at=lambda article: f"{hrefs[titles[article.path]]}#{article.anchor}",
    )


def chapter_page(book: Rulebook, title: str, *, shell: Shell, here: str, under: str) -> str:
    """Return the page of one chapter.

    Raises:
        KeyError: there is no such chapter.
    """
    made = booklet(book, printed=shell.printed)
    articles = chapters_of(made)[title]
    also = made.also if title == IN_WORDS else ()
    return rendered(
        "house_rules_chapter.html",
        Page(
            here=here,
            under=under,
            title=title,
            about="house rules",
            spot=Spot.counting(len(articles) + len(also), "article"),
        ),
        shell,
        made=made,
        articles=articles,
        also=also,
        back=under,
    )
