"""Changes values of one article in rulebook.toml and leaves all else as it stands."""

from collections.abc import Mapping, MutableMapping
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from wholeball.kernel.faults import WholeballError
from wholeball.rulebook.book import Path


def with_values(data: bytes, path: Path, new: Mapping[str, Any]) -> bytes:
    """Return a rulebook with some values of an article set; comments and order stay.

    Raises:
        WholeballError: the file does not let this article be written by itself.
    """
    try:
        document = tomlkit.parse(data.decode())
        table: MutableMapping[str, Any] = document
        for name in path.split("."):
            if name not in table:
                table[name] = tomlkit.table()
            table = table[name]
        for key, value in new.items():
            table[key] = _item(value)
        return tomlkit.dumps(document).encode()
    except (TOMLKitError, TypeError, AttributeError) as error:
        raise WholeballError(
            f"{path} cannot be changed by itself in rulebook.toml.",
            fix="Change it in the file, and import the season again.",
            code="syntax",
        ) from error


def _item(value: Any) -> Any:
    """Return a value as it is written: a list of records on one line, as the presets have it."""
    if not isinstance(value, list):
        return value
    items = tomlkit.array()
    for one in value:
        if isinstance(one, dict):
            record = tomlkit.inline_table()
            record.update(one)
            items.append(record)
        else:
            items.append(one)
    return items
