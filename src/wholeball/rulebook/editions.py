"""Knows the editions of the Laws that a rulebook may stand on, and what they say."""

from dataclasses import dataclass
from datetime import date
from functools import cache
from importlib.resources import files
from typing import Any, Final

from wholeball.kernel.faults import WholeballError
from wholeball.kernel.nearest import did_you_mean
from wholeball.kernel.toml import read_toml
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
    folder = files("wholeball.rulebook.laws")
    keys = (entry.name.removesuffix(".toml") for entry in folder.iterdir())
    found = [_edition(key, _file(key)) for key in keys if key.startswith("laws-")]
    return tuple(sorted(found, key=lambda edition: (edition.valid_from, edition.key)))


def edition_values(key: str) -> dict[str, Any]:
    """Return what an edition says, as plain values; shared, so never change it in place.

    Raises:
        WholeballError: no edition has that key.
    """
    if key not in {edition.key for edition in editions()}:
        known = [edition.key for edition in editions()]
        raise WholeballError(
            f"base {key!r} is no edition of the Laws.",
            fix=did_you_mean(key, known),
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
    name = f"{key}.toml"
    data = files("wholeball.rulebook.laws").joinpath(name).read_bytes()
    return read_toml(data, file=name)


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
