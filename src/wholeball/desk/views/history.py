"""Shows what was changed in a season, and takes a change back."""

from dataclasses import dataclass
from typing import Final

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.drafted import whose_timetable
from wholeball.files.timetable import FILE as TIMETABLE
from wholeball.kernel.faults import WholeballError
from wholeball.store.changes import rows_told
from wholeball.store.drafts import draft_of, keep_step
from wholeball.store.mail import word_said_at
from wholeball.store.models import Change
from wholeball.store.queries.history import change_of, latest_changes
from wholeball.usecases.kept_changes import is_of_a_word, why_kept
from wholeball.usecases.move_game import published_timetable
from wholeball.usecases.take_back import take_back, text_before

MOST: Final = 25


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeShown:
    """A change, what was written in words, and why it stays, where it does."""

    change: Change
    rows: str
    stays: str


@require_safe
@at_desk(COORDINATORS)
def history(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List changes, newest first and so many on a page, each with a button that takes it back."""
    number = given.whole(given.asked(request, "page")["page"] or "1", what="page")
    first = (number - 1) * MOST
    found = latest_changes(desk.season, most=MOST + 1, after=first) if number else []
    if not found and number != 1:
        raise Http404
    return page(
        request,
        desk,
        "history",
        changes=[_shown(one) for one in found[:MOST]],
        first=first + 1,
        newer=number - 1,
        older=number + 1 if len(found) > MOST else None,
    )


def _shown(change: Change) -> ChangeShown:
    stays = "What it was is no longer kept." if change.is_forgotten else why_kept(change)
    return ChangeShown(change=change, rows=rows_told(change), stays=stays)


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
    if is_of_a_word(change):
        return _to_the_word(request, desk, change)
    try:
        says = take_back(desk.write(), change)
    except WholeballError as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, f"Taken back: {says}")
    return redirect("desk:history", *desk.where)


def _to_the_word(request: HttpRequest, desk: Desk, change: Change) -> HttpResponse:
    """Lead to where a word on a night is taken back, with the correction and all it closed."""
    messages.warning(
        request,
        "Nothing was taken back. A word on a night is taken back here, with what it closed, so"
        " that everybody who was told reads a correction.",
    )
    said = word_said_at(desk.season, change.at)
    if said is None:
        return redirect("desk:messages", *desk.where)
    return redirect("desk:message", *desk.where, said.pk)


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
