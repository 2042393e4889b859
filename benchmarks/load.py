"""Times loading a rulebook of 150 articles against reading the same bytes as plain TOML."""

import tomllib
from importlib.resources import files
from statistics import median
from time import perf_counter

from benchmarks.in_turn import Measured
from wholeball.files.presets import preset
from wholeball.rulebook import editions
from wholeball.rulebook.load import load

REPEATS = 25
ARTICLES = 150
AT_MOST = 4.0


def measure() -> list[Measured]:
    """Return the ratios of a load and of a process's first load, medians of 25 in turn."""
    data = rulebook_of(ARTICLES)
    load(data, file="bench.toml")
    warm: list[float] = []
    first: list[float] = []
    plain: list[float] = []
    plain_with_editions: list[float] = []
    for _ in range(REPEATS):
        plain.append(_read([data]))
        warm.append(_load(data))
        plain_with_editions.append(_read([data, *_edition_files()]))
        _forget_editions()
        first.append(_load(data))
    what = f"load a rulebook of {ARTICLES} articles"
    return [
        (what, "tomllib.loads, same bytes", median(warm) / median(plain), AT_MOST),
        (
            f"{what}, the first in a process",
            "tomllib.loads, same bytes and the editions'",
            median(first) / median(plain_with_editions),
            AT_MOST,
        ),
    ]


def rulebook_of(articles: int) -> bytes:
    """Return the preset for eights, filled up with articles in words to so many."""
    own = load(preset("eight"), file="eight.toml").rulebook
    rest = articles - len(list(own.articles())) - len(own.also)
    words = (
        f'[[also]]\nref = "H 90.{number}"\ntitle = "House matter {number}"\n'
        f'text = "What the house wants done about matter {number}, in a sentence or two."\n'
        for number in range(rest)
    )
    return preset("eight") + "\n".join(words).encode()


def _edition_files() -> list[bytes]:
    folder = files("wholeball.rulebook.laws")
    keys = ("left_open", *(key for key in editions.edition_keys() if key <= editions.NEWEST))
    return [folder.joinpath(f"{key}.toml").read_bytes() for key in keys]


def _read(parts: list[bytes]) -> float:
    start = perf_counter()
    for part in parts:
        tomllib.loads(part.decode())
    return perf_counter() - start


def _load(data: bytes) -> float:
    start = perf_counter()
    load(data, file="bench.toml")
    return perf_counter() - start


def _forget_editions() -> None:
    for remembered in (editions._values, editions._file, editions.editions, editions.edition):  # noqa: SLF001 - a process's first load has none of them
        remembered.cache_clear()
