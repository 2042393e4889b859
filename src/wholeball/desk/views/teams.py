"""Shows a team's roster, and takes a list of players in: first a look, then all of it or nothing."""

import base64
import binascii
from http import HTTPStatus
from typing import Final

from django.contrib import messages
from django.core import signing
from django.core.exceptions import BadRequest
from django.core.files.uploadedfile import UploadedFile
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.id_key import id_key
from wholeball.desk.views import given
from wholeball.desk.views.access import WHO_HAVE_A_TEAM, Desk, at_desk, page
from wholeball.files.given_list import MOST, GivenList
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.usecases.add_to_roster import Added, add_to_roster
from wholeball.usecases.show_season import TeamShown, show_team

MOST_HELD: Final = 1_500_000
"""Bytes of a list that go through the page between the look and the import."""
_SALT: Final = "roster"
_HOURS: Final = 2 * 3600


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
    given.posted(request, ("list",))
    sent = request.FILES.get("list")
    if not isinstance(sent, UploadedFile) or not sent.size:
        return _refused(
            request,
            desk,
            shown,
            WholeballError(
                "No list was sent.",
                fix="Choose a CSV file or an .xlsx workbook.",
                code="missing_file",
            ),
        )
    if sent.size > min(MOST, MOST_HELD):
        return _refused(
            request,
            desk,
            shown,
            WholeballError(
                f"The list has {sent.size:,} bytes.",
                fix=f"Send at most {MOST_HELD:,}.",
                code="limits",
            ),
        )
    listed = GivenList((sent.name or "list")[:80], sent.read())
    try:
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
        held=_held(desk, team, listed),
    )


@require_POST
@at_desk(WHO_HAVE_A_TEAM)
def add_roster(request: HttpRequest, desk: Desk, team: str) -> HttpResponse:
    """Add the list that was looked at: all of it, or nothing."""
    shown = _open_roster(desk, team)
    form = given.posted(request, ("held",))
    listed, version = _given_back(desk, team, form["held"])
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


def _held(desk: Desk, team: str, listed: GivenList) -> str:
    """Return a list as the page carries it, so that nobody can send another in its place."""
    data = base64.b64encode(listed.data).decode("ascii")
    kept = {"name": listed.name, "data": data, "team": team, "version": desk.season.version}
    return signing.dumps(
        {**kept, "season": desk.season.pk, "by": desk.account.pk}, salt=_SALT, compress=True
    )


def _given_back(desk: Desk, team: str, held: str) -> tuple[GivenList, int]:
    try:
        kept = signing.loads(held, salt=_SALT, max_age=_HOURS)
        data = base64.b64decode(kept["data"])
    except (signing.BadSignature, binascii.Error) as error:
        raise WholeballError(
            "The list that was looked at is not there any more.",
            fix="Nothing was added. Send the list again.",
            code="expired",
        ) from error
    if (kept["season"], kept["team"], kept["by"]) != (desk.season.pk, team, desk.account.pk):
        raise BadRequest("The list was looked at for another team.")
    return GivenList(kept["name"], data), int(kept["version"])


def _refused(
    request: HttpRequest, desk: Desk, shown: TeamShown, refused: WholeballError
) -> HttpResponse:
    """Show what is wrong with a list beside its rows; nothing of it was taken."""
    faults = refused.faults if isinstance(refused, InputFaults) else ()
    return page(
        request,
        desk,
        "roster_check",
        status=HTTPStatus.UNPROCESSABLE_ENTITY,
        team=shown,
        faults=faults[:100],
        more=max(len(faults) - 100, 0),
        refused=None if faults else refused,
    )
