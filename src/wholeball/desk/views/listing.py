"""Lists officials by the names that a form gives, one a line."""

from typing import Final

from wholeball.desk.views.access import Desk
from wholeball.kernel.faults import WholeballError
from wholeball.rulebook.sentence import counted
from wholeball.usecases.set_crews import add_officials

MOST_NAMES: Final = 200


def list_officials(desk: Desk, told: str) -> str:
    """List the names of a text, and say what came of it.

    Raises:
        InputFaults: a name that cannot be one; nothing was written.
        WholeballError: there is no name, or there are too many.
    """
    names = [one.strip() for one in told.splitlines() if one.strip()]
    if not 1 <= len(names) <= MOST_NAMES:
        raise WholeballError(
            f"{counted(len(names), 'name')} were given.",
            fix=f"Write 1 to {MOST_NAMES}, one a line.",
            code="limits",
        )
    return f"{counted(add_officials(desk.write(), names), 'official')} listed."
