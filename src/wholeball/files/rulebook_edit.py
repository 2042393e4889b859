"""Changes values of one article in rulebook.toml and leaves all else as it stands."""

from collections.abc import Mapping, MutableMapping
from typing import Any

import tomlkit
from tomlkit.toml_document import TOMLDocument

from wholeball.files.rulebook_file import FILE
from wholeball.files.toml_edit import edited
from wholeball.rulebook.book import Path


def with_values(data: bytes, path: Path, new: Mapping[str, Any]) -> bytes:
    """Return a rulebook with some values of an article set; comments and order stay.

    Raises:
        WholeballError: the file does not let this article be written without the rest.
    """

    def change(document: TOMLDocument) -> None:
        table: MutableMapping[str, Any] = document
        for name in path.split("."):
            if name not in table:
                table[name] = tomlkit.table()
            table = table[name]
        for key, value in new.items():
            table[key] = _item(value)

    return edited(data, change, what=path, file=FILE)


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
