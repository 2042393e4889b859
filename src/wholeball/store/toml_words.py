"""Says a line of a TOML file as people would: "ladder: lead 10, minutes left 12"."""

import tomllib
from typing import Any


def in_words(line: str) -> str:
    """Return what a line says of its key; one that is no whole line of that kind stays as it is."""
    try:
        found = tomllib.loads(line)
    except tomllib.TOMLDecodeError:
        return line
    if not found or line.startswith("["):
        return line
    return "; ".join(f"{_name(key)}: {_said(value)}" for key, value in found.items())


def _name(key: str) -> str:
    return key.replace("_", " ")


def _said(value: Any) -> str:
    match value:
        case bool():
            return "yes" if value else "no"
        case dict():
            return ", ".join(f"{_name(key)} {_said(one)}" for key, one in value.items())
        case list():
            parts = " / " if any(isinstance(one, dict) for one in value) else ", "
            return parts.join(map(_said, value)) or "none"
        case str():
            return value or "nothing"
        case _:
            return f"{value}"
