"""A wrong name gets the name that was meant, or a list short enough to read."""

import pytest

from wholeball.kernel.nearest import choices, did_you_mean, nearest

KNOWN = ("game", "mercy", "kick_off", "goal_kick")


@pytest.mark.parametrize(
    ("name", "best"),
    [
        ("gmae", "game"),
        ("GAME", "game"),
        ("mercy_rule", "mercy"),
        ("kickoff", "kick_off"),
        ("xyz", None),
        ("", None),
        ("game" * 40, None),
    ],
)
def test_the_nearest_name_is_found_or_none(name: str, best: str | None) -> None:
    assert nearest(name, KNOWN) == best


def test_a_name_keeps_its_own_letters() -> None:
    assert nearest("europe/lodon", ["Europe/London"]) == "Europe/London"


def test_a_higher_bound_finds_less() -> None:
    assert nearest("mercy_rule", KNOWN, cutoff=0.8) is None


def test_the_cure_names_the_nearest_or_lists_them_all() -> None:
    assert did_you_mean("gmae", KNOWN) == "Did you mean game?"
    assert did_you_mean("xyz", KNOWN) == "Use one of: game, mercy, kick_off, goal_kick."
    assert did_you_mean("xyz", []) == "There is none to choose from."


def test_of_61_names_60_are_listed_and_one_counted() -> None:
    names = [f"n{number}" for number in range(61)]
    assert choices(names[:60]) == ", ".join(names[:60])
    assert choices(names) == ", ".join(names[:60]) + " and 1 more"


def test_a_cure_lists_each_name_once_and_no_more_than_twelve() -> None:
    twelve = [f"n{number}" for number in range(12)]
    listed = ", ".join(twelve)
    assert did_you_mean("xyz", [*twelve, *twelve]) == f"Use one of: {listed}."
    assert did_you_mean("xyz", [*twelve, "n12"]) == f"Use one of: {listed} and 1 more."
