"""Takes a list that was sent, and carries it through the page between the look and the import."""

import base64
import binascii
from typing import Final

from django.core import signing
from django.core.exceptions import BadRequest
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest

from wholeball.desk.views import given
from wholeball.desk.views.access import Desk
from wholeball.desk.views.refusals import faults_of
from wholeball.files.given_list import MOST, GivenList
from wholeball.kernel.faults import WholeballError

MOST_HELD: Final = 1_500_000
"""Bytes of a list that go through the page."""
MOST_TOLD: Final = 100
"""Faults of a list that are told."""
_SALT: Final = "roster"
_HOURS: Final = 2 * 3600


def told_of(refused: WholeballError) -> dict[str, object]:
    """Return what a page says of a list that was refused; nothing of it was taken."""
    faults = faults_of(refused)
    return {
        "refused": refused,
        "faults": faults[:MOST_TOLD],
        "more": max(len(faults) - MOST_TOLD, 0),
    }


def sent_list(request: HttpRequest) -> GivenList:
    """Return the list of a form; its size is judged before it is read.

    Raises:
        WholeballError: none was sent, or one that is too large.
    """
    given.posted(request, ("list",))
    sent = request.FILES.get("list")
    if not isinstance(sent, UploadedFile) or not sent.size:
        raise WholeballError(
            "No list was sent.",
            fix="Choose a CSV file or an .xlsx workbook.",
            code="missing_file",
        )
    if sent.size > min(MOST, MOST_HELD):
        raise WholeballError(
            f"The list has {sent.size:,} bytes.",
            fix=f"Send at most {MOST_HELD:,}.",
            code="limits",
        )
    return GivenList((sent.name or "list")[:80], sent.read())


def held(desk: Desk, team: str, listed: GivenList) -> str:
    """Return a list as the page carries it, so that nobody can send another in its place.

    `team` is whose roster it is for, or nothing where it is for all of them.
    """
    data = base64.b64encode(listed.data).decode("ascii")
    kept = {"name": listed.name, "data": data, "team": team, "version": desk.season.version}
    return signing.dumps(
        {**kept, "season": desk.season.pk, "by": desk.account.pk}, salt=_SALT, compress=True
    )


def given_back(desk: Desk, team: str, carried: str) -> tuple[GivenList, int]:
    """Return a list that a page carried, and the version of the season that it was held against.

    Raises:
        WholeballError: it is too old, or not as it was sent.
        BadRequest: it was for another team, season or person.
    """
    try:
        kept = signing.loads(carried, salt=_SALT, max_age=_HOURS)
        data = base64.b64decode(kept["data"])
    except (signing.BadSignature, binascii.Error) as error:
        raise WholeballError(
            "The list that was looked at is not there any more.",
            fix="Nothing was added. Send the list again.",
            code="expired",
        ) from error
    if (kept["season"], kept["team"], kept["by"]) != (desk.season.pk, team, desk.account.pk):
        raise BadRequest("The list was looked at for another team.")
    return GivenList(kept["name"], data), int(kept["version"])
