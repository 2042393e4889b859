"""Changes how much each team plays in planning.toml, and leaves all else as it stands."""

from typing import Final

from tomlkit.toml_document import TOMLDocument

from wholeball.files.planning_toml import FILE, SCHEMA
from wholeball.files.toml_edit import edited

_NEW: Final = f"schema = {SCHEMA}\n".encode()


def with_amount(data: bytes, *, games_each: int | None, meetings: int) -> bytes:
    """Return planning.toml with so many games each, or with so many meetings of all of a pool.

    Raises:
        WholeballError: the file does not let these keys be written without the rest.
    """
    gone, key, value = (
        ("games_each", "meetings", meetings)
        if games_each is None
        else ("meetings", "games_each", games_each)
    )

    def change(document: TOMLDocument) -> None:
        document.pop(gone, None)
        document[key] = value

    return edited(data or _NEW, change, what="How much each team plays", file=FILE)
