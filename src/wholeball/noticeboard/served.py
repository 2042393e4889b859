"""Answers with a page of a public season, or says that the reader has it already."""

from collections.abc import Callable

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from django.templatetags.static import static
from django.urls import reverse
from django.utils import timezone
from django.utils.cache import get_conditional_response

from wholeball.store.models import Season
from wholeball.usecases.kept_pages import Asked, kept_as, kept_page
from wholeball.usecases.public_season import Found, season_at
from wholeball.usecases.show_noticeboard import Around, Board, NoSuchPage


def served(
    request: HttpRequest,
    at: tuple[str, str],
    name: str,
    make: Callable[[Board], str],
    *,
    is_of_today: bool = False,
) -> HttpResponse:
    """Return a page of the season at an address, or 304 where its tag is the reader's."""
    found = _found(request, at)
    asked = Asked(
        season=found.season,
        name=name,
        make=make,
        around=_around(at),
        now=timezone.now(),
        is_of_today=is_of_today,
    )
    try:
        kept = kept_as(asked)
        response = get_conditional_response(request, etag=kept.etag)
        if response is None:
            response = HttpResponse(kept_page(asked, kept))
    except NoSuchPage as error:
        raise Http404(error.says) from error
    response.headers["ETag"] = kept.etag
    response.headers["Cache-Control"] = (
        f"{'public' if found.is_public else 'private'}, no-cache"
    )
    return response


def file_served(
    request: HttpRequest, at: tuple[str, str], name: str, make: Callable[[Season], bytes]
) -> HttpResponse:
    """Return a text of the season at an address, to be saved under its name."""
    try:
        text = make(_found(request, at).season)
    except NoSuchPage as error:
        raise Http404(error.says) from error
    response = HttpResponse(text, content_type="text/plain; charset=utf-8")
    response.headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return response


def _found(request: HttpRequest, at: tuple[str, str]) -> Found:
    """Return the season; who reads a public one is not asked for, which saves two queries."""
    is_known = settings.SESSION_COOKIE_NAME in request.COOKIES
    return season_at(*at, account=lambda: request.user if is_known else None)


def _around(at: tuple[str, str]) -> Around:
    return Around(
        root=reverse("noticeboard:front", args=at),
        styles=(static("pages/wholeball.css"), static("site/site.css")),
        own=reverse("noticeboard:own"),
    )
