"""Measures how free words are understood, and sees that nothing is proposed that cannot be."""

import pytest

from cases.student_sentences import HELD_OUT, TUNED
from wholeball.rulings.spaces import GAME
from wholeball.training.student_words import SAME, SAYINGS
from wholeball.usecases.propose_facts import MOST_TEXT, readings
from wholeball.usecases.stated_facts import read_facts, space_of, with_what_follows


def hits(sentences: tuple[tuple[str, str], ...]) -> tuple[int, int]:
    """Count the sentences whose facts are all in the first reading, and in any of three."""
    first = among = 0
    for text, said in sentences:
        wanted = read_facts(said.split()).items()
        found = [wanted <= dict(reading.facts).items() for reading in readings(text)]
        first += found[:1] == [True]
        among += any(found)
    return first, among


def test_sentences_the_words_were_set_with_are_understood_at_once() -> None:
    assert len(TUNED) == 112
    first, among = hits(TUNED)
    assert first >= 108
    assert among >= 110


def test_three_in_four_held_out_sentences_are_understood() -> None:
    """Of 46, 34 by the first reading and 37 by one of three when they were first measured."""
    assert len(HELD_OUT) == 46
    first, among = hits(HELD_OUT)
    assert first >= 34
    assert among >= 37


@pytest.mark.parametrize(("said", "way"), SAYINGS)
def test_a_saying_has_facts_of_one_situation_and_is_found_by_itself(
    said: str, way: str
) -> None:
    facts = read_facts(said.split())
    whole = with_what_follows(facts, space_of(facts))
    found = [reading for reading in readings(way) if whole.items() <= reading.facts.items()]
    assert found


def test_no_word_stands_for_two_others() -> None:
    first: dict[str, str] = {}
    for line in SAME:
        head, *others = line.split()
        for word in (head, *others):
            assert first.setdefault(word, head) == head


def test_a_reading_holds_what_follows_in_the_order_of_asking() -> None:
    reading = readings("keeper picked up a throw-in from his own team")[0]
    assert reading.space is GAME
    assert list(reading.facts.items()) == [
        ("moment", "open"),
        ("seen", "keeper_hands"),
        ("hands", "received"),
        ("source", "throw"),
    ]


@pytest.mark.parametrize(
    ("typed", "plain"),
    [
        ("GOALIE GRABBED A BACK PASS", "goalie grabbed a back pass"),
        ("goalie grabbed, a back-pass!", "goalie grabbed a back pass"),
        ("we heard thundr", "we heard thunder"),
        ("ofside and he scored", "offside and he scored"),
    ],
)
def test_case_signs_and_a_mistyped_letter_change_nothing(typed: str, plain: str) -> None:
    assert readings(typed)[0].facts == readings(plain)[0].facts


@pytest.mark.parametrize(
    "text", ["", "   ", "the", "?!", "zzzz qqqq", "\N{SOCCER BALL}", "1=2"]
)
def test_nothing_is_proposed_where_nothing_is_known(text: str) -> None:
    assert readings(text) == ()


def test_a_long_text_is_read_to_its_limit() -> None:
    text = "offside " + "x" * MOST_TEXT
    assert readings(text + " thunder") == readings(text)


def test_readings_contradict_nothing_and_come_best_first() -> None:
    for text, _ in (*TUNED, *HELD_OUT):
        found = readings(text)
        scores = [reading.score for reading in found]
        assert scores == sorted(scores, reverse=True)
        assert len({tuple(reading.facts.items()) for reading in found}) == len(found)
        for reading in found:
            assert with_what_follows(reading.facts, reading.space) == reading.facts
