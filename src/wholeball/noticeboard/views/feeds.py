"""Answers a calendar that asks for its feed; nothing but its token lets it in."""

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from wholeball.usecases.serve_feed import serve_feed

NO_FEED = "There is no such feed, or it was closed."


@require_safe
@never_cache
def feed_file(request: HttpRequest, token: str) -> HttpResponse:
    """Return the calendar behind a token; what is unknown and what was closed are both 404."""
    del request
    made = serve_feed(token)
    if made is None:
        raise Http404(NO_FEED)
    response = HttpResponse(made, content_type="text/calendar; charset=utf-8")
    response.headers["Content-Disposition"] = 'inline; filename="games.ics"'
    return response
