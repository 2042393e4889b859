"""Shows what sportsmanship ratings come to, and what they can tell; for the coordinator alone."""

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.usecases.tell_ratings import tell_ratings


@require_safe
@at_desk(COORDINATORS)
def ratings(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show averages, ratings to look at, and estimates with their intervals."""
    given.asked(request)
    desk.saw("ratings")
    return page(request, desk, "ratings", told=tell_ratings(desk.read()))
