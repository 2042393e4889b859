"""A house rulebook lies over its edition: key by key, and the edition is never changed."""

from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wholeball.rulebook.book import Rulebook, values
from wholeball.rulebook.editions import NEWEST, edition_values
from wholeball.rulebook.overlay import amend, overlay

UNDER: dict[str, Any] = {
    "goalkeeper": {
        "ref": "Law 12",
        "kind": "law",
        "source": "IFAB",
        "note": "As before.",
        "at_feet": "ordinary_foul",
        "hold": {
            "ref": "Law 12.2",
            "kind": "law",
            "source": "IFAB",
            "why": "Time.",
            "note": "New in 2025.",
            "confirm": True,
            "seconds": 8,
            "then": "corner_kick",
            "shown_seconds": 5,
        },
    },
    "mercy": {"ref": "Left open", "kind": "administrative", "source": "-", "ladder": ()},
    "standings": {"points": {"win": 3, "draw": 1, "loss": 0}, "criteria": ("points",)},
}


def laid(over: dict[str, Any], source: str = "") -> dict[str, Any]:
    return overlay(Rulebook, UNDER, over, source=source)


def test_nothing_laid_over_an_edition_is_the_edition() -> None:
    assert laid({}) == UNDER


@pytest.mark.parametrize("over", [{"goalkeeper": {}}, {"goalkeeper": {"hold": {}}}])
def test_a_table_opened_and_left_empty_changes_nothing(over: dict[str, Any]) -> None:
    assert laid(over) == UNDER


def test_an_article_of_which_a_value_is_replaced_speaks_for_itself() -> None:
    changed = laid({"goalkeeper": {"hold": {"seconds": 12}}}, source="House rules 4")
    assert changed["goalkeeper"] == UNDER["goalkeeper"] | {
        "hold": {
            "ref": "goalkeeper.hold",
            "kind": "local",
            "source": "House rules 4",
            "seconds": 12,
            "then": "corner_kick",
            "shown_seconds": 5,
        }
    }
    assert {**changed, "goalkeeper": UNDER["goalkeeper"]} == UNDER


def test_what_the_house_says_about_an_article_wins_over_what_is_assumed() -> None:
    over = {"seconds": 12, "ref": "H 4", "kind": "permitted", "why": "Slow.", "source": "Us"}
    hold = laid({"goalkeeper": {"hold": over}}, source="Book")["goalkeeper"]["hold"]
    assert hold == {**over, "then": "corner_kick", "shown_seconds": 5}


@pytest.mark.parametrize(
    "about",
    [{"why": "We like it."}, {"confirm": True}, {"ref": "H 4"}, {"note": "x", "source": "y"}],
)
def test_an_article_of_which_only_the_telling_is_changed_stays_law(
    about: dict[str, Any],
) -> None:
    changed = laid({"goalkeeper": {"hold": about}}, source="House")
    assert changed["goalkeeper"]["hold"] == UNDER["goalkeeper"]["hold"] | about


def test_a_value_of_a_table_leaves_its_parts_alone() -> None:
    changed = laid({"goalkeeper": {"at_feet": "always_foul"}})["goalkeeper"]
    assert changed["hold"] == UNDER["goalkeeper"]["hold"]
    assert (changed["ref"], changed["kind"], "note" in changed) == (
        "goalkeeper",
        "local",
        False,
    )


def test_lists_are_replaced_and_inline_tables_laid_over_key_by_key() -> None:
    changed = laid({"standings": {"points": {"win": 2}, "criteria": ["wins", "goals"]}})
    assert changed["standings"]["points"] == {"win": 2, "draw": 1, "loss": 0}
    assert changed["standings"]["criteria"] == ("wins", "goals")


def test_a_list_is_frozen_all_the_way_down() -> None:
    changed = laid({"mercy": {"ladder": [{"lead": 8, "x": [1]}]}})
    assert changed["mercy"]["ladder"] == ({"lead": 8, "x": (1,)},)


@pytest.mark.parametrize("value", [1, "x", [], [{"seconds": 1}], True])
def test_what_is_no_table_stands_as_it_is_and_is_refused_later(value: object) -> None:
    changed = laid({"goalkeeper": {"hold": value}, "nope": value})
    frozen = ({"seconds": 1},) if value == [{"seconds": 1}] else value
    expected = () if value == [] else frozen
    assert (changed["goalkeeper"]["hold"], changed["nope"]) == (expected, expected)


def test_a_later_edition_keeps_the_references_it_does_not_restate() -> None:
    changed = amend(Rulebook, UNDER, {"goalkeeper": {"hold": {"seconds": 6, "source": "New"}}})
    assert changed["goalkeeper"]["note"] == "As before."
    assert changed["goalkeeper"]["hold"] == {
        "ref": "Law 12.2",
        "kind": "law",
        "source": "New",
        "seconds": 6,
        "then": "corner_kick",
        "shown_seconds": 5,
    }


LEAVES: st.SearchStrategy[Any] = st.recursive(
    st.integers() | st.text(max_size=3),
    lambda inner: (
        st.lists(inner, max_size=2)
        | st.dictionaries(st.sampled_from(["hold", "seconds", "ladder", "points"]), inner)
    ),
    max_leaves=6,
)
OVER = st.dictionaries(
    st.sampled_from(["goalkeeper", "mercy", "standings", "game", "nope"]), LEAVES, max_size=3
)


@settings(max_examples=150, deadline=None)
@given(OVER)
def test_neither_the_edition_nor_the_house_rules_are_changed(over: dict[str, Any]) -> None:
    under, given_ = deepcopy(edition_values(NEWEST)), deepcopy(over)
    overlay(Rulebook, edition_values(NEWEST), over, source="x")
    amend(Rulebook, edition_values(NEWEST), over)
    assert edition_values(NEWEST) == under
    assert over == given_


@settings(max_examples=50, deadline=None)
@given(
    st.sampled_from(
        [path for path, _ in Rulebook.model_validate(edition_values(NEWEST)).articles()]
    )
)
def test_laying_an_edition_over_itself_changes_no_value(path: str) -> None:
    edition = Rulebook.model_validate(edition_values(NEWEST))
    over: Any = edition_values(NEWEST)
    for name in path.split("."):
        over = over[name]
    for name in reversed(path.split(".")):
        over = {name: over}
    again = overlay(Rulebook, edition_values(NEWEST), over, source="x")
    assert values(Rulebook.model_validate(again).article(path)) == values(edition.article(path))
