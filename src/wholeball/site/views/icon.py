"""Leads a browser that asks for an icon of its own accord to that of the site."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.templatetags.static import static
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_safe


@require_safe
@cache_control(public=True, max_age=86_400)
def icon(request: HttpRequest) -> HttpResponse:
    """Return where the icon is."""
    del request
    return redirect(static("site/icon.svg"))
