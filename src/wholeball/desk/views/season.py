"""Shows the divisions and teams of a season, and opens its noticeboard."""

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.store.opening import open_to_all
from wholeball.usecases.show_season import show_season


@require_safe
@at_desk(COORDINATORS)
def season(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show who plays."""
    given.asked(request)
    return page(request, desk, "season", season=show_season(desk.read()))


@require_POST
@at_desk(COORDINATORS)
def noticeboard(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Open the noticeboard to everybody, or close it again."""
    public = given.posted(request, ("public",))["public"]
    if public not in ("yes", "no"):
        raise BadRequest(f"public is {public[:20]!a}; yes or no is wanted.")
    open_to_all(desk.season, public == "yes", by=desk.account, at=desk.at)
    messages.success(
        request,
        "The noticeboard is open: everybody may read it."
        if public == "yes"
        else "The noticeboard is closed: people of the season alone may read it.",
    )
    return redirect("desk:season", *desk.where)
