"""Changes name, days and lots in season.toml, and leaves all else as it stands."""

from collections.abc import Sequence
from datetime import date

import tomlkit
from tomlkit.toml_document import TOMLDocument

from wholeball.files.season_toml import FILE
from wholeball.files.toml_edit import edited


def with_name(data: bytes, name: str) -> bytes:
    """Return season.toml with another name.

    Raises:
        WholeballError: the file does not let it be written without the rest.
    """

    def change(document: TOMLDocument) -> None:
        document["name"] = name

    return edited(data, change, what="The name", file=FILE)


def with_days(data: bytes, *, first: date, last: date) -> bytes:
    """Return season.toml with other days.

    Raises:
        WholeballError: the file does not let these keys be written without the rest.
    """

    def change(document: TOMLDocument) -> None:
        document.update({"first_day": first, "last_day": last})

    return edited(data, change, what="The first and the last day", file=FILE)


def with_lots(data: bytes, *, label: str, order: Sequence[str]) -> bytes:
    """Return season.toml with the order of one more draw of lots, after those that are there.

    Raises:
        WholeballError: the file does not let them be written without the rest.
    """

    def change(document: TOMLDocument) -> None:
        one = tomlkit.table()
        one.update({"label": label, "order": list(order)})
        document.setdefault("lots", tomlkit.aot()).append(one)

    return edited(data, change, what="The lots", file=FILE)
