"""Answers a calendar that asks for its feed; nothing but its token lets it in."""

from http import HTTPStatus
from typing import Final

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from wholeball.kernel.faults import WholeballError
from wholeball.usecases.serve_feed import serve_feed

NO_FEED: Final = "There is no such feed, or it was closed."
NOT_NOW: Final = (
    "The facts of this season do not fit together at the moment, so there is no calendar to "
    "give. Your calendar keeps what it has. The coordinator sees at the desk what does not fit.\n"
)
COME_AGAIN: Final = "600"
"""Seconds after which the facts may have been mended."""


@require_safe
@never_cache
def feed_file(request: HttpRequest, token: str) -> HttpResponse:
    """Return the calendar behind a token; what is unknown and what was closed are both 404."""
    del request
    try:
        made = serve_feed(token)
    except WholeballError:
        return _not_now()
    if made is None:
        raise Http404(NO_FEED)
    response = HttpResponse(made, content_type="text/calendar; charset=utf-8")
    response.headers["Content-Disposition"] = 'inline; filename="games.ics"'
    return response


def _not_now() -> HttpResponse:
    """Return why there is no calendar, never a part of one: what it lacks would look cancelled."""
    return HttpResponse(
        NOT_NOW,
        status=HTTPStatus.SERVICE_UNAVAILABLE,
        content_type="text/plain; charset=utf-8",
        headers={"Retry-After": COME_AGAIN},
    )
