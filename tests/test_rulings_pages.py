"""The pages of rulings show every situation with its scene, and say where it is different."""

import re
from datetime import UTC, datetime
from pathlib import Path

import pytest

from cases.rulebooks import rulebook
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.reports.shell import Link, Shell
from wholeball.rulebook.book import Rulebook
from wholeball.training.thirty import THIRTY
from wholeball.usecases.show_rulings import DIFFERENT, RULINGS, ruling_pages

EXAMPLES = Path(__file__).parents[1] / "examples"


@pytest.fixture(scope="module")
def pages() -> dict[str, str]:
    return pages_of(read_folder(FolderRecord(EXAMPLES / "lantern-hill")).season.rulebook)


def pages_of(book: Rulebook) -> dict[str, str]:
    shell = Shell(
        links=(Link(label="Rulings", href=RULINGS),),
        rulebook=book.head.name,
        digest=book.digest,
        printed=datetime(2026, 10, 14, tzinfo=UTC),
    )
    return {name: page.decode() for name, page in ruling_pages(book, shell).items()}


def test_all_thirty_situations_have_a_heading_a_link_and_a_scene(pages: dict[str, str]) -> None:
    page = pages[RULINGS]
    links = re.findall(r'<li><a href="#([a-z-]+)">', page)
    assert links == [told.name.replace("_", "-") for told in THIRTY]
    assert re.findall(r'<h2 id="([a-z-]+)">', page)[1:] == links
    assert page.count('class="drawn" role="img"') == 30


def test_exactly_the_hold_and_the_slide_are_said_to_be_different(pages: dict[str, str]) -> None:
    sections = pages[RULINGS].split('<section class="block ruled"')[1:]
    told = [
        re.findall(r'<h2 id="([a-z-]+)">', section)[0]
        for section in sections
        if "This is different here." in section
    ]
    assert told == ["slide", "held-too-long"]


def test_what_is_different_says_what_the_laws_would_have_been(pages: dict[str, str]) -> None:
    page = " ".join(pages[DIFFERENT].split())
    assert page.count('class="drawn" role="img"') == 3
    assert "held to <bdi>Laws of the Game 2025/26</bdi>" in page
    assert "Corner kick for the other side, from the nearest corner area." in page
    assert re.search(r"<b>3</b> <span>ruled differently</span>", page)


def test_a_page_names_no_shape_by_its_colour(pages: dict[str, str]) -> None:
    for page in pages.values():
        assert not re.search(r"\b(blue|white|black) (disc|square|player)", page)


def test_a_house_with_kick_ins_reads_of_no_throw_in_save_where_the_laws_are_told() -> None:
    page = pages_of(rulebook("five_indoor"))[RULINGS]
    ruled = [section.split("This is different here.")[0] for section in page.split("<section ")]
    said = "".join(ruled)
    assert re.findall(r"(?i)[\w-]*throw-in[\w-]*|thrown in|thrower", said) == []
    assert "Straight in from a kick-in" in said
    assert "Kick-in for the other side" in said
