"""Shows the pools of a season, takes teams in from a spreadsheet, and moves teams about."""

from collections.abc import Mapping
from dataclasses import dataclass
from http import HTTPStatus

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.captains import keep_captains
from wholeball.desk.forms.pools import SpreadForm
from wholeball.desk.forms.team_sheet import TeamSheetForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.refusals import MOST, faults_of, refusals_on
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import PoolId, TeamId
from wholeball.rulebook.sentence import counted
from wholeball.usecases.arrange_pools import (
    Chosen,
    PoolsShown,
    look_at_spread,
    place_of,
    place_teams,
    show_pools,
    spread_teams,
)
from wholeball.usecases.take_teams import take_teams


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tried:
    """Where each team was to be, upon which version of the season; nobody was moved."""

    chosen: Mapping[TeamId, Chosen]
    version: int


@require_safe
@at_desk(COORDINATORS)
def pools(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show who plays whom."""
    given.asked(request)
    return _page(request, desk)


@require_POST
@at_desk(COORDINATORS)
def spread(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Deal the teams out into so many pools; where there are some, after a look at who moves."""
    told = given.posted(request, ("pools", "looked", given.VERSION))
    shown = show_pools(desk.read())
    form = SpreadForm(told, shown=shown)
    if form.is_valid():
        spread = form.cleaned_data["pools"]
        if shown.is_dealt and told["looked"] != "yes":
            return page(
                request,
                desk,
                "pools_look",
                moved=look_at_spread(desk.read(), spread.pools, place=spread.place),
                spread=spread,
                pools=told["pools"],
            )
        moved = spread_teams(desk.write(given.version(told)), spread.pools, place=spread.place)
        return _done(request, desk, moved)
    return _page(request, desk, form=form)


@require_POST
@at_desk(COORDINATORS)
def move(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Put each team into the division, block and pool that were chosen for it."""
    shown = show_pools(desk.read())
    names = [
        f"{what}-{at}" for at in range(1, len(shown.teams) + 1) for what in ("place", "pool")
    ]
    told = given.posted(request, (*names, given.VERSION))
    chosen = _chosen(shown, told)
    version = given.version(told)
    try:
        moved = place_teams(desk.write(version), chosen)
    except WholeballError as refused:
        version = given.version_after(refused, version, now=desk.season.version)
        tried = _Tried(chosen=chosen, version=version)
        return _page(request, desk, refused=refused, tried=tried)
    return _done(request, desk, moved)


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
            keep_captains(request.session, desk.season, taken.captains)
            messages.success(request, taken.says)
            return redirect("desk:pools", *desk.where)
    return _page(request, desk, sheet=form)


def _chosen(shown: PoolsShown, told: Mapping[str, str]) -> dict[TeamId, Chosen]:
    """Return where each team is to be; a pool that was not offered leaves it in its own.

    Raises:
        WholeballError: a division or block that was chosen is not there any more.
    """
    places = {one.key: one for one in shown.places}
    found = {}
    for at, team in enumerate(shown.teams, start=1):
        key, pool = told[f"place-{at}"], told[f"pool-{at}"]
        if key and key not in places:
            raise WholeballError(
                f"What was chosen for {team.team} is not there any more.",
                fix="Nothing was changed. Look at what divisions and blocks there are now.",
                code="gone",
            )
        found[team.team] = Chosen(
            place=places[key] if key else place_of(team),
            pool=PoolId(pool) if pool in shown.names else team.pool,
        )
    return found


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
    refused: WholeballError | None = None,
    tried: _Tried | None = None,
) -> HttpResponse:
    shown = show_pools(desk.read())
    is_refused = any(one is not None for one in (form, sheet, refused))
    chosen: Mapping[TeamId, Chosen] = {} if tried is None else tried.chosen
    rows = [
        (one, chosen.get(one.team) or Chosen(place=place_of(one), pool=one.pool))
        for one in shown.teams
    ]
    initial = {} if shown.places else {"pools": len(shown.pools)}
    return page(
        request,
        desk,
        "pools",
        status=HTTPStatus.UNPROCESSABLE_ENTITY if is_refused else HTTPStatus.OK,
        shown=shown,
        rows=rows,
        refused=refused,
        faults=faults_of(refused)[:MOST],
        version=f"{desk.season.version if tried is None else tried.version}",
        form=form or SpreadForm(shown=shown, initial=initial),
        sheet=sheet or TeamSheetForm(),
    )
