"""Shows what was changed in a season, and takes a change back."""

from typing import Final

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.kernel.faults import WholeballError
from wholeball.store.changes import rows_told
from wholeball.store.queries.history import change_of, latest_changes
from wholeball.usecases.take_back import take_back

MOST: Final = 25


@require_safe
@at_desk(COORDINATORS)
def history(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List the latest changes, each with a button that takes it back."""
    given.asked(request)
    changes = [(one, rows_told(one)) for one in latest_changes(desk.season, most=MOST)]
    return page(request, desk, "history", changes=changes, most=MOST)


@require_POST
@at_desk(COORDINATORS)
def undo(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Take a change back: all of it, or nothing."""
    number = given.whole(given.posted(request, ("change",))["change"], what="change")
    change = change_of(desk.season, number)
    if change is None:
        raise Http404
    try:
        says = take_back(desk.write(), change)
    except WholeballError as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, f"Taken back: {says}")
    return redirect("desk:history", *desk.where)
