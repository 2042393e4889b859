"""Rules what the Laws rule: every row, in its own edition and in each later one it holds in.

Source: IFAB Laws of the Game; law, section and edition stand in each row of law_outcomes.jsonl.
The arithmetic of kicks from the mark is tested with the game (test_shootouts).
"""

import re
from collections.abc import Iterator
from functools import cache
from itertools import product
from typing import Final

import pytest

from external.cases import ROOT, Case, by_id, read
from external.law_compare import READERS, disagreements
from external.law_compare import read as read_row
from external.law_reading import ALWAYS
from wholeball.rulebook.editions import edition
from wholeball.rulings.bind import Rules, bind
from wholeball.rulings.paths import paths
from wholeball.rulings.spaces import GAME, PERSONS_SPACE

ARITHMETIC: Final = "shootout_state"
ROWS: Final[list[Case]] = [
    row for row in read("law_outcomes.jsonl") if row["facts"]["event"] != ARITHMETIC
]
VOCABULARY: Final[Case] = read("law_vocabulary.json")
YEARS: Final = tuple(f"{year}/{year % 100 + 1}" for year in range(2016, 2027))
PARTS_OF_AN_ANSWER: Final = frozenset({"second_caution"})
"""A code that is what is shown, too."""
UNDETERMINED: Final[dict[str, str]] = {}
"""Rows whose facts leave open what their ruling decides, each with the reason."""


@cache
def rules(year: str) -> tuple[Rules, Rules]:
    book = edition(f"laws-{year.replace('/', '-')}")
    return bind(GAME, book), bind(PERSONS_SPACE, book)


def years(row: Case) -> tuple[str, ...]:
    first, last = row["edition"], row["valid_to"] or YEARS[-1]
    return YEARS[YEARS.index(first) : YEARS.index(last) + 1]


def test_there_are_rows() -> None:
    assert ROWS


@pytest.mark.parametrize("row", by_id(ROWS))
def test_a_row_is_ruled_as_the_laws_rule_it(row: Case) -> None:
    if row["id"] in UNDETERMINED:
        pytest.skip(UNDETERMINED[row["id"]])
    for year in years(row):
        ruled, wrong = disagreements(row, *rules(year))
        assert ruled, f"no situation says this ({year})"
        assert wrong == [], year


@pytest.mark.parametrize("row", by_id([row for row in ROWS if row["ruling"]["admits"]]))
def test_another_ruling_would_be_noticed(row: Case) -> None:
    other = {**row["ruling"], "admits": ["abandon"], "restart": "abandon"}
    assert disagreements({**row, "ruling": other}, *rules(row["edition"]))[1]


def rows_of(event: str) -> Iterator[Case]:
    """Yield rows of an event: every value of its own keys, at every restart and phase."""
    keys = {name: [*values, None] for name, values in VOCABULARY["events"][event].items()}
    said = VOCABULARY["facts"]
    for phase, restart in product(said["phase"], said["restart_in_progress"]):
        for own in product(*keys.values()):
            yield {
                **dict.fromkeys(said),
                "phase": phase,
                "ball_in_play": phase == "in_play",
                "restart_in_progress": restart,
                "restart_team": restart and "A",
                "event": event,
                "offender_team": "A",
                **{name: one for name, one in zip(keys, own, strict=True) if one is not None},
            }


def is_ruled(facts: Case) -> bool:
    reading = read_row({"facts": facts})
    game, persons = rules(YEARS[-1])
    given = reading.facts if reading.persons else {**ALWAYS, **reading.facts}
    return next(paths(persons if reading.persons else game, given), None) is not None


@pytest.mark.parametrize("event", sorted(set(VOCABULARY["events"]) - {ARITHMETIC}))
def test_every_event_and_each_of_its_values_can_be_ruled(event: str) -> None:
    wanted = {
        (name, str(value))
        for name, all_ in VOCABULARY["events"][event].items()
        for value in all_
    }
    ruled: set[tuple[str, str]] = set()
    is_any = False
    for facts in rows_of(event):
        if is_any and ruled >= wanted:
            break
        if is_ruled(facts):
            is_any = True
            ruled |= {(name, str(facts.get(name))) for name, _ in wanted}
    assert is_any
    assert wanted - ruled == {pair for pair in wanted if pair[1] == "None"} - ruled


@pytest.mark.parametrize("name", sorted(VOCABULARY["facts"]))
def test_every_value_of_the_common_facts_can_be_ruled(name: str) -> None:
    unruled = []
    for value in VOCABULARY["facts"][name]:
        bases: list[Case] = [dict(row["facts"]) for row in ROWS]
        if not any(is_ruled({**facts, name: value}) for facts in bases[:40]):
            unruled.append(value)
    assert unruled == []


def test_the_adapter_knows_exactly_the_events_of_the_vocabulary() -> None:
    assert set(READERS) == set(VOCABULARY["events"]) - {ARITHMETIC}


def test_no_code_of_the_vocabulary_that_names_a_whole_case_stands_in_the_rulings() -> None:
    codes = {event for event in VOCABULARY["events"] if "_" in event} - PARTS_OF_AN_ANSWER
    room = ROOT / "src" / "wholeball" / "rulings"
    words = {
        word for file in room.rglob("*.py") for word in re.findall(r"\w+", file.read_text())
    }
    assert codes & words == set()
