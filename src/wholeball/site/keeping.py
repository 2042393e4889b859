"""Tells browsers and what stands between to keep no page that is another for every reader."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.utils.cache import add_never_cache_headers, has_vary_header


def kept_by_nobody(
    answer: Callable[[HttpRequest], HttpResponse],
) -> Callable[[HttpRequest], HttpResponse]:
    """Return what answers a request, and says so where a page does not say who may keep it.

    Whoever comes to a lent or shared machine next then finds no page of an account by going
    back, also none of the library that signs people in.
    """

    def answered(request: HttpRequest) -> HttpResponse:
        response = answer(request)
        if "Cache-Control" not in response.headers and has_vary_header(response, "Cookie"):
            add_never_cache_headers(response)
        return response

    return answered
