"""Shows what people were told and what became of it, and sends again what failed."""

from collections.abc import Mapping
from datetime import timedelta
from typing import Final
from urllib.parse import urlencode

from django.contrib import messages as flash
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.tasks import send_mail
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.call_off import notice_of
from wholeball.desk.views.telling import tally, to_copy
from wholeball.rulebook.sentence import counted
from wholeball.store.mail import again, occasion_of, occasions_of
from wholeball.usecases.call_off import games_off

MOST: Final = 50
STUCK: Final = timedelta(minutes=1)
"""What waits for so long was left behind, and may be sent again."""


@require_safe
@at_desk(COORDINATORS)
def messages(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List the latest occasions on which people were told something."""
    given.asked(request)
    occasions = [
        (one, tally(one.messages.all())) for one in occasions_of(desk.season, most=MOST)
    ]
    failed = sum(told.failed for _, told in occasions)
    return page(request, desk, "messages", occasions=occasions, failed=failed)


@require_safe
@at_desk(COORDINATORS)
def message(request: HttpRequest, desk: Desk, number: int) -> HttpResponse:
    """Show what each person was told on an occasion."""
    given.asked(request)
    occasion = occasion_of(desk.season, number)
    if occasion is None:
        raise Http404
    told = list(occasion.messages.all())
    is_standing = occasion.kind == "called_off" and not hasattr(occasion, "correction")
    off = games_off(desk.read(), notice_of(occasion)) if is_standing else ()
    return page(
        request,
        desk,
        "message",
        occasion=occasion,
        told=told,
        tally=tally(told),
        failed=sum(one.state == "failed" for one in told),
        waiting=sum(one.state == "waiting" for one in told),
        is_stuck=desk.at - occasion.at > STUCK,
        to_copy=to_copy(told),
        may_take_back=is_standing,
        is_off=is_standing and occasion.what["state"] == "off",
        off=len(off),
        repair=_repair(desk, occasion.what) if off else "",
    )


@require_POST
@at_desk(COORDINATORS)
def send_again(request: HttpRequest, desk: Desk, number: int) -> HttpResponse:
    """Send again what failed, and what was left waiting."""
    given.posted(request, ())
    occasion = occasion_of(desk.season, number)
    if occasion is None:
        raise Http404
    tried = again(occasion)
    send_mail.enqueue(occasion.pk)
    flash.success(request, f"{counted(tried, 'message')} that failed will be tried again.")
    return redirect("desk:message", *desk.where, number)


def _repair(desk: Desk, what: Mapping[str, str]) -> str:
    """Return where other places are looked for, for the games that were called off."""
    asked = {name: what[name] for name in ("night", "site", "field") if what[name]}
    query = urlencode({"kind": "repair", **asked})
    return f"{reverse('desk:tasks', args=desk.where)}?{query}"
