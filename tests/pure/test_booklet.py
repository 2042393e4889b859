"""The booklet holds every article in words, as a tagged PDF and as a page that can be printed."""

import unicodedata
from datetime import UTC, datetime
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from wholeball.reports.booklet import booklet
from wholeball.reports.booklet_pdf import booklet_pdf
from wholeball.reports.field_of_play import field_plan
from wholeball.reports.field_svg import field_svg
from wholeball.reports.typeset import Paper
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import edition
from wholeball.rulebook.load import load

PRINTED = datetime(2026, 10, 13, 15, 5, tzinfo=UTC)
HOUSE = """
base = "laws-2025-26"
name = "House rules, #eights *of* <script> $x$ نادي"
[goalkeeper.hold]
ref = "H 4.2"
why = "New goalkeepers need longer."
seconds = 12
[mercy]
ref = "H 7.2"
ladder = [{ lead = 9, minutes_left = 8 }]
[game]
minutes = 22
[[also]]
ref = "H 20.1"
title = "Dogs #behind _the_ fence"
text = "Dogs stay behind the fence.\\n\\n#panic(\\"never run\\")"
"""


@pytest.fixture(scope="module")
def house() -> Rulebook:
    return load(HOUSE.encode(), file="house.toml").rulebook


@pytest.fixture(scope="module")
def pdf(house: Rulebook) -> PdfReader:
    return PdfReader(BytesIO(_printed(house, "a4")))


def _printed(book: Rulebook, paper: Paper) -> bytes:
    field = field_svg(field_plan(book), book.field.unit)
    return booklet_pdf(book, field=field, printed=PRINTED, paper=paper)


def test_what_differs_is_said_beside_the_laws(house: Rulebook) -> None:
    made = booklet(house, printed=PRINTED)
    sides = {
        one.told.path: (
            one.told.kind,
            " ".join(map(str, one.here)),
            " ".join(map(str, one.laws)),
        )
        for one in made.differs
    }
    assert set(sides) == {"goalkeeper.hold", "game"}
    kind, here, laws = sides["goalkeeper.hold"]
    assert (kind, "12 seconds" in here, "8 seconds" in laws) == ("local", True, True)
    assert made.spot.number == "2"


def test_what_the_laws_leave_open_is_told_apart_from_what_differs(house: Rulebook) -> None:
    made = booklet(house, printed=PRINTED)
    assert [one.path for one in made.settled] == ["mercy"]
    assert ([one.path for one in made.added], made.left_to_us) == (["mercy"], [])


def test_what_every_competition_settles_is_named_and_not_said_twice() -> None:
    rules = b'base = "laws-2025-26"\n[crew]\nref = "H 15.1"\nsize = 3\nroles = ["lead", "trail", "scorekeeper"]\nleast = 2\nsystem = "dual"'
    made = booklet(load(rules, file="house.toml").rulebook, printed=PRINTED)
    assert (made.added, [one.ref for one in made.left_to_us]) == ([], ["H 15.1"])


def test_a_rulebook_that_changes_nothing_differs_nowhere() -> None:
    made = booklet(edition("laws-2025-26"), printed=PRINTED)
    assert (made.differs, made.settled, made.spot.number) == ((), (), "0")


def test_the_pdf_is_tagged_and_names_its_title_and_language(pdf: PdfReader) -> None:
    root: Any = pdf.trailer["/Root"]
    assert "/StructTreeRoot" in root
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en-GB"
    assert pdf.metadata is not None
    assert pdf.metadata.title == "House rules, #eights *of* <script> $x$ نادي"


def test_the_outline_of_the_pdf_lists_every_article(house: Rulebook, pdf: PdfReader) -> None:
    listed = _titles(pdf.outline)
    titles = [one.title for one in booklet(house, printed=PRINTED).articles]
    assert [title for title in titles if title not in listed] == []
    assert "Dogs #behind _the_ fence" in listed


def test_every_article_stands_in_the_pdf_and_no_words_are_run(
    house: Rulebook, pdf: PdfReader
) -> None:
    text = _squeezed(" ".join(page.extract_text() for page in pdf.pages))
    for one in booklet(house, printed=PRINTED).articles:
        assert _squeezed(str(one.sentences[0]))[:40] in text
    assert _squeezed('#panic("never run")') in text


@pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("us-letter", (612, 792))])
def test_the_pdf_has_the_size_of_its_paper(
    house: Rulebook, paper: Paper, size: tuple[int, int]
) -> None:
    box = PdfReader(BytesIO(_printed(house, paper))).pages[0].mediabox
    assert (round(box.width), round(box.height)) == size


def test_the_same_rulebook_printed_at_the_same_time_gives_the_same_bytes(
    house: Rulebook,
) -> None:
    assert _printed(house, "a4") == _printed(house, "a4")


def test_letters_that_no_font_has_are_printed_as_code_points_and_told(house: Rulebook) -> None:
    odd = house.model_copy(update={"head": house.head.model_copy(update={"name": "Eights 𒀀"})})
    reader = PdfReader(BytesIO(_printed(odd, "a4")))
    assert "[U+12000]" in reader.pages[0].extract_text()
    assert "Printed as code points" in reader.pages[-1].extract_text()


def _titles(outline: Any) -> list[str]:
    return [
        title
        for item in outline
        for title in (_titles(item) if isinstance(item, list) else [item["/Title"]])
    ]


def _squeezed(text: str) -> str:
    """Drop spaces, joiners and ligatures, which extracting a PDF's text does not keep."""
    return "".join(unicodedata.normalize("NFKC", text).replace("\u2060", "").split())
