"""Shows the seasons that anybody may read."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from wholeball.usecases.public_season import public_seasons


@require_safe
def home(request: HttpRequest) -> HttpResponse:
    """Return the list of public seasons."""
    return render(request, "noticeboard/home.html", {"seasons": public_seasons()})
