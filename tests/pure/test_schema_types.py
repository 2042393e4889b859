"""No key of the schema takes a number for true or false, nor true or false for a number."""

from collections.abc import Iterator
from decimal import Decimal
from typing import Any, Literal, get_args, get_origin

import pytest
from pydantic import ValidationError

from wholeball.kernel.faults import InputFaults
from wholeball.rulebook.book import Rulebook, parts
from wholeball.rulebook.editions import NEWEST, edition
from wholeball.rulebook.load import load
from wholeball.rulebook.value import ABOUT, Value


def own_keys(kind: type[Value], path: str = "") -> Iterator[tuple[str, type[Value], str]]:
    for name, inner in parts(kind).items():
        below = f"{path}{name}"
        for key in inner.model_fields:
            if key not in parts(inner) and (key not in ABOUT or key == "confirm"):
                yield below, inner, key
        yield from own_keys(inner, f"{below}.")


KEYS = list(own_keys(Rulebook))


def is_switch(annotation: Any) -> bool:
    choices = get_args(annotation) if get_origin(annotation) is Literal else ()
    return annotation is bool or any(isinstance(one, bool) for one in choices)


SWITCHES = [
    (path, kind, key)
    for path, kind, key in KEYS
    if is_switch(kind.model_fields[key].annotation)
]
OTHERS = [
    (path, kind, key)
    for path, kind, key in KEYS
    if not is_switch(kind.model_fields[key].annotation)
]


def accepts(path: str, kind: type[Value], key: str, value: object) -> bool:
    article = edition(NEWEST).article(path)
    own = {name: getattr(article, name) for name in kind.model_fields}
    try:
        kind.model_validate(own | {key: value})
    except ValidationError:
        return False
    return True


def test_there_are_switches_of_both_sorts() -> None:
    literals = [
        key for _, kind, key in SWITCHES if kind.model_fields[key].annotation is not bool
    ]
    assert literals == [
        "anchored",
        "cards_stand",
        "only_kicker_over_halfway",
        "on_signal",
        "own_team_allowed",
    ]


@pytest.mark.parametrize(("path", "kind", "key"), SWITCHES, ids=str)
@pytest.mark.parametrize("value", [0, 1, 0.0, 1.0, Decimal(0), Decimal(1), "true"])
def test_a_switch_takes_no_number_and_no_text(
    path: str, kind: type[Value], key: str, value: object
) -> None:
    assert not accepts(path, kind, key, value)


@pytest.mark.parametrize(("path", "kind", "key"), OTHERS, ids=str)
@pytest.mark.parametrize("value", [True, False])
def test_no_other_key_takes_true_or_false(
    path: str, kind: type[Value], key: str, *, value: bool
) -> None:
    assert not accepts(path, kind, key, value)


@pytest.mark.parametrize(
    ("said", "cure"), [("1", "Give true or false."), ("false", "Use one of: true.")]
)
def test_a_number_for_what_is_always_so_is_told_what_to_give(said: str, cure: str) -> None:
    text = f'base = "{NEWEST}"\nfield.goal.anchored = {said}\n'
    with pytest.raises(InputFaults) as refused:
        load(text.encode(), file="house.toml")
    assert [(one.says, one.cure) for one in refused.value.faults] == [
        (f"[field.goal] anchored is {said}.", cure)
    ]
