"""Prints the booklet of a rulebook: as PDF, and as a page beside it if asked."""

from datetime import datetime
from enum import StrEnum
from pathlib import Path

from wholeball.files.write import write_places
from wholeball.kernel.faults import WholeballError
from wholeball.reports.booklet import booklet_html
from wholeball.reports.booklet_pdf import booklet_pdf
from wholeball.reports.field_of_play import field_plan
from wholeball.reports.field_svg import field_svg
from wholeball.reports.shell import Link, Shell
from wholeball.reports.shipped import assets
from wholeball.rulebook.book import Rulebook
from wholeball.usecases.check_rulebook import check_rulebook


class Paper(StrEnum):
    """The paper a PDF is laid out for."""

    A4 = "a4"
    LETTER = "us-letter"


def print_booklet(
    name: str, *, pdf: Path, html: Path | None, paper: Paper, printed: datetime
) -> tuple[Path, ...]:
    """Write a rulebook's booklet and return the files written; the page brings its assets.

    Raises:
        InputFaults: everything that is wrong with the rulebook.
        WholeballError: PDF and page have one name, or the disk refuses.
    """
    if html is not None and html.resolve() == pdf.resolve():
        raise WholeballError(
            f"{pdf} is named for the PDF and for the page.",
            fix="Give them different names.",
            code="path",
        )
    book = check_rulebook(name).rulebook
    field = field_svg(field_plan(book), book.field.unit)
    made = booklet_pdf(book, field=field, printed=printed, paper=paper.value)
    places = {pdf.parent: {pdf.name: made}}
    if html is None:
        write_places(places)
        return (pdf,)
    page = {html.name: _page(book, html, field, printed), **assets()}
    places[html.parent] = {**places.get(html.parent, {}), **page}
    write_places(places)
    return pdf, html


def _page(book: Rulebook, html: Path, field: str, printed: datetime) -> bytes:
    shell = Shell(
        links=(Link(label="Rulebook", href=html.name),),
        rulebook=book.head.name,
        digest=book.digest,
        printed=printed,
    )
    return booklet_html(book, shell=shell, here=html.name, field=field, pdfs=()).encode()
