"""Shows what was changed in a season, and takes a change back."""

from typing import Final

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.drafted import whose_timetable
from wholeball.files.notices import FILE as NOTICES
from wholeball.files.timetable import FILE as TIMETABLE
from wholeball.kernel.faults import WholeballError
from wholeball.store.changes import rows_told
from wholeball.store.drafts import draft_of, keep_step
from wholeball.store.models import Change
from wholeball.store.queries.history import change_of, latest_changes
from wholeball.usecases.move_game import published_timetable
from wholeball.usecases.take_back import names_site_alone, take_back, text_before

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
    if change.name == TIMETABLE:
        return _as_draft(request, desk, change)
    if change.name == NOTICES and not names_site_alone(change):
        messages.warning(
            request,
            "Nothing was taken back. A word on a night is taken back here, so that everybody who"
            " was told reads a correction.",
        )
        return redirect("desk:messages", *desk.where)
    try:
        says = take_back(desk.write(), change)
    except WholeballError as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, f"Taken back: {says}")
    return redirect("desk:history", *desk.where)


def _as_draft(request: HttpRequest, desk: Desk, change: Change) -> HttpResponse:
    """Take a timetable back as a draft: whoever it concerns is shown, and told, on publishing."""
    whose = whose_timetable(desk)
    draft = draft_of(whose)
    record = desk.read()
    try:
        keep_step(
            whose,
            text_before(record, change).decode(),
            base=published_timetable(record).decode(),
            step=0 if draft is None else draft.step,
            why="a timetable taken back",
        )
    except WholeballError as refused:
        messages.error(request, str(refused))
        return redirect("desk:history", *desk.where)
    messages.warning(
        request,
        "It is taken back in your draft, and not yet for anybody else. See who is told, and"
        " publish it.",
    )
    return redirect("desk:publish", *desk.where)
