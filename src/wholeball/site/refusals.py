"""Answers for pages that could not be made: no room, facts that do not fit, a form's address read."""

from collections.abc import Callable
from http import HTTPStatus
from typing import Final

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template.loader import render_to_string

from wholeball.kernel.faults import WholeballError
from wholeball.store.full_disk import CODE as FULL
from wholeball.store.full_disk import is_full, no_room

COME_AGAIN: Final = "600"
"""Seconds after which facts may have been mended."""


class Refusals:
    """Answers what no room of the site has answered itself; a fault of the program stays one."""

    def __init__(self, answer: Callable[[HttpRequest], HttpResponse]) -> None:
        """Take what answers a request."""
        self.answer = answer

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Answer the request."""
        return self.answer(request)

    def process_exception(self, request: HttpRequest, failed: Exception) -> HttpResponse | None:
        """Answer for a page that was refused."""
        if is_full(failed) or (isinstance(failed, WholeballError) and failed.code == FULL):
            return _no_room(request)
        return _broken(request) if isinstance(failed, WholeballError) else None


def not_this_way(
    answer: Callable[[HttpRequest], HttpResponse],
) -> Callable[[HttpRequest], HttpResponse]:
    """Return what answers a request, with a page where an address takes forms only, or none.

    Whoever reads the address of a form again, once it came back with a fault, would else see
    nothing at all.
    """

    def answered(request: HttpRequest) -> HttpResponse:
        given = answer(request)
        if given.status_code == HTTPStatus.METHOD_NOT_ALLOWED and not given.content:
            given.content = render_to_string("405.html", request=request)
        return given

    return answered


def _no_room(request: HttpRequest) -> HttpResponse:
    """Return a page that needs no database: nothing of the session is asked for."""
    status = HTTPStatus.INSUFFICIENT_STORAGE
    return render(request, "507.html", {"refused": no_room()}, status=status)


def _broken(request: HttpRequest) -> HttpResponse:
    """Return a page that says nothing of the facts: what does not fit may be private."""
    answer = render(request, "site/broken.html", status=HTTPStatus.SERVICE_UNAVAILABLE)
    answer.headers["Retry-After"] = COME_AGAIN
    answer.headers["Cache-Control"] = "no-store"
    return answer
