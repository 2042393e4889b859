"""Shows who is blocked at the gate, never why, and blocks and lifts."""

from datetime import date

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import PersonId
from wholeball.usecases.decide_person import block_person, lift_block
from wholeball.usecases.show_people import show_clearances


@require_safe
@at_desk(COORDINATORS)
def clearances(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List the blocks."""
    given.asked(request)
    desk.saw("clearances")
    return page(request, desk, "clearances", shown=show_clearances(desk.read(), at=desk.at))


@require_POST
@at_desk(COORDINATORS)
def block(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Block a person from today on."""
    person = given.posted(request, ("person",))["person"]
    try:
        block_person(desk.write(), PersonId(person), at=desk.at)
    except WholeballError as refused:
        messages.error(request, str(refused))
    else:
        messages.success(
            request, "Blocked at the gate from today on. To undo it, lift it below."
        )
    return redirect("desk:clearances", *desk.where)


@require_POST
@at_desk(COORDINATORS)
def lift(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Lift a block from today on."""
    form = given.posted(request, ("person", "since"))
    try:
        since = date.fromisoformat(form["since"])
    except ValueError as error:
        raise BadRequest("since is no day.") from error
    try:
        lift_block(desk.write(), PersonId(form["person"]), since, at=desk.at)
    except WholeballError as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, "Lifted: the player may play from today on.")
    return redirect("desk:clearances", *desk.where)
