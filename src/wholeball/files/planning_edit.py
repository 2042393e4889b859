"""Changes how much each team plays in planning.toml, and leaves all else as it stands."""

import tomlkit
from tomlkit.exceptions import TOMLKitError

from wholeball.files.planning_toml import SCHEMA
from wholeball.kernel.faults import WholeballError

_NEW = f"schema = {SCHEMA}\n".encode()


def with_amount(data: bytes, *, games_each: int | None, meetings: int) -> bytes:
    """Return planning.toml with so many games each, or with so many meetings of all of a pool.

    Raises:
        WholeballError: the file does not let these keys be written by themselves.
    """
    try:
        document = tomlkit.parse((data or _NEW).decode())
        if games_each is None:
            document.pop("games_each", None)
            document["meetings"] = meetings
        else:
            document.pop("meetings", None)
            document["games_each"] = games_each
        return tomlkit.dumps(document).encode()
    except (TOMLKitError, TypeError, AttributeError) as error:
        raise WholeballError(
            "How much each team plays cannot be changed by itself in planning.toml.",
            fix="Change it in the file, and import the season again.",
            code="syntax",
        ) from error
