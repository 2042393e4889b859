"""Changes days and lots in season.toml, and leaves all else as it stands."""

from collections.abc import Sequence
from datetime import date

import tomlkit
from tomlkit.exceptions import TOMLKitError

from wholeball.kernel.faults import WholeballError


def with_days(data: bytes, *, first: date, last: date) -> bytes:
    """Return season.toml with other days.

    Raises:
        WholeballError: the file does not let these keys be written by themselves.
    """
    try:
        document = tomlkit.parse(data.decode())
        document["first_day"] = first
        document["last_day"] = last
        return tomlkit.dumps(document).encode()
    except (TOMLKitError, TypeError, AttributeError) as error:
        raise WholeballError(
            "The days of the season cannot be changed by themselves in season.toml.",
            fix="Change them in the file, and import the season again.",
            code="syntax",
        ) from error


def with_lots(data: bytes, *, label: str, order: Sequence[str]) -> bytes:
    """Return season.toml with the order of one more draw of lots, after those that are there.

    Raises:
        WholeballError: the file does not let them be written by themselves.
    """
    try:
        document = tomlkit.parse(data.decode())
        lots = document.setdefault("lots", tomlkit.aot())
        one = tomlkit.table()
        one["label"], one["order"] = label, list(order)
        lots.append(one)
        return tomlkit.dumps(document).encode()
    except (TOMLKitError, TypeError, AttributeError) as error:
        raise WholeballError(
            "The lots of the season cannot be changed by themselves in season.toml.",
            fix="Write them as [[lots]] tables in the file, and import the season again.",
            code="syntax",
        ) from error
