"""Facts, articles and answers have words, spots are the pitch's, and no whole case has a name.

No outside source: these are rules of this project's own.
"""

import re
from collections.abc import Iterator
from typing import Final

import pytest

from cases.rulebooks import EDITIONS, HOUSES, PRESETS, rulebook
from wholeball.pitch.spots import Spot
from wholeball.rulings.article import Article
from wholeball.rulings.outcome import OUTCOMES
from wholeball.rulings.reading import is_given, read
from wholeball.rulings.space import Space
from wholeball.rulings.spaces import GAME, PROVED

NO_SPOT: Final = {"none"}
CITED: Final = re.compile(r"Laws? \d.*|common practice, no source")


def articles() -> Iterator[Article]:
    for space in PROVED:
        yield from space.articles


@pytest.mark.parametrize("space", PROVED, ids=lambda space: space.name)
def test_each_fact_is_one_question_and_each_value_has_its_own_phrase(space: Space) -> None:
    for fact in space.facts:
        assert fact.question.endswith(("?", ".)")), fact.name
        phrases = list(fact.values.values())
        assert len(set(phrases)) == len(phrases) > 1, fact.name
        assert all(phrase and phrase[0].islower() for phrase in phrases), fact.name


@pytest.mark.parametrize("space", PROVED, ids=lambda space: space.name)
def test_each_contradiction_says_why(space: Space) -> None:
    reasons = [cut.because for fact in space.facts for cut in fact.cuts]
    assert all(re.fullmatch(r"[a-z].*[^.]", reason) for reason in reasons), reasons


def test_each_article_is_a_sentence_and_cites_a_section_or_common_practice() -> None:
    for article in articles():
        assert re.fullmatch(r"[A-Z].*\.", article.says), article.name
        assert CITED.fullmatch(article.law), article.name


def test_nobody_says_card_alone() -> None:
    said = [article.says for article in articles()]
    said += [fact.question for space in PROVED for fact in space.facts]
    assert [words for words in said if re.search(r"\bcards?\b", words)] == []


def test_every_spot_of_a_ruling_is_a_spot_of_the_pitch() -> None:
    spots = next(stage.parts["spot"] for stage in GAME.stages if stage.name == "spot")
    assert spots - NO_SPOT <= {spot.value for spot in Spot}


@pytest.mark.parametrize("name", [*PRESETS, *EDITIONS, *HOUSES])
def test_what_articles_read_is_there_in_every_rulebook(name: str) -> None:
    book = rulebook(name)
    for article in articles():
        assert is_given(article.given, book) in {True, False}
        if article.outcome is not None and article.outcome not in OUTCOMES:
            assert read(article.outcome, book)
        if article.path is not None:
            assert book.article(article.path).ref


@pytest.mark.parametrize(
    ("key", "word"),
    [
        ("goalkeeper.hold.then", "corner_kick"),
        ("offside.played", "yes"),
        ("slide_tackle.caution", "no"),
        ("cards.cautions_for_red", "2"),
        ("cards.cautioned.minutes", "none"),
        ("dropped_ball.distance", "some"),
    ],
)
def test_a_value_of_the_rulebook_is_read_as_a_word(key: str, word: str) -> None:
    assert read(key, rulebook("laws-2025-26")) == word


@pytest.mark.parametrize("key", ["goalkeeper.hold", "goalkeeper.hands", "kicks.takers.order.x"])
def test_a_key_that_is_no_value_is_refused(key: str) -> None:
    with pytest.raises(ValueError, match=re.escape(key)):
        read(key, rulebook("laws-2025-26"))
