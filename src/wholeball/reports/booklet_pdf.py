"""Prints the booklet of a rulebook as a tagged PDF."""

import re
from collections.abc import Iterator
from datetime import datetime
from typing import Any, Final

from wholeball.reports.article import Differs, Told
from wholeball.reports.booklet import Booklet, booklet
from wholeball.reports.safety import Caution
from wholeball.reports.shell import SHORT, paragraphs
from wholeball.reports.typeset import Paper, typeset
from wholeball.rulebook.book import HouseArticle, Rulebook
from wholeball.rulebook.sentence import Part, Sentence

SHORT_VALUE: Final = 12
"""Letters of a value that stays on one line."""

_ALT = re.compile(r"<desc>(.*?)</desc>", re.DOTALL)


def booklet_pdf(book: Rulebook, *, field: str, printed: datetime, paper: Paper) -> bytes:
    """Return the booklet as PDF/UA-1; the same arguments always give the same bytes.

    Letters that the shipped fonts lack are printed as their code points, and the last page
    says which.

    Args:
        book: the rulebook.
        field: the field of play as SVG with a desc.
        printed: local time.
        paper: A4 or US Letter.
    """
    data = _data(booklet(book, printed=printed), field=field, paper=paper)
    return typeset("booklet.typ", data)


def _data(made: Booklet, *, field: str, paper: Paper) -> dict[str, Any]:
    found = _ALT.search(field)
    return {
        "name": made.name,
        "about": f"{made.size}, on top of {made.laws}.",
        "paper": paper,
        "foot": f"{made.name}, rulebook {made.digest[:SHORT]}, printed {made.printed_at}",
        "size": made.size,
        "laws": made.laws,
        "spot": {"number": made.spot.number, "label": made.spot.label},
        "kinds": made.kinds,
        "differs": [_differs(one) for one in made.differs],
        "added": [_told(one) for one in made.added],
        "left-to-us": [_told(one) for one in made.left_to_us],
        "local-first": made.local_first,
        "cautions": [_caution(one) for one in made.cautions],
        "field": field,
        "field-alt": found[1] if found else "",
        "articles": [_told(one) for one in made.articles],
        "second-column": _second_column(made.articles),
        "also": [_also(one) for one in made.also],
        "digest": made.digest,
        "printed": made.printed_at,
        "date": list(made.printed.timetuple()[:6]),
        "sources": f"The Laws: {made.laws_source}. The house: {made.source or 'no source given'}.",
    }


def _second_column(articles: tuple[Told, ...]) -> str:
    """Return the article that opens the chapter at which the contents are nearest to half."""
    shown = [one for one in articles if one.depth == 1]
    before = {one.anchor: index for index, one in enumerate(shown) if one.opens}
    return min(before, key=lambda anchor: abs(len(shown) - 2 * before[anchor]))


def _told(one: Told) -> dict[str, Any]:
    return {
        "anchor": one.anchor,
        "opens": one.opens,
        "depth": one.depth,
        "ref": one.ref,
        "title": one.title,
        "kind": one.kind,
        "kind-word": one.kind_word,
        "says": _parts(one.sentences),
        "why": one.why,
        "about": "\n".join(_about(one)),
        "long": False,
    }


def _differs(one: Differs) -> dict[str, Any]:
    return {
        "anchor": one.told.anchor,
        "title": one.told.title,
        "ref": one.told.ref,
        "kind": one.told.kind,
        "kind-word": one.told.kind_word,
        "here": _parts(one.here),
        "laws": _parts(one.laws),
        "laws-ref": one.laws_ref,
        "why": one.told.why,
    }


def _caution(one: Caution) -> dict[str, str]:
    return {"title": one.title, "says": one.says, "source": one.source}


def _also(one: HouseArticle) -> dict[str, Any]:
    return {
        "ref": one.ref,
        "title": one.title,
        "opens": "",
        "depth": 1,
        "long": True,
        "kind": "words",
        "kind-word": "in words",
        "paragraphs": paragraphs(one.text),
    }


def _about(one: Told) -> Iterator[str]:
    if one.note:
        yield one.note
    if one.source:
        yield f"Source: {one.source}"


def _parts(sentences: tuple[Sentence, ...]) -> list[tuple[str, bool]]:
    """Return the stretches of all the sentences, words that touch joined, as typst sets them.

    A short value keeps together: its spaces do not break.
    """
    found: list[tuple[str, bool]] = []
    for one in sentences:
        for part in (*one.parts, Part(" ", is_value=False)):
            if found and not found[-1][1] and not part.is_value:
                found[-1] = (found[-1][0] + part.text, False)
            else:
                found.append((_kept_together(part), part.is_value))
    return found


def _kept_together(part: Part) -> str:
    is_short = part.is_value and len(part.text) <= SHORT_VALUE
    return part.text.replace(" ", "\N{NO-BREAK SPACE}") if is_short else part.text
