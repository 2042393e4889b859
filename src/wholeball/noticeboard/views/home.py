"""Shows the seasons that anybody may read, and to who is signed in those that they have a part in."""

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.cache import patch_cache_control
from django.views.decorators.http import require_safe

from wholeball.usecases.own_season import own_seasons
from wholeball.usecases.public_season import public_seasons


@require_safe
def home(request: HttpRequest) -> HttpResponse:
    """Return the list of public seasons, after those of the reader."""
    is_known = settings.SESSION_COOKIE_NAME in request.COOKIES
    mine = own_seasons(request.user) if is_known else []
    own = {one.pk for one in mine}
    others = [one for one in public_seasons() if one.pk not in own]
    response = render(request, "noticeboard/home.html", {"mine": mine, "seasons": others})
    if mine:
        patch_cache_control(response, private=True, no_cache=True)
    return response
