"""Shows where somebody has a desk, and what a day asks of its coordinator."""

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, WHO_HAVE_A_DESK, Desk, at_desk, page
from wholeball.desk.views.drafted import whose_timetable
from wholeball.desk.views.tasks import TITLES
from wholeball.desk.views.unread import unread
from wholeball.store.drafts import draft_of
from wholeball.store.models import Season
from wholeball.store.permissions import is_coordinator, may_run_desk
from wholeball.store.reader import Reader, reader_of
from wholeball.store.scope import seasons_for
from wholeball.store.searches import searches_under_way
from wholeball.usecases.show_doubts import count_doubts
from wholeball.usecases.show_today import show_today


@require_safe
@login_required
def home(request: HttpRequest) -> HttpResponse:
    """Lead to the season that somebody works at; where there are several, list them."""
    given.asked(request)
    reader = reader_of(request.user)
    doors = [(one, _door(reader, one)) for one in seasons_for(reader, WHO_HAVE_A_DESK)]
    if len(doors) == 1:
        return redirect(doors[0][1])
    return render(request, "desk/home.html", {"doors": doors})


def _door(reader: Reader, season: Season) -> str:
    where = (season.organisation.slug, season.slug)
    if is_coordinator(reader, season):
        return reverse("desk:today", args=where)
    if may_run_desk(reader, season):
        return reverse("desk:nights", args=where)
    team = min(reader.teams_in(season, role="captain"))
    return reverse("desk:team", args=(*where, team))


@require_safe
@at_desk(WHO_HAVE_A_DESK)
def door(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Lead to the page of a season that somebody begins with."""
    given.asked(request)
    return redirect(_door(desk.reader, desk.season))


@require_safe
@at_desk(COORDINATORS)
def today(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show a day: its games, and what is to be settled."""
    day = given.asked(request, "day")["day"]
    record = desk.read()
    shown = show_today(
        record, at=desk.at, day=given.day(day) if day else None, unread=unread(desk)
    )
    tasks = [(one.pk, TITLES[one.kind]) for one in searches_under_way(desk.season, desk.at)]
    draft = draft_of(whose_timetable(desk)) if shown.steps else None
    return page(
        request,
        desk,
        "today",
        today=shown,
        tasks=tasks,
        draft=draft,
        doubts=count_doubts(record, shown.day),
        asked=day,
    )
