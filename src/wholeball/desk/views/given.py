"""Reads what a browser sends: known fields only, each once, as plain text."""

import re
from collections.abc import Collection, Mapping
from datetime import date
from typing import Final

from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest

from wholeball.kernel.faults import WholeballError
from wholeball.usecases.print_booklet import Paper

TOKEN: Final = "csrfmiddlewaretoken"  # noqa: S105 - the name of a field, no secret
VERSION: Final = "version"
"""The field that says which version of the season a form was made from."""
_WHOLE: Final = re.compile(r"[0-9]{1,9}", re.ASCII)
_FORMS: Final = ("application/x-www-form-urlencoded", "multipart/form-data")


def posted(
    request: HttpRequest, known: Collection[str], *, several: Collection[str] = ()
) -> dict[str, str]:
    """Return the fields of a form; those that it lacks are empty.

    Those of which there may be `several` are left out: `posted_lists` has them.

    Raises:
        BadRequest: it is no form, or has a field twice, one that is not asked for, or one with
            what is no text.
    """
    if request.content_type not in _FORMS:
        raise BadRequest("A form is wanted.")
    unknown = sorted({*request.POST, *request.FILES} - {*known, *several, TOKEN})
    if unknown:
        raise BadRequest(f"The form has no field {unknown[0][:40]!a}.")
    for name, values in request.POST.lists():
        if len(values) > 1 and name not in several:
            raise BadRequest(f"{name} is given twice.")
        for value in values:
            _refuse_no_text(name, str(value))
    return {name: str(request.POST.get(name, "")) for name in known if name != TOKEN}


def posted_lists(
    request: HttpRequest, known: Collection[str], *, several: Collection[str]
) -> dict[str, str | list[str]]:
    """Return the fields of a form, and as lists those of which several can be ticked.

    Raises:
        BadRequest: as `posted` says.
    """
    told = posted(request, known, several=several)
    ticked = {name: [*map(str, request.POST.getlist(name))] for name in several}
    return {**told, **ticked}


def asked(request: HttpRequest, *known: str) -> dict[str, str]:
    """Return what stands behind the ? of an address; what it lacks is empty.

    Raises:
        BadRequest: it has a key that the page does not know, or one twice.
    """
    unknown = sorted({*request.GET} - {*known})
    if unknown:
        raise BadRequest(f"This page knows no {unknown[0][:40]!a}.")
    for name, values in request.GET.lists():
        if len(values) > 1:
            raise BadRequest(f"{name} is given twice.")
    return {name: str(request.GET.get(name, "")) for name in known}


def whole(text: str, *, what: str) -> int:
    """Return a whole number of at most nine digits.

    Raises:
        BadRequest: it is none.
    """
    if _WHOLE.fullmatch(text) is None:
        raise BadRequest(f"{what} is {text[:20]!a}; a whole number is wanted.")
    return int(text)


def version(told: Mapping[str, str]) -> int:
    """Return the version of the season that a form was made from.

    Raises:
        BadRequest: it is no whole number.
    """
    return whole(told[VERSION], what=VERSION)


def version_after(refused: WholeballError, seen: int, *, now: int) -> int:
    """Return the version that a form is sent again with, once something was refused.

    Who was told what others changed has looked at that, and sends the form on top of it.
    """
    return now if refused.code == "conflict" else seen


def day(text: str) -> date:
    """Return a day of an address.

    Raises:
        Http404: there is no such day.
    """
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise Http404 from error


def paper(text: str) -> Paper | None:
    """Return the paper to print on; nothing where none is named.

    Raises:
        BadRequest: it is another.
    """
    found = next((one for one in Paper if one.value == text), None)
    if text and found is None:
        raise BadRequest(f"Paper is {text[:20]!a}; a4 or us-letter is wanted.")
    return found


def _refuse_no_text(name: str, value: str) -> None:
    if "\x00" in value or "\ufffd" in value:
        raise BadRequest(f"{name} has bytes that are no text.")
