"""Shows when and where may be played and how much each team plays, and changes it."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from http import HTTPStatus
from types import MappingProxyType

from django.contrib import messages
from django.forms import Form
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.forms.times import AmountForm, DaysForm, TimeForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.refusals import put_on, refusals_on
from wholeball.files.slots import FILE
from wholeball.kernel.faults import WholeballError
from wholeball.rulebook.sentence import counted, listed
from wholeball.store.record import DatabaseRecord
from wholeball.usecases.set_times import add_times, drop_time, set_amount, set_days, show_times

_FIELDS = ("fields_named", "weekday", "opens", "closes", "minutes", "first", "last")
_COLUMNS = {
    "field": "fields_named",
    "weekday": "weekday",
    "from": "opens",
    "until": "closes",
    "minutes": "minutes",
    "first_date": "first",
    "last_date": "last",
}
"""The field for each column of slots.csv."""


@require_safe
@at_desk(COORDINATORS)
def times(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show the times of a season; `minutes` is what is asked of a time that is to be added."""
    minutes = given.asked(request, "minutes")["minutes"]
    first = {"minutes": given.whole(minutes, what="minutes")} if minutes else {}
    return _page(request, desk, first=first)


@require_POST
@at_desk(COORDINATORS)
def add(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Add a time on some fields."""
    form = TimeForm(given.posted(request, _FIELDS))
    if form.is_valid():
        new = form.time()
        with refusals_on(form, file=FILE, fields=_COLUMNS):
            add_times(desk.write(), new)
            messages.success(request, f"{listed(new.fields)}: the time is added.")
            return redirect("desk:times", *desk.where)
    return _page(request, desk, form=form)


@require_POST
@at_desk(COORDINATORS)
def drop(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Take a time out again."""
    told = given.posted(request, ("row", given.VERSION))
    drop_time(desk.write(given.version(told)), given.whole(told["row"], what="row"))
    messages.success(request, "The time is taken out. To undo it: Season, Changes.")
    return redirect("desk:times", *desk.where)


@require_POST
@at_desk(COORDINATORS)
def amount(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Set how much each team plays."""
    told = given.posted(request, ("kind", "many", given.VERSION))
    form = AmountForm(told)
    with _upon(desk, told, form) as record:
        if form.is_valid():
            set_amount(record, **form.amount())
            many = form.cleaned_data["many"]
            said = (
                counted(many, "game")
                if form.cleaned_data["kind"] == "games_each"
                else f"everybody else of its pool {counted(many, 'time')}"
            )
            messages.success(request, f"Each team plays {said}.")
            return redirect("desk:times", *desk.where)
    return _page(request, desk, amount=form)


@require_POST
@at_desk(COORDINATORS)
def days(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Set the first and the last day."""
    told = given.posted(request, ("first_day", "last_day", given.VERSION))
    form = DaysForm(told)
    with _upon(desk, told, form) as record:
        if form.is_valid():
            first, last = form.cleaned_data["first_day"], form.cleaned_data["last_day"]
            set_days(record, first=first, last=last)
            messages.success(request, "The days are kept. To undo it: Season, Changes.")
            return redirect("desk:times", *desk.where)
    return _page(request, desk, days=form)


@contextmanager
def _upon(desk: Desk, told: dict[str, str], form: Form) -> Iterator[DatabaseRecord]:
    """Write upon the version that a form was made from; where refused, the form says why.

    `told` is what the form holds: who is told what others changed sends it on top of that.
    """
    version = given.version(told)
    try:
        yield desk.write(version)
    except WholeballError as refused:
        put_on(form, refused)
        after = given.version_after(refused, version, now=desk.season.version)
        told[given.VERSION] = f"{after}"


def _page(
    request: HttpRequest,
    desk: Desk,
    *,
    form: TimeForm | None = None,
    amount: AmountForm | None = None,
    days: DaysForm | None = None,
    first: Mapping[str, int] = MappingProxyType({}),
) -> HttpResponse:
    shown = show_times(desk.read())
    is_refused = any(one is not None for one in (form, amount, days))
    return page(
        request,
        desk,
        "times",
        status=HTTPStatus.UNPROCESSABLE_ENTITY if is_refused else HTTPStatus.OK,
        shown=shown,
        form=form or TimeForm(initial=dict(first)),
        amount=amount or AmountForm.of(shown),
        days=days
        or DaysForm(initial={"first_day": shown.first_day, "last_day": shown.last_day}),
    )
