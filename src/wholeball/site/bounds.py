"""Refuses what is sent to the site before it is read: what is too large, packed, or no address."""

from collections.abc import Callable
from http import HTTPStatus
from typing import Final

from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

MOST_BYTES: Final = 50_000_000
"""A season folder as a zip file is far smaller."""
PLAIN: Final = frozenset({"", "identity"})


def bounded(
    answer: Callable[[HttpRequest], HttpResponse],
) -> Callable[[HttpRequest], HttpResponse]:
    """Return what answers a request, or refuses it by its head alone.

    Nothing is ever unpacked, so that a small body cannot become a large one. An address with a
    NUL names nothing, and no cookie of ours has one: PostgreSQL cannot even be asked for it.
    """

    def answered(request: HttpRequest) -> HttpResponse:
        if _length(request) > MOST_BYTES or _packing(request) not in PLAIN:
            most = {"megabytes": MOST_BYTES // 1_000_000}
            status = HTTPStatus.REQUEST_ENTITY_TOO_LARGE
            return render(request, "413.html", most, status=status)
        if "\0" in request.path or "%00" in request.META.get("QUERY_STRING", ""):
            raise Http404
        if any("\0" in value for value in request.COOKIES.values()):
            message = "A cookie has a NUL."
            raise BadRequest(message)
        return answer(request)

    return answered


def _length(request: HttpRequest) -> int:
    """Return how many bytes the head promises; what is no number promises too many."""
    told = request.META.get("CONTENT_LENGTH") or "0"
    return int(told) if told.isascii() and told.isdecimal() else MOST_BYTES + 1


def _packing(request: HttpRequest) -> str:
    return request.headers.get("Content-Encoding", "").strip().lower()
