"""One article in plain text says what it says, what the Laws say, and why."""

import pytest

from wholeball.reports.plain import WIDTH, article_text
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import edition
from wholeball.rulebook.load import load

HOUSE = b"""
base = "laws-2025-26"
name = "House rules"
[goalkeeper.hold]
ref = "H 4.2"
why = "New goalkeepers need longer."
source = "the coordinator"
seconds = 12
then = "indirect_free_kick"
[corner]
distance = "8 yd"
[field]
unit = "yd"
"""


@pytest.fixture(scope="module")
def house() -> Rulebook:
    return load(HOUSE, file="house.toml").rulebook


def test_an_article_that_differs_says_both_and_its_reason(house: Rulebook) -> None:
    assert article_text(house, "goalkeeper.hold") == (
        "H 4.2  Keeping the ball in the hands (local)\n"
        "  A goalkeeper may keep the ball in the hands for 12 seconds; if it takes longer, the\n"
        "  opponents get an indirect free kick. The official shows the last 5 seconds by hand.\n"
        "  The Laws say (Law 12.2): A goalkeeper may keep the ball in the hands for 8 seconds; if\n"
        "  it takes longer, the opponents get a corner kick.\n"
        "  Why: New goalkeepers need longer.\n"
        "  Source: the coordinator"
    )


def test_the_laws_are_said_in_the_unit_of_the_house(house: Rulebook) -> None:
    text = article_text(house, "corner")
    assert "8 yd" in text
    assert "The Laws say (Law 17): Opponents stay at least 10 yd from the corner arc." in text


def test_every_article_of_the_laws_fits_the_width_and_says_no_difference() -> None:
    laws = edition("laws-2025-26")
    for path, _ in laws.articles():
        text = article_text(laws, path)
        assert "The Laws say" not in text
        assert max(map(len, text.split("\n"))) <= WIDTH


def test_a_path_that_is_no_article_is_refused(house: Rulebook) -> None:
    with pytest.raises(KeyError):
        article_text(house, "goalkeeper.hat")
