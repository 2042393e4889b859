"""Takes the rosters of a whole league in: first a look, then all of it or nothing."""

from http import HTTPStatus
from typing import Final

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.id_key import id_key
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.held_list import given_back, held, sent_list, told_of
from wholeball.files.folder import read_folder
from wholeball.files.given_list import GivenList
from wholeball.kernel.faults import WholeballError
from wholeball.rulebook.sentence import counted
from wholeball.usecases.add_to_rosters import LeagueAdded, add_to_rosters
from wholeball.usecases.local_day import local_day

ALL: Final = ""
"""In place of a team: the list is for all of them."""


@require_safe
@at_desk(COORDINATORS)
def rosters(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Ask for the list."""
    given.asked(request)
    return page(request, desk, "rosters")


@require_POST
@at_desk(COORDINATORS)
def check_rosters(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Look at a list without writing anything: who would be added, and what is wrong."""
    try:
        listed = sent_list(request)
        found = _added(desk, listed, None)
    except WholeballError as refused:
        return _refused(request, desk, refused)
    carried = held(desk, ALL, listed)
    return page(request, desk, "rosters", found=found, name=listed.name, held=carried)


@require_POST
@at_desk(COORDINATORS)
def add_rosters(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Add the list that was looked at: all of it, or nothing."""
    form = given.posted(request, ("held",))
    listed, version = given_back(desk, ALL, form["held"])
    try:
        found = _added(desk, listed, version)
    except WholeballError as refused:
        return _refused(request, desk, refused)
    messages.success(
        request,
        f"{counted(found.new, 'player')} added to {counted(len(found.teams), 'team')};"
        f" {found.already} stood there already. To undo it: Season, Changes.",
    )
    return redirect("desk:season", *desk.where)


def _added(desk: Desk, listed: GivenList, version: int | None) -> LeagueAdded:
    """Add a list to a season of that version; without one, look only."""
    record = desk.read() if version is None else desk.write(version)
    day = local_day(read_folder(desk.read()), desk.at)
    return add_to_rosters(record, listed, key=id_key(), day=day, dry_run=version is None)


def _refused(request: HttpRequest, desk: Desk, refused: WholeballError) -> HttpResponse:
    status = HTTPStatus.UNPROCESSABLE_ENTITY
    return page(request, desk, "rosters", status=status, **told_of(refused))
