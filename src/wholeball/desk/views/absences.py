"""Shows when teams cannot play, or would rather not, adds such times and takes them out."""

from http import HTTPStatus

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST

from wholeball.desk.forms.absences import FIELDS, AbsenceForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.refusals import refusals_on
from wholeball.usecases.set_absences import (
    AbsencesShown,
    add_absence,
    drop_absence,
    show_absences,
)


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def absences(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List who cannot play when, and add a time; `team` is the one that is asked about."""
    shown = show_absences(desk.read())
    if request.method != "POST":
        team = given.asked(request, "team")["team"]
        form = AbsenceForm(teams=shown.teams, initial={"team": team})
        return _page(request, desk, shown, form, HTTPStatus.OK)
    form = AbsenceForm(given.posted(request, FIELDS), teams=shown.teams)
    if form.is_valid():
        new = form.absence()
        with refusals_on(form):
            add_absence(desk.write(), new)
            messages.success(request, f"{new.team}: it counts from the next plan or repair on.")
            return redirect("desk:absences", *desk.where)
    return _page(request, desk, shown, form, HTTPStatus.UNPROCESSABLE_ENTITY)


@require_POST
@at_desk(COORDINATORS)
def drop(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Let a team play again when it could not."""
    told = given.posted(request, ("row", "last_row", given.VERSION))
    row, last = (given.whole(told[name], what=name) for name in ("row", "last_row"))
    drop_absence(desk.write(given.version(told)), row, last)
    messages.success(request, "The absence is taken out. To undo it: Season, Changes.")
    return redirect("desk:absences", *desk.where)


def _page(
    request: HttpRequest,
    desk: Desk,
    shown: AbsencesShown,
    form: AbsenceForm,
    status: HTTPStatus,
) -> HttpResponse:
    return page(request, desk, "absences", status=status, form=form, shown=shown)
