"""The same rules are the same rulebook, however they are written; other rules are another."""

from datetime import time
from decimal import Decimal
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel

from wholeball.kernel.length import Length, System, length
from wholeball.rulebook.book import Rulebook, idle_keys, values
from wholeball.rulebook.differences import compared
from wholeball.rulebook.editions import NEWEST, edition, edition_keys
from wholeball.rulebook.load import load
from wholeball.rulebook.tables.time import MercyStep
from wholeball.rulebook.value import Article

SYSTEMS: tuple[tuple[System, str], ...] = (("metric", "m"), ("imperial", "yd"))
LAWS = edition(NEWEST)
KEYS = [(path, key) for path, article in LAWS.articles() for key in values(article)]
LENGTHS = [
    (path, key)
    for path, article in LAWS.articles()
    for key, value in values(article).items()
    if isinstance(value, Length)
]


def written(value: object) -> str:
    """Write a value of a rulebook as TOML."""
    match value:
        case bool():
            return str(value).lower()
        case str() | Length():
            return f'"{value}"'
        case tuple():
            return f"[{', '.join(map(written, value))}]"
        case BaseModel():
            return f"{{ {', '.join(f'{name} = {written(item)}' for name, item in value)} }}"
        case time():
            return value.isoformat()
        case _:
            return str(value)


def tables_of(book: Rulebook) -> list[str]:
    """Write every value of a rulebook out, one table an article."""
    return [
        "\n".join(
            [
                f"[{path}]",
                *(f"{key} = {written(item)}" for key, item in values(article).items()),
            ]
        )
        for path, article in book.articles()
    ]


def read(text: str) -> Rulebook:
    return load(text.encode(), file="house.toml").rulebook


@pytest.mark.parametrize("key", edition_keys())
def test_an_empty_house_rulebook_is_its_edition_but_for_the_head(key: str) -> None:
    book = read(f'base = "{key}"\nname = "Ours"\n')
    assert book.head.name == "Ours"
    assert book.model_copy(update={"head": edition(key).head}) == edition(key)
    assert not any(one.differences for one in compared(book).values())


@pytest.mark.parametrize("key", edition_keys())
def test_laws_that_a_house_repeats_are_not_deviations(key: str) -> None:
    book = read("\n\n".join([f'base = "{key}"', *tables_of(edition(key))]))
    assert [values(article) for _, article in book.articles()] == [
        values(article) for _, article in edition(key).articles()
    ]
    assert [one.path for one in compared(book).values() if one.differences] == []
    assert {one.standing for one in compared(book).values()} == {"law", "house"}


@pytest.mark.parametrize(("system", "unit"), SYSTEMS)
def test_a_length_written_in_the_unit_of_the_field_alone_is_no_difference(
    system: System, unit: str
) -> None:
    house = [f'base = "{NEWEST}"', f'field.unit = "{unit}"']
    for path, key in LENGTHS:
        both = values(LAWS.article(path))[key]
        house.append(f'{path}.{key} = "{both.measured(system)}"')
    found = compared(read("\n".join(house)))
    differing = {(path, one.key) for path in found for one in found[path].differences}
    assert differing <= {("field", "unit")}


def test_loading_twice_gives_the_same_rulebook_and_digest() -> None:
    text = "\n\n".join(tables_of(LAWS))
    assert read(text) == read(text)
    assert read(text).digest == read(text).digest


@settings(max_examples=15, deadline=None)
@given(st.permutations(tables_of(LAWS)))
def test_the_order_of_tables_does_not_change_the_digest(tables: list[str]) -> None:
    assert read("\n".join(tables)).digest == read("\n".join(tables_of(LAWS))).digest


@pytest.mark.parametrize(
    "text",
    [
        "[goalkeeper.hold]\nseconds = 12\nthen = 'corner_kick'\n[game]\nminutes = 20\n",
        "# x\n[ game ]\nminutes=+2_0 # 45\n[goalkeeper]\nhold={then='corner_kick',seconds=0xC}",
        'game.minutes = 20\ngoalkeeper = { hold = { seconds = 12, then = "corner\\u005fkick" } }',
        "\ufeffgame.minutes = 20\r\n[goalkeeper.'hold']\r\nthen='''corner_kick'''\r\nseconds=12",
    ],
)
def test_comments_spacing_and_the_way_a_table_is_opened_change_nothing(text: str) -> None:
    plain = "[game]\nminutes = 20\n[goalkeeper.hold]\nseconds = 12\nthen = 'corner_kick'\n"
    assert read(text) == read(plain)
    assert read(text).digest == read(plain).digest


@pytest.mark.parametrize(("path", "key"), KEYS, ids=[f"{path}.{key}" for path, key in KEYS])
def test_another_value_of_any_key_is_another_digest(path: str, key: str) -> None:
    article = LAWS.article(path)
    other = another(getattr(article, key), type(article).model_fields[key].annotation)
    if other is None:
        assert get_args(type(article).model_fields[key].annotation) == (getattr(article, key),)
        return
    changed = replaced(LAWS, path.split("."), article.model_copy(update={key: other}))
    assert changed.digest != LAWS.digest
    found = [(one.key, one.here, one.laws) for one in compared(changed)[path].differences]
    is_told = (path, key) != ("field", "unit") and f"{path}.{key}" not in idle_keys(changed)
    assert found == ([(key, other, getattr(article, key))] if is_told else [])


@pytest.mark.parametrize("key", ["name", "source", "base"])
def test_another_head_is_another_digest(key: str) -> None:
    head = LAWS.head.model_copy(update={key: "laws-2016-17"})
    assert LAWS.model_copy(update={"head": head}).digest != LAWS.digest


def replaced(within: Any, path: list[str], article: Article) -> Any:
    """Return a rulebook in which another article stands at a path."""
    first, *rest = path
    inner = replaced(getattr(within, first), rest, article) if rest else article
    return within.model_copy(update={first: inner})


def another(value: Any, annotation: Any) -> Any:
    """Return another value of the same kind; None where only one is allowed."""
    if isinstance(value, str | bool):
        return _another_word(value, annotation)
    if isinstance(value, int | Decimal):
        return value + 1
    if isinstance(value, tuple):
        return value[1:] or (MercyStep(lead=9, minutes_left=8),)
    if isinstance(value, BaseModel):
        name, first = next(iter(value))
        changed = another(first, type(value).model_fields[name].annotation)
        return value.model_copy(update={name: changed})
    return {Length: length("77 mm"), time: time(3, 33)}[type(value)]


def _another_word(value: object, annotation: Any) -> Any:
    if annotation is bool:
        return not value
    if value == "no_limit":
        return 7
    return next((word for word in get_args(annotation) if word != value), None)


def test_equal_numbers_written_otherwise_give_one_digest() -> None:
    digests = {
        load(
            f'base = "laws-2025-26"\n[forfeit.fee]\namount = {amount}\n'.encode(), file="x"
        ).rulebook.digest
        for amount in ("50", "50.0", "50.00")
    }
    assert len(digests) == 1
