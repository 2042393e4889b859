"""Shows the situations that this season rules otherwise than the Laws it stands on."""

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from wholeball.reports.safety import LOCAL_FIRST
from wholeball.study.views import given
from wholeball.study.views.access import Study, in_study, page
from wholeball.usecases.show_rulings import different_here


@require_safe
@in_study
def different(request: HttpRequest, study: Study) -> HttpResponse:
    """Show one part of them."""
    number = given.part(given.asked(request, "part").get("part", "1"))
    book = study.book()
    found = different_here(book, number=number)
    if found is None:
        raise Http404
    return page(request, study, "different", book=book, found=found, local_first=LOCAL_FIRST)
