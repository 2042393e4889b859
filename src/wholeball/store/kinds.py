"""Tells by a name how what stands under it is kept."""

import re
from enum import Enum, auto
from typing import Final

from wholeball.store.models import TABLES

RULEBOOK: Final = "rulebook.toml"
_LOG = re.compile(r"games/([A-Za-z0-9][A-Za-z0-9 ._-]{0,79})\.jsonl")
_REPLACED: Final = "timetables/"


class Kind(Enum):
    """How something is kept: as rows, entries, an edition, or a text as it stands."""

    TABLE = auto()
    LOG = auto()
    EDITION = auto()
    REPLACED = auto()
    TEXT = auto()


def kind_of(name: str) -> Kind:
    """Return how what has a name is kept."""
    if name in TABLES:
        return Kind.TABLE
    if name == RULEBOOK:
        return Kind.EDITION
    if game_of(name):
        return Kind.LOG
    return Kind.REPLACED if name.startswith(_REPLACED) else Kind.TEXT


def game_of(name: str) -> str:
    """Return the game whose log has this name; empty where it is no log's."""
    found = _LOG.fullmatch(name)
    return "" if found is None else found[1]
