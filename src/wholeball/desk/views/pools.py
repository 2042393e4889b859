"""Shows the pools of a season, takes teams in from a spreadsheet, and moves teams about."""

from http import HTTPStatus

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.forms.pools import SpreadForm
from wholeball.desk.forms.team_sheet import TeamSheetForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.refusals import refusals_on
from wholeball.kernel.identity import PoolId
from wholeball.rulebook.sentence import counted
from wholeball.usecases.arrange_pools import move_teams, show_pools, spread_teams
from wholeball.usecases.take_teams import take_teams


@require_safe
@at_desk(COORDINATORS)
def pools(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show who plays whom."""
    given.asked(request)
    return _page(request, desk)


@require_POST
@at_desk(COORDINATORS)
def spread(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Deal the teams out into so many pools."""
    told = given.posted(request, ("pools", given.VERSION))
    form = SpreadForm(told, shown=show_pools(desk.read()))
    if form.is_valid():
        moved = spread_teams(desk.write(given.version(told)), form.cleaned_data["pools"])
        return _done(request, desk, moved)
    return _page(request, desk, form=form)


@require_POST
@at_desk(COORDINATORS)
def move(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Put each team into the pool that was chosen for it."""
    shown = show_pools(desk.read())
    names = {f"pool-{at}": one.team for at, one in enumerate(shown.teams, start=1)}
    told = given.posted(request, (*names, given.VERSION))
    chosen = {
        team: PoolId(told[name]) for name, team in names.items() if told[name] in shown.names
    }
    return _done(request, desk, move_teams(desk.write(given.version(told)), chosen))


@require_POST
@at_desk(COORDINATORS)
def take_in(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Take teams in from a spreadsheet: all of them, or none."""
    given.posted(request, ("file",))
    form = TeamSheetForm(request.POST, request.FILES)
    if form.is_valid():
        sent = form.cleaned_data["file"]
        with refusals_on(form):
            taken = take_teams(desk.write(), sent.read(), file=sent.name[:80])
            messages.success(request, taken.says)
            return redirect("desk:pools", *desk.where)
    return _page(request, desk, sheet=form)


def _done(request: HttpRequest, desk: Desk, moved: int) -> HttpResponse:
    messages.success(
        request,
        f"{counted(moved, 'team')} moved. To undo it: Season, Changes."
        if moved
        else "Every team is in that pool already.",
    )
    return redirect("desk:pools", *desk.where)


def _page(
    request: HttpRequest,
    desk: Desk,
    *,
    form: SpreadForm | None = None,
    sheet: TeamSheetForm | None = None,
) -> HttpResponse:
    shown = show_pools(desk.read())
    is_refused = form is not None or sheet is not None
    return page(
        request,
        desk,
        "pools",
        status=HTTPStatus.UNPROCESSABLE_ENTITY if is_refused else HTTPStatus.OK,
        shown=shown,
        form=form or SpreadForm(shown=shown, initial={"pools": len(shown.pools)}),
        sheet=sheet or TeamSheetForm(),
    )
