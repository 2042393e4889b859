"""Knows the editions of the Laws that a rulebook may stand on, and what they say."""

import tomllib
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import cache
from importlib.resources import files
from typing import Any, Final

from wholeball.kernel.faults import WholeballError
from wholeball.kernel.nearest import did_you_mean
from wholeball.rulebook.book import SCHEMA, Rulebook
from wholeball.rulebook.overlay import amend

LEFT_OPEN: Final = "left_open"
NEWEST: Final = "laws-2025-26"
"""The newest edition whose changes are all known; taken where a rulebook names none."""
_HEAD = ("schema", "base", "name", "source", "edition")


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """One edition of the Laws, or a clarification between two."""

    key: str
    name: str
    base: str
    source: str
    valid_from: date
    status: str
    note: str


@cache
def editions() -> tuple[Edition, ...]:
    """Return every edition, oldest first."""
    found = [_edition(key, _file(key)) for key in edition_keys()]
    return tuple(sorted(found, key=lambda edition: (edition.valid_from, edition.key)))


@cache
def edition_keys() -> tuple[str, ...]:
    """Return the key of every edition, such as laws-2025-26, in the order of the alphabet."""
    names = (entry.name for entry in files("wholeball.rulebook.laws").iterdir())
    keys = (name.removesuffix(".toml") for name in names if name.endswith(".toml"))
    return tuple(sorted(key for key in keys if key != LEFT_OPEN))


def edition_values(key: str) -> dict[str, Any]:
    """Return what an edition says, as plain values; shared, so never change it in place.

    Raises:
        WholeballError: no edition has that key.
    """
    if key not in edition_keys():
        raise WholeballError(
            f"base {key!r} is no edition of the Laws.",
            fix=did_you_mean(key, edition_keys()),
            code="unknown_value",
        )
    return _values(key)


@cache
def edition(key: str) -> Rulebook:
    """Return an edition as a rulebook of its own, without a house article.

    Raises:
        WholeballError: no edition has that key.
    """
    return Rulebook.model_validate(edition_values(key))


@cache
def _values(key: str) -> dict[str, Any]:
    said = _file(key)
    under = _values(said["base"]) if key != LEFT_OPEN else {"also": ()}
    own = {name: value for name, value in said.items() if name not in _HEAD}
    laid = amend(Rulebook, under, own)
    head = {
        "schema_version": SCHEMA,
        "base": key,
        "name": said["name"],
        "source": said["source"],
    }
    return {**laid, "head": head}


@cache
def _file(key: str) -> dict[str, Any]:
    text = files("wholeball.rulebook.laws").joinpath(f"{key}.toml").read_text(encoding="utf-8")
    return tomllib.loads(text, parse_float=Decimal)


def _edition(key: str, said: dict[str, Any]) -> Edition:
    about = said["edition"]
    return Edition(
        key=key,
        name=said["name"],
        base=said["base"],
        source=said["source"],
        valid_from=about["from"],
        status=about["status"],
        note=about.get("note", ""),
    )
