"""Every house rule that an article reads is proved with each of its values, one at a time.

No outside source: this is about the project's own articles. A house may write any of them.
"""

from collections.abc import Iterator
from typing import Final, Literal, get_args, get_origin

import pytest

from cases.rulebooks import rulebook
from wholeball.kernel.faults import InputFaults
from wholeball.rulebook.load import load
from wholeball.rulings.bind import bind
from wholeball.rulings.graph import compile_rules
from wholeball.rulings.outcome import OUTCOMES, SWAPS
from wholeball.rulings.spaces import PROVED

BASE: Final = "laws-2025-26"
CLASHING: Final = {
    ("game.period_end.at", "chance_played_out"),
}
"""Values that no rulebook may have beside the rest of the edition's; loading refuses them."""


def read_keys() -> set[str]:
    articles = [article for space in PROVED for article in space.articles]
    given = {key for article in articles for key in article.given}
    outcomes = {article.outcome for article in articles} - {None} - set(OUTCOMES)
    swapped = {key for given, _, _ in SWAPS for key in given}
    return given | swapped | {f"{outcome}" for outcome in outcomes}


def one_value_each() -> Iterator[tuple[str, str]]:
    """Yield each key that articles read with each word that it may have there, as TOML."""
    articles = dict(rulebook(BASE).articles())
    for key in sorted(read_keys()):
        path, _, name = key.rpartition(".")
        for word in _words(type(articles[path]).model_fields[name].annotation):
            yield key, word


def _words(annotation: object) -> Iterator[str]:
    if annotation is bool:
        yield from ("true", "false")
    elif get_origin(annotation) is Literal:
        yield from (f'"{word}"' for word in get_args(annotation))
    else:
        for part in get_args(annotation):
            yield from _words(part)


HOUSES: Final = tuple(one_value_each())


def refused(key: str, word: str) -> bool:
    """Tell whether a rulebook with this value is refused, or else prove it."""
    path, _, name = key.rpartition(".")
    text = f'schema = 1\nbase = "{BASE}"\nname = "One value"\n[{path}]\n{name} = {word}\n'
    try:
        book = load(text.encode(), file="house.toml").rulebook
    except InputFaults:
        return True
    for space in PROVED:
        compile_rules(bind(space, book))
    return False


def test_a_rulebook_with_any_one_value_has_no_gap_and_no_conflict() -> None:
    found = {(key, word.strip('"')) for key, word in HOUSES if refused(key, word)}
    assert found == CLASHING


def test_the_values_are_many_and_each_stands_once() -> None:
    assert len(HOUSES) == len(set(HOUSES)) > 150


@pytest.mark.parametrize("key", ["offside.played", "goalkeeper.hands_outside.then"])
def test_a_value_that_rules_is_among_them(key: str) -> None:
    assert key in {one for one, _ in HOUSES}
