"""What is different here: every article of a house that changes a ruling, shown once."""

from pathlib import Path
from typing import Final

import pytest

from cases.scenes import book_of
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import edition
from wholeball.rulebook.load import load
from wholeball.rulings.bind import bind
from wholeball.rulings.ruling import rule
from wholeball.rulings.spaces import GAME
from wholeball.training.different import Different, different, differs

EXAMPLE: Final = Path(__file__).parents[2] / "examples" / "lantern-hill" / "rulebook.toml"


def found(book: Rulebook) -> tuple[Different, ...]:
    return different(bind(GAME, book), bind(GAME, edition(book.head.base)))


@pytest.fixture(scope="module")
def example() -> tuple[Rulebook, tuple[Different, ...]]:
    book = load(EXAMPLE.read_bytes(), file="rulebook.toml").rulebook
    return book, found(book)


def test_the_laws_differ_from_themselves_in_nothing() -> None:
    assert found(edition("laws-2025-26")) == ()


def test_a_field_of_another_size_changes_no_ruling() -> None:
    house = b"""
base = "laws-2025-26"
name = "n"
source = "s"
field.length = "100 m"
field.ref = "H 1"
field.why = "w"
"""
    assert found(load(house, file="house.toml").rulebook) == ()


def test_the_example_differs_in_the_hold_the_slide_and_the_care_of_the_hurt(
    example: tuple[Rulebook, tuple[Different, ...]],
) -> None:
    _, cases = example
    assert [case.path for case in cases] == ["goalkeeper.hold", "injury", "slide_tackle"]


def test_each_case_is_ruled_differently_by_the_claim_engine_too(
    example: tuple[Rulebook, tuple[Different, ...]],
) -> None:
    book, cases = example
    for case in cases:
        here = rule(case.here.situation, book)
        laws = rule(case.laws.situation, edition(book.head.base))
        assert (here, laws) == (case.here.ruling, case.laws.ruling)
        assert differs(case.here, case.laws)


def test_indoors_every_difference_names_an_article_of_the_house() -> None:
    book = book_of("five_indoor")
    refs = {book.article(case.path).ref for case in found(book)}
    assert all(ref.startswith("H ") for ref in refs)
    assert len(refs) > 3
