"""Knows how the keys of a rulebook are named, for faults that a coordinator reads."""

from typing import Final

from wholeball.kernel.lines import Loc
from wholeball.kernel.refusals import Schema
from wholeball.rulebook.book import Rulebook, parts
from wholeball.rulebook.value import Value

HEAD_KEYS: Final = ("schema", "base", "name", "source")
_TABLES: Final = (*parts(Rulebook), "also")
_TAGS: Final = frozenset({"word", "number", "figure"})


def article_of(loc: Loc) -> str | None:
    """Return the path of the article that a key belongs to, or None where it is in none."""
    if loc[0] not in _TABLES:
        return None
    kind: type[Value] = Rulebook
    path: list[str] = []
    for name in loc:
        inner = parts(kind).get(str(name))
        if inner is None:
            break
        path.append(str(name))
        kind = inner
    return ".".join(path) or str(loc[0])


def loc_of(key: str) -> Loc:
    """Return where a dotted key stands, items counted from 0: "mercy.ladder.1"."""
    return tuple(int(name) if name.isdigit() else name for name in key.split("."))


def _cleaned(loc: Loc) -> Loc:
    """Drop the tags that the schema puts into a location for the branch of a union it took."""
    if loc[0] == "head":
        return ("schema",) if loc[1] == "schema_version" else loc[1:]
    kept: list[str | int] = []
    for index, name in enumerate(loc):
        is_branch = index >= 2 and loc[index - 2] == "criteria" and isinstance(name, str)
        if not is_branch and name not in _TAGS:
            kept.append(name)
    return tuple(kept)


SCHEMA_OF_RULEBOOK: Final = Schema(
    root=Rulebook,
    article_of=article_of,
    cleaned=_cleaned,
    top_keys=(*_TABLES, *HEAD_KEYS),
    crowded="One table holds one criterion.",
    often_meant={
        "head_to_head": "among_level or h2h_points",
        "goal_difference": "difference",
        "goals_for": "goals",
        "fair_play": "conduct",
        "coin_toss": "lots",
    },
)
