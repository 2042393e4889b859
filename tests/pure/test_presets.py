"""Presets: each loads whole, differs from the Laws as meant, and labels what it changes."""

import re
import tomllib
from importlib.resources import files
from itertools import combinations, pairwise
from pathlib import Path
from typing import Any, Final

import pytest

from wholeball.kernel.length import Length
from wholeball.kernel.toml import frozen
from wholeball.reports.field_of_play import field_plan
from wholeball.rulebook.book import Rulebook, values
from wholeball.rulebook.differences import compared
from wholeball.rulebook.load import Loaded, load
from wholeball.rulebook.tables.time import MercyStep
from wholeball.rulebook.value import Article

PRESETS: Final = ("eleven", "nine", "eight", "seven", "five_indoor", "mixed")
_MEANT: Final = Path(__file__).with_name("presets.toml").read_text(encoding="utf-8")
MEANT: Final[dict[str, dict[str, Any]]] = tomllib.loads(_MEANT)
EXAMPLE: Final = Path(__file__).parents[2] / "examples" / "lantern-hill" / "rulebook.toml"


def data(name: str) -> bytes:
    if name == "lantern-hill":
        return EXAMPLE.read_bytes()
    return files("wholeball.rulebook.presets").joinpath(f"{name}.toml").read_bytes()


def loaded(name: str) -> Loaded:
    return load(data(name), file=f"{name}.toml")


def preset(name: str) -> Rulebook:
    return loaded(name).rulebook


def own(name: str) -> list[tuple[str, Article]]:
    """Return the articles that a preset sets itself, in the order of the booklet."""
    return [(path, one) for path, one in preset(name).articles() if one.ref.startswith("H ")]


def test_the_six_presets_are_all_there_are() -> None:
    folder = files("wholeball.rulebook.presets")
    names = {entry.name for entry in folder.iterdir() if entry.name.endswith(".toml")}
    assert names == {f"{name}.toml" for name in PRESETS}


@pytest.mark.parametrize("name", [*PRESETS, "lantern-hill"])
def test_it_loads_without_a_fault_a_doubt_or_a_note(name: str) -> None:
    assert loaded(name).remarks == ()


@pytest.mark.parametrize("name", PRESETS)
def test_it_differs_from_the_laws_as_meant_and_in_nothing_else(name: str) -> None:
    found = {
        path: {
            one.key: str(one.here) if isinstance(one.here, Length) else one.here
            for one in article.differences
        }
        for path, article in compared(preset(name)).items()
        if article.standing == "differs"
    }
    assert found == frozen(MEANT[name])


@pytest.mark.parametrize("name", PRESETS)
def test_what_it_sets_says_that_it_is_common_practice(name: str) -> None:
    assert {one.source for _, one in own(name)} == {"common practice, no source"}
    assert preset(name).head.base == "laws-2025-26"


@pytest.mark.parametrize("name", [*PRESETS, "lantern-hill"])
def test_every_article_it_sets_is_labelled_and_a_deviation_has_a_reason(name: str) -> None:
    assert {one.kind for _, one in own(name)} <= {"permitted", "local", "administrative"}
    assert [path for path, one in own(name) if one.kind == "local" and not one.why] == []


@pytest.mark.parametrize("name", [*PRESETS, "lantern-hill"])
def test_what_the_laws_leave_open_is_administrative_and_nothing_else_is(name: str) -> None:
    standing = {path: one.standing for path, one in compared(preset(name)).items()}
    left_open = {path for path, _ in own(name) if standing[path] == "house"}
    administrative = {path for path, one in own(name) if one.kind == "administrative"}
    assert left_open - administrative == {"mercy"}
    assert administrative <= left_open


@pytest.mark.parametrize("name", [*PRESETS, "lantern-hill"])
def test_its_references_rise_through_the_booklet(name: str) -> None:
    numbers = [
        tuple(int(part) for part in one.ref.removeprefix("H ").split("."))
        for _, one in own(name)
    ]
    assert all(here < after for here, after in pairwise(numbers))


@pytest.mark.parametrize("name", [*PRESETS, "lantern-hill"])
def test_every_table_has_a_line_that_says_what_it_is_for(name: str) -> None:
    lines = data(name).decode().splitlines()
    tables = [at for at, line in enumerate(lines) if re.match(r"\[[a-z]", line)]
    assert len(tables) >= 30
    assert [lines[at] for at in tables if not lines[at - 1].startswith("# ")] == []


@pytest.mark.parametrize("name", [*PRESETS, "lantern-hill"])
def test_its_field_can_be_laid_out(name: str) -> None:
    plan = field_plan(preset(name))
    assert plan.length > plan.width > plan.penalty_area_side > 0


@pytest.mark.parametrize(("one", "other"), list(combinations([*PRESETS, "lantern-hill"], 2)))
def test_no_two_are_alike_in_time_mercy_or_field(one: str, other: str) -> None:
    for path in ("game", "mercy", "field"):
        assert values(preset(one).article(path)) != values(preset(other).article(path))


@pytest.mark.parametrize("name", [*PRESETS, "lantern-hill"])
def test_none_takes_the_values_by_which_the_format_is_checked(name: str) -> None:
    book = preset(name)
    rungs = {MercyStep(lead=15, minutes_left=5), MercyStep(lead=10, minutes_left=2)}
    assert rungs.isdisjoint(book.mercy.ladder)
    assert (book.game.periods, book.game.minutes) != (2, 20)
    assert (book.sides.on_field, book.sides.minimum_to_start) != (9, 5)
    assert book.goalkeeper.hold.seconds != 10
    assert book.overtime.ends != "golden_goal"
    assert book.throw_in.not_entering.first == book.throw_in.not_entering.second
