"""Shows a team's roster, and takes a list of players in: first a look, then all of it or nothing."""

from http import HTTPStatus

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.id_key import id_key
from wholeball.desk.views import given
from wholeball.desk.views.access import WHO_HAVE_A_TEAM, Desk, at_desk, page
from wholeball.desk.views.held_list import given_back, held, sent_list, told_of
from wholeball.files.given_list import GivenList
from wholeball.kernel.faults import WholeballError
from wholeball.usecases.add_to_roster import Added, add_to_roster
from wholeball.usecases.show_season import TeamShown, show_team


@require_safe
@at_desk(WHO_HAVE_A_TEAM)
def team(request: HttpRequest, desk: Desk, team: str) -> HttpResponse:
    """Show a roster with what stands against each player."""
    given.asked(request)
    shown = _shown(desk, team)
    desk.saw(f"the roster of {team}")
    return page(request, desk, "team", team=shown)


@require_POST
@at_desk(WHO_HAVE_A_TEAM)
def check_roster(request: HttpRequest, desk: Desk, team: str) -> HttpResponse:
    """Look at a list without writing anything: who would be added, and what is wrong."""
    shown = _open_roster(desk, team)
    try:
        listed = sent_list(request)
        found = _added(desk, shown, listed, None)
    except WholeballError as refused:
        return _refused(request, desk, shown, refused)
    return page(
        request,
        desk,
        "roster_check",
        team=shown,
        found=found,
        name=listed.name,
        held=held(desk, team, listed),
    )


@require_POST
@at_desk(WHO_HAVE_A_TEAM)
def add_roster(request: HttpRequest, desk: Desk, team: str) -> HttpResponse:
    """Add the list that was looked at: all of it, or nothing."""
    shown = _open_roster(desk, team)
    form = given.posted(request, ("held",))
    listed, version = given_back(desk, team, form["held"])
    try:
        found = _added(desk, shown, listed, version)
    except WholeballError as refused:
        return _refused(request, desk, shown, refused)
    many = f"{len(found.new)} added to {team}" if found.new else f"Nobody new for {team}"
    messages.success(
        request, f"{many}; {found.already} stood there already. To undo it: Season, Changes."
    )
    return redirect("desk:team", *desk.where, team)


def _shown(desk: Desk, team: str) -> TeamShown:
    name = desk.team(team)
    return show_team(desk.read(), name, at=desk.at, for_staff=desk.is_coordinator)


def _open_roster(desk: Desk, team: str) -> TeamShown:
    """Return a roster that may be added to: a captain's own, until the rulebook's last day."""
    shown = _shown(desk, team)
    if shown.is_locked and not desk.is_coordinator:
        raise Http404
    return shown


def _added(desk: Desk, shown: TeamShown, listed: GivenList, version: int | None) -> Added:
    """Add a list to a season of that version; without one, look only."""
    return add_to_roster(
        desk.read() if version is None else desk.write(version),
        listed,
        team=shown.team.team,
        key=id_key(),
        day=shown.on,
        dry_run=version is None,
    )


def _refused(
    request: HttpRequest, desk: Desk, shown: TeamShown, refused: WholeballError
) -> HttpResponse:
    status = HTTPStatus.UNPROCESSABLE_ENTITY
    return page(request, desk, "roster_check", status=status, team=shown, **told_of(refused))
