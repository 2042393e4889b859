"""Shows the draws of lots of a season, promises one, and holds it."""

import secrets
from collections.abc import Collection
from http import HTTPStatus
from typing import NamedTuple

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.refusals import faults_of
from wholeball.kernel.faults import WholeballError
from wholeball.usecases.season_draws import LotsShown, hold_draw, promise_draw, show_lots


class Typed(NamedTuple):
    """What somebody typed and the page keeps."""

    label: str = ""
    teams: Collection[str] = ()
    draw: str = ""
    public: str = ""


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def lots(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show every draw, and promise another."""
    shown = show_lots(desk.read())
    if request.method != "POST":
        given.asked(request)
        return _page(request, desk, shown)
    fields = {f"team-{number}": team for number, team in enumerate(shown.teams, start=1)}
    told = given.posted(request, ("label", *fields))
    chosen = [team for name, team in fields.items() if told[name]]
    try:
        promise_draw(
            desk.write(), label=told["label"], teams=chosen, secret=secrets.token_hex(16)
        )
    except WholeballError as refused:
        typed = Typed(label=told["label"], teams=chosen)
        return _page(request, desk, shown, refused=refused, typed=typed)
    messages.success(request, "It is promised: everybody can read the mark of its secret.")
    return redirect("desk:lots", *desk.where)


@require_POST
@at_desk(COORDINATORS)
def hold(request: HttpRequest, desk: Desk, draw: str) -> HttpResponse:
    """Draw by what everybody saw."""
    public = given.posted(request, ("public",))["public"].strip()
    try:
        held = hold_draw(desk.write(), draw, public=public)
    except WholeballError as refused:
        shown = show_lots(desk.read())
        typed = Typed(draw=draw, public=public)
        return _page(request, desk, shown, refused=refused, typed=typed)
    messages.success(request, f"Drawn: {held.commitment.label}. The order counts from now on.")
    return redirect("desk:lots", *desk.where)


def _page(
    request: HttpRequest,
    desk: Desk,
    shown: LotsShown,
    *,
    refused: WholeballError | None = None,
    typed: Typed | None = None,
) -> HttpResponse:
    kept = typed or Typed()
    return page(
        request,
        desk,
        "lots",
        status=HTTPStatus.OK if refused is None else HTTPStatus.UNPROCESSABLE_ENTITY,
        draws=shown.draws,
        teams=[(team, team in kept.teams) for team in shown.teams],
        refused=refused,
        faults=faults_of(refused),
        typed=kept,
    )
