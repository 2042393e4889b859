"""Corrects the name of a team, and takes a team out that nothing names."""

from http import HTTPStatus

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST

from wholeball.desk.forms.team import TeamNameForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.refusals import put_on
from wholeball.files.folder import read_folder
from wholeball.files.teams import FILE
from wholeball.kernel.faults import WholeballError
from wholeball.usecases.correct_team import correct_team_on_site, drop_team_on_site


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def correct(request: HttpRequest, desk: Desk, team: str) -> HttpResponse:
    """Correct a name wherever the season has it."""
    if request.method != "POST":
        given.asked(request)
        _team(desk, team)
        form = TeamNameForm(initial={"team": team})
        return _page(request, desk, team, form, desk.season.version)
    told = given.posted(request, ("team", given.VERSION))
    version = given.version(told)
    form = TeamNameForm(told)
    if form.is_valid():
        typed = form.cleaned_data["team"]
        try:
            name = correct_team_on_site(desk.write(version), team, typed)
        except WholeballError as refused:
            put_on(form, refused, file=FILE, fields={"team": "team"})
            version = given.version_after(refused, version, now=desk.season.version)
        else:
            messages.success(
                request, f"{team} is called {name} now. To undo it, correct the name back."
            )
            return redirect("desk:team", *desk.where, name)
    return _page(request, desk, team, form, version)


@require_POST
@at_desk(COORDINATORS)
def drop(request: HttpRequest, desk: Desk, team: str) -> HttpResponse:
    """Take a team out while nothing names it."""
    version = given.version(given.posted(request, (given.VERSION,)))
    try:
        drop_team_on_site(desk.write(version), team)
    except WholeballError as refused:
        form = TeamNameForm(initial={"team": team})
        return _page(request, desk, team, form, desk.season.version, refused=refused)
    messages.success(request, f"{team} is taken out. To undo it: Season, Changes.")
    return redirect("desk:season", *desk.where)


def _team(desk: Desk, team: str) -> None:
    """Look for a team.

    Raises:
        Http404: there is none of that name.
    """
    if team not in [one.team for one in read_folder(desk.read()).season.league.teams]:
        raise Http404


def _page(
    request: HttpRequest,
    desk: Desk,
    team: str,
    form: TeamNameForm,
    version: int,
    *,
    refused: WholeballError | None = None,
) -> HttpResponse:
    is_fine = not form.is_bound and refused is None
    return page(
        request,
        desk,
        "team_name",
        status=HTTPStatus.OK if is_fine else HTTPStatus.UNPROCESSABLE_ENTITY,
        team=team,
        form=form,
        version=f"{version}",
        refused=refused,
    )
