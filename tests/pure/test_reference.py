"""The reference lists every key of the schema, and what it says may stand there may."""

from typing import Any

import pytest

from wholeball.rulebook.book import Rulebook, values
from wholeball.rulebook.editions import NEWEST, edition
from wholeball.rulebook.load import load
from wholeball.rulebook.reference import KeyEntry, about_keys, reference
from wholeball.rulebook.value import ABOUT, Article
from wholeball.usecases.list_keys import keys_as_markdown, keys_as_text, keys_as_values

LAWS = edition(NEWEST)
TABLES = reference()
KEYS = [key for table in TABLES for key in table.keys]


def test_every_table_stands_in_the_order_of_the_booklet() -> None:
    assert [table.table for table in TABLES] == [path for path, _ in LAWS.articles()]


def test_every_key_of_every_table_is_listed_once() -> None:
    listed = [(key.table, key.key) for key in KEYS]
    assert listed == [(path, key) for path, one in LAWS.articles() for key in values(one)]


def test_keys_that_every_table_may_have_are_listed_apart() -> None:
    assert tuple(key.key for key in about_keys()) == ABOUT
    assert set(ABOUT) == set(Article.model_fields)
    assert not {key.key for key in KEYS} & set(ABOUT)


@pytest.mark.parametrize(
    ("table", "key", "expected"),
    [
        (
            "game",
            "minutes",
            KeyEntry(
                table="game",
                key="minutes",
                allowed="whole number, 1 to 60",
                meaning="How long each is.",
                laws="45",
            ),
        ),
        (
            "roster",
            "maximum",
            KeyEntry(
                table="roster",
                key="maximum",
                allowed='whole number, 0 to 999 or "no_limit"',
                meaning="The most players on a roster.",
                laws='"no_limit"',
            ),
        ),
        (
            "free_kick",
            "distance",
            KeyEntry(
                table="free_kick",
                key="distance",
                allowed="length with its unit",
                meaning="How far the opponents stay.",
                laws='"9.15 m (10 yd)"',
            ),
        ),
        (
            "field.goal",
            "anchored",
            KeyEntry(
                table="field.goal",
                key="anchored",
                allowed="true",
                meaning="Goals are anchored to the ground; nothing else is allowed.",
                laws="true",
            ),
        ),
    ],
)
def test_a_key_is_described_with_bounds_meaning_and_the_laws(
    table: str, key: str, expected: KeyEntry
) -> None:
    assert [one for one in KEYS if (one.table, one.key) == (table, key)] == [expected]


@pytest.mark.parametrize("key", KEYS, ids=[f"{one.table}.{one.key}" for one in KEYS])
def test_what_the_laws_column_shows_can_be_written_into_a_rulebook(key: KeyEntry) -> None:
    text = f'base = "{NEWEST}"\n[{key.table}]\n{key.key} = {key.laws}\n'
    book = load(text.encode(), file="house.toml").rulebook
    assert values(book.article(key.table)) == values(LAWS.article(key.table))


@pytest.mark.parametrize("key", KEYS, ids=[f"{one.table}.{one.key}" for one in KEYS])
def test_every_key_says_what_it_means_in_a_sentence(key: KeyEntry) -> None:
    assert key.meaning.endswith(".")
    assert key.allowed


def test_the_bounds_of_the_reference_are_those_of_the_schema() -> None:
    bounded = {(table.table, key.key): key.allowed for table in TABLES for key in table.keys}
    for path, article in LAWS.articles():
        for name, field in type(article).model_fields.items():
            limits = {type(one).__name__: one for one in field.metadata}
            if name not in ABOUT and "Ge" in limits:
                least: Any = limits["Ge"]
                most: Any = limits["Le"]
                assert bounded[path, name].endswith(f", {least.ge} to {most.le}")


def test_the_three_ways_of_listing_keys_hold_the_same_keys() -> None:
    text, page = keys_as_text(), keys_as_markdown()
    assert [(row["table"], row["key"]) for row in keys_as_values()] == [
        (key.table, key.key) for key in KEYS
    ]
    for table in TABLES:
        assert f"[{table.table}]  {table.meaning}" in text.split("\n")
        assert f"## {table.table}" in page.split("\n")
    assert text.count("\n    ") == len(KEYS)
    assert sum(line.startswith("| `") for line in page.split("\n")) == len(KEYS)


def test_a_bar_inside_a_cell_does_not_break_the_page() -> None:
    rows = [line for line in keys_as_markdown().split("\n") if line.startswith("| `")]
    assert {row.replace("\\|", "").count("|") for row in rows} == {5}


def test_the_reference_and_the_rulebook_name_the_same_tables() -> None:
    top = {table.table.split(".")[0] for table in TABLES}
    assert top == set(Rulebook.model_fields) - {"head", "also"}
