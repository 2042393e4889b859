"""Shows who signed up for which block, changes what was asked for, and takes it out."""

from http import HTTPStatus

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wholeball.desk.forms.sign_ups import (
    ALONE_FIELDS,
    COLUMNS,
    TEAM_FIELDS,
    AloneForm,
    TeamSignUpForm,
)
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.refusals import refused_at
from wholeball.files.alone import FILE as ALONE_FILE
from wholeball.files.sign_ups import FILE
from wholeball.usecases.set_sign_ups import (
    change_alone,
    change_sign_up,
    drop_alone,
    drop_sign_up,
)
from wholeball.usecases.show_sign_ups import show_sign_ups

_KEPT = "the sign-up is kept as it is now. To undo it: Season, Changes."
_OUT = "The sign-up is taken out. To undo it: Season, Changes."


@require_safe
@at_desk(COORDINATORS)
def sign_ups(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List the sign-ups block by block."""
    given.asked(request)
    desk.saw("the sign-ups")
    return page(request, desk, "sign_ups", shown=show_sign_ups(desk.read()))


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def team(request: HttpRequest, desk: Desk, block: str, team: str) -> HttpResponse:
    """Change what a team asked for."""
    shown = show_sign_ups(desk.read())
    if request.method != "POST":
        given.asked(request)
        asked = shown.team(block, team)
        if asked is None:
            raise Http404
        return _page(request, desk, TeamSignUpForm.of(asked, shown.blocks), team)
    posted = given.posted(request, (*TEAM_FIELDS, given.VERSION))
    seen = given.version(posted)
    form = TeamSignUpForm(posted, blocks=shown.blocks)
    version = refused_at(
        form,
        seen,
        lambda: change_sign_up(desk.write(seen), block, team, form.told()),
        now=lambda: desk.season.version,
        file=FILE,
        fields=COLUMNS,
    )
    if version is not None:
        return _page(request, desk, form, team, version=version)
    messages.success(request, f"{form.told().team}: {_KEPT}")
    return redirect("desk:sign_ups", *desk.where)


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def alone(request: HttpRequest, desk: Desk, block: str, person: str) -> HttpResponse:
    """Change what a player without a team asked for."""
    shown = show_sign_ups(desk.read())
    asked = shown.player(block, person)
    if request.method != "POST":
        given.asked(request)
        if asked is None:
            raise Http404
        return _page(request, desk, AloneForm.of(asked, shown.blocks), asked.name)
    posted = given.posted(request, (*ALONE_FIELDS, given.VERSION))
    seen = given.version(posted)
    form = AloneForm(posted, blocks=shown.blocks)
    version = refused_at(
        form,
        seen,
        lambda: change_alone(desk.write(seen), block, person, form.told()),
        now=lambda: desk.season.version,
        file=ALONE_FILE,
        fields=COLUMNS,
    )
    if version is not None:
        name = "Player without a team" if asked is None else asked.name
        return _page(request, desk, form, name, version=version)
    messages.success(request, f"{form.told().name}: {_KEPT}")
    return redirect("desk:sign_ups", *desk.where)


@require_POST
@at_desk(COORDINATORS)
def drop_team(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Take out what a team asked for."""
    told = given.posted(request, ("block", "team", given.VERSION))
    drop_sign_up(desk.write(given.version(told)), told["block"], told["team"])
    messages.success(request, _OUT)
    return redirect("desk:sign_ups", *desk.where)


@require_POST
@at_desk(COORDINATORS)
def drop_player(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Take out what a player without a team asked for."""
    told = given.posted(request, ("block", "person", given.VERSION))
    drop_alone(desk.write(given.version(told)), told["block"], told["person"])
    messages.success(request, _OUT)
    return redirect("desk:sign_ups", *desk.where)


def _page(
    request: HttpRequest,
    desk: Desk,
    form: TeamSignUpForm | AloneForm,
    name: str,
    *,
    version: int | None = None,
) -> HttpResponse:
    status = HTTPStatus.UNPROCESSABLE_ENTITY if form.is_bound else HTTPStatus.OK
    return page(
        request,
        desk,
        "sign_up",
        status=status,
        name=name,
        form=form,
        is_team=isinstance(form, TeamSignUpForm),
        version=f"{desk.season.version if version is None else version}",
    )
