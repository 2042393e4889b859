"""Reads a cell that holds a person's code, and bars student ids from the folder."""

import re
from typing import Final

from wholeball.files.cells import Refused

NO_IDS: Final = "student ids do not belong in the folder"
BARRED: Final = dict.fromkeys(
    ("student_id", "student id", "studentid", "student_number", "id", "id_number"), NO_IDS
)
"""Columns that people bring from a sign-up list and that nobody at the field may see."""

LONGEST_CODE: Final = 170
"""Room for a digest, and for a team and a name of it where the person has no code."""
_ID: Final = re.compile(r"[0-9]{5,}")
_ID_END: Final = re.compile(r"[0-9]{3}")


def person_code(cell: str) -> str:
    """Return a person's code on one line; five or more plain digits are taken for a student id."""
    allowed = "a code that is no student id"
    if _ID.fullmatch(re.sub(r"[\s.-]", "", cell)):
        cure = "Import the roster, which makes a code of it, or give a code of your own."
        raise Refused(code="private", allowed=allowed, cure=cure)
    if "\n" in cell or "\t" in cell:
        raise Refused(code="control_char", allowed="one line", cure="Write it on one line.")
    if len(cell) > LONGEST_CODE:
        allowed = f"at most {LONGEST_CODE} characters"
        raise Refused(code="limits", allowed=allowed, cure=f"Shorten it: {allowed}.")
    return cell


def id_end(cell: str) -> str:
    """Return the last three digits of a student id; more of them are refused."""
    if _ID_END.fullmatch(cell) is None:
        allowed = "three digits"
        is_more = _ID.search(cell) is not None
        cure = "Keep the last three digits only, with the noughts at their start."
        raise Refused(code="private" if is_more else "type", allowed=allowed, cure=cure)
    return cell
