"""Shows the divisions and teams of a season."""

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.usecases.show_season import show_season


@require_safe
@at_desk(COORDINATORS)
def season(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show who plays."""
    given.asked(request)
    return page(request, desk, "season", season=show_season(desk.read()))
