"""Contradictions: the last rulebook that passes, the first that does not, and what it is told."""

import tomllib
from copy import deepcopy
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from wholeball.kernel.faults import InputFaults
from wholeball.kernel.toml import frozen
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.contradictions import CHECKS, Check, Contradiction, contradictions
from wholeball.rulebook.editions import edition, edition_values, editions
from wholeball.rulebook.load import load
from wholeball.rulebook.value import Article

_TEXT = Path(__file__).with_name("contradictions.toml").read_text(encoding="utf-8")
CASES: list[dict[str, Any]] = tomllib.loads(_TEXT, parse_float=Decimal)["case"]
DOUBTS = [case for case in CASES if case["code"] == "suspicious"]


def named(case: dict[str, Any]) -> str:
    return str(case["name"])


def changed(said: dict[str, Any]) -> Rulebook:
    """Return the edition of 2025/26 with some values replaced, their articles no longer Law."""
    laid = deepcopy(edition_values("laws-2025-26"))
    for name, value in said.items():
        *tables, last = name.split(".")
        table = laid
        for part in tables:
            table = table[part]
        if table.get("kind") == "law":
            table["kind"] = "local"
        table[last] = frozen(value)
    return Rulebook.model_validate(laid)


@cache
def wrong_books() -> tuple[Rulebook, ...]:
    return tuple(changed(case["wrong"]) for case in CASES)


def expected(case: dict[str, Any]) -> Contradiction:
    return Contradiction(
        code=case["code"], keys=tuple(case["keys"]), says=case["says"], cure=case["cure"]
    )


@pytest.mark.parametrize("case", CASES, ids=named)
def test_the_last_that_passes_and_the_first_that_does_not(case: dict[str, Any]) -> None:
    assert contradictions(changed(case["fine"])) == ()
    assert contradictions(changed(case["wrong"])) == (expected(case),)


@pytest.mark.parametrize("case", CASES, ids=named)
def test_both_articles_are_named_with_their_values(case: dict[str, Any]) -> None:
    (found,) = contradictions(changed(case["wrong"]))
    assert len(found.keys) >= 2
    for path in found.articles:
        assert f"[{path}]" in found.says


def test_every_check_finds_something_in_one_of_the_cases() -> None:
    assert [check for check in CHECKS if not any(map(check.find, wrong_books()))] == []


@pytest.mark.parametrize("on_field", [7, 8])
def test_a_side_that_may_do_without_an_uncounted_goalkeeper_can_be_even(on_field: int) -> None:
    said = {
        "sides.on_field": on_field,
        "sides.goalkeeper": "optional",
        "sides.mixed.difference_most": 0,
        "sides.mixed.goalkeeper_counts": False,
    }
    assert contradictions(changed(said)) == ()


def test_the_score_of_a_default_that_there_is_none_of_may_be_anything() -> None:
    said = {"forfeit.default.allowed": 0, "forfeit.default.score": {"winners": 0, "losers": 0}}
    assert contradictions(changed(said)) == ()


def test_goalkeeper_colours_of_the_laws_go_unread_where_nobody_keeps_goal() -> None:
    book = changed({"sides.goalkeeper": "none"})
    assert "goalkeeper_colours" in book.equipment.required
    assert contradictions(book) == ()


@pytest.mark.parametrize("key", [one.key for one in editions()])
def test_no_edition_contradicts_itself(key: str) -> None:
    assert contradictions(edition(key)) == ()


class Watched:
    """Stands in for a rulebook or an article, and notes whose values are read."""

    def __init__(self, inner: object, path: str, seen: set[str]) -> None:
        self.inner, self.path, self.seen = inner, path, seen

    def __getattr__(self, name: str) -> object:
        value = getattr(self.inner, name)
        if isinstance(value, Article):
            return Watched(value, f"{self.path}.{name}".lstrip("."), self.seen)
        if self.path:
            self.seen.add(self.path)
        return value


def read_by(check: Check, book: Rulebook) -> set[str]:
    seen: set[str] = set()
    list(check.look(Watched(book, "", seen)))  # type: ignore[arg-type] # it is asked as one
    return seen


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.look.__name__)
def test_a_check_reads_no_article_that_it_does_not_name(check: Check) -> None:
    read = set().union(*(read_by(check, book) for book in wrong_books()))
    assert read == set(check.paths)


@pytest.mark.parametrize("case", DOUBTS, ids=named)
def test_a_doubt_is_silent_once_one_of_its_articles_is_confirmed(case: dict[str, Any]) -> None:
    for path in expected(case).articles:
        assert contradictions(changed({**case["wrong"], f"{path}.confirm": True})) == ()


def test_a_fault_is_not_silenced_by_being_confirmed() -> None:
    said = {"sides.on_field": 8, "sides.minimum_to_start": 9, "sides.confirm": True}
    assert [one.level for one in contradictions(changed(said))] == ["fault"]


def test_two_level_games_that_go_to_no_overtime_are_told_of_one_by_one() -> None:
    said = {"ties.league": "overtime", "ties.play_off": "overtime", "overtime.periods": 0}
    assert [one.keys for one in contradictions(changed(said))] == [
        ("ties.league", "overtime.periods"),
        ("ties.play_off", "overtime.periods"),
    ]


def test_overtime_of_the_laws_that_nobody_plays_is_no_doubt() -> None:
    book = changed({"ties.play_off": "kicks"})
    assert book.overtime.kind == "law"
    assert contradictions(book) == ()


def test_ratings_that_nobody_gives_may_lie_anywhere() -> None:
    assert contradictions(changed({"ratings.given.ready": 9})) == ()


def test_a_loaded_rulebook_is_refused_on_the_line_of_the_fault() -> None:
    text = b'base = "laws-2025-26"\n[sides]\non_field = 8\n\nminimum_to_start = 9\n'
    with pytest.raises(InputFaults) as refused:
        load(text, file="house.toml")
    (fault,) = refused.value.faults
    assert (fault.code, fault.place.line, fault.place.article) == ("contradiction", 5, "sides")


def test_a_doubtful_rulebook_is_loaded_with_a_remark() -> None:
    text = b'base = "laws-2025-26"\n[discipline.red]\ngames = 3\nsecond_games = 2\n'
    loaded = load(text, file="house.toml")
    assert loaded.rulebook.discipline.red.games == 3
    assert [(one.code, one.level, one.place.line) for one in loaded.remarks] == [
        ("suspicious", "doubt", 4)
    ]
