"""Shows the days off of a season, and keeps days free or opens them again."""

from http import HTTPStatus

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST

from wholeball.desk.forms.times import DayOffForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.refusals import refusals_on
from wholeball.usecases.set_days_off import add_days_off, drop_day_off
from wholeball.usecases.set_days_off import days_off as listed


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def days_off(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List the days off, and take another."""
    if request.method != "POST":
        given.asked(request)
        return _page(request, desk, DayOffForm(), HTTPStatus.OK)
    form = DayOffForm(given.posted(request, ("day", "until", "why")))
    if form.is_valid():
        told = form.cleaned_data
        with refusals_on(form):
            add_days_off(desk.write(), first=told["day"], last=told["until"], why=told["why"])
            messages.success(request, "Nothing is planned there from now on.")
            return redirect("desk:days_off", *desk.where)
    return _page(request, desk, form, HTTPStatus.UNPROCESSABLE_ENTITY)


@require_POST
@at_desk(COORDINATORS)
def drop(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Open days again."""
    told = given.posted(request, ("row", given.VERSION))
    drop_day_off(desk.write(given.version(told)), given.whole(told["row"], what="row"))
    messages.success(request, "It is open again. To undo it: Season, Changes.")
    return redirect("desk:days_off", *desk.where)


def _page(
    request: HttpRequest, desk: Desk, form: DayOffForm, status: HTTPStatus
) -> HttpResponse:
    rows = listed(desk.read())
    return page(request, desk, "days_off", status=status, form=form, rows=rows)
