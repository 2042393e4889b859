"""Shows who would be told of a draft of the timetable and what, and publishes it."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.calendar import STEP
from wholeball.desk.views.drafted import Drafted, drafted
from wholeball.desk.views.telling import by_mail, reached, said, write_and_tell
from wholeball.kernel.faults import WholeballError
from wholeball.rulebook.sentence import counted
from wholeball.store.drafts import throw_away
from wholeball.usecases.letters import Letter
from wholeball.usecases.publish_timetable import (
    changes_between,
    publish_timetable,
    who_is_told,
)


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def publish(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show the messages of a draft; a second step publishes it and has them sent."""
    now = drafted(desk)
    sent = who_is_told(now.worked, reached(desk))
    if request.method == "POST":
        step = given.whole(given.posted(request, (STEP,))[STEP], what=STEP)
        return _published(request, desk, now, sent, step)
    given.asked(request)
    mails, by_hand = by_mail(sent)
    broken = now.worked.newly_broken
    return page(
        request,
        desk,
        "publish",
        now=now,
        letters=sent,
        mails=mails,
        number=len(broken) if broken else mails,
        label="rules broken" if broken else "messages",
        one="rule broken" if broken else "message",
        by_hand=by_hand,
        changes=changes_between(now.worked.published, now.text),
        broken=broken,
    )


def _published(
    request: HttpRequest, desk: Desk, now: Drafted, sent: tuple[Letter, ...], step: int
) -> HttpResponse:
    def writes() -> None:
        publish_timetable(
            desk.write(),
            base=now.base,
            text=now.text,
            lost=() if now.draft is None else now.draft.lost,
            now=desk.at,
        )
        throw_away(now.whose, step)

    games = counted(now.worked.changes, "game")
    games += " moved" if now.worked.were else " listed"
    try:
        told = said(desk, "published", f"The timetable: {games}.")
        occasion = write_and_tell(told, writes, sent)
    except WholeballError as refused:
        messages.error(request, str(refused))
        return redirect("desk:calendar", *desk.where)
    messages.success(request, f"The timetable is published: {games}.")
    return redirect("desk:message", *desk.where, occasion.pk)
