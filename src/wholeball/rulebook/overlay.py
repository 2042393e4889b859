"""Lays the articles of one rulebook over those of the edition it stands on."""

from collections.abc import Mapping
from typing import Any

from wholeball.kernel.toml import frozen
from wholeball.rulebook.book import parts
from wholeball.rulebook.value import ABOUT, Article, Value


def overlay(
    kind: type[Value],
    under: dict[str, Any],
    over: dict[str, Any],
    *,
    source: str,
    path: str = "",
) -> dict[str, Any]:
    """Return `under` with what `over` says in its place; neither is changed.

    Tables and inline tables are laid over key by key, lists are replaced. An article of which
    a value is replaced speaks for itself: it keeps nothing that the edition said about it, and
    names `source` where it names none.
    """
    tables = parts(kind)
    laid = dict(under)
    if issubclass(kind, Article) and any(_is_value(name, tables) for name in over):
        laid = _silent(kind, under, path, source)
    for name, value in over.items():
        below = laid.get(name)
        if name in tables and isinstance(value, dict):
            laid[name] = overlay(
                tables[name], below or {}, value, source=source, path=f"{path}{name}."
            )
        elif isinstance(value, dict) and isinstance(below, dict):
            laid[name] = {**below, **frozen(value)}
        else:
            laid[name] = frozen(value)
    return laid


def amend(kind: type[Value], under: dict[str, Any], over: dict[str, Any]) -> dict[str, Any]:
    """Return an edition with a later one's changes, keeping the references it does not restate."""
    tables = parts(kind)
    changed = any(name not in tables for name in over)
    laid = {name: value for name, value in under.items() if not changed or name not in PASSING}
    for name, value in over.items():
        if name in tables and isinstance(value, dict):
            laid[name] = amend(tables[name], laid.get(name, {}), value)
        else:
            laid[name] = frozen(value)
    return laid


PASSING = ("why", "note", "confirm")
"""What an edition says about an article's old value, and not about its new one."""


def _is_value(name: str, tables: Mapping[str, type[Article]]) -> bool:
    return name not in tables and name not in ABOUT


def _silent(
    kind: type[Article], under: dict[str, Any], path: str, source: str
) -> dict[str, Any]:
    kept = {name: value for name, value in under.items() if name not in ABOUT}
    return kept | {"ref": path.rstrip("."), "kind": kind.own_kind, "source": source}
