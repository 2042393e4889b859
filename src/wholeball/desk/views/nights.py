"""Shows the nights of a season and hands out their papers."""

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import WHO_CERTIFY, WHO_ENTER, WHO_WORK, Desk, at_desk, page
from wholeball.desk.views.unread import unread
from wholeball.store.scope import games_for
from wholeball.usecases.night_papers import packet as make_packet
from wholeball.usecases.night_papers import rulebook_booklet as make_booklet
from wholeball.usecases.night_papers import scorecards as make_scorecards
from wholeball.usecases.night_papers import suspensions as make_suspensions
from wholeball.usecases.show_nights import show_night, show_nights


@require_safe
@at_desk(WHO_WORK)
def nights(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List the nights on which somebody works."""
    given.asked(request)
    shown = show_nights(desk.read(), at=desk.at, may=desk.may())
    return page(request, desk, "nights", shown=shown)


@require_safe
@at_desk(WHO_WORK)
def night(request: HttpRequest, desk: Desk, day: str) -> HttpResponse:
    """Show the games of a night, each with what may be done to it."""
    given.asked(request)
    certifies, enters = desk.may(WHO_CERTIFY), desk.may(WHO_ENTER)
    shown = show_night(desk.read(), given.day(day), at=desk.at, may=desk.may())
    return page(
        request,
        desk,
        "night",
        shown=shown,
        certifies=[one for one in shown.played if certifies(one)],
        enters=[one for one in shown.played if enters(one)],
        unread=unread(desk),
    )


@require_safe
@at_desk(WHO_CERTIFY)
def packet(request: HttpRequest, desk: Desk, day: str) -> HttpResponse:
    """Hand out all that goes to the field on paper."""
    paper = given.paper(given.asked(request, "paper")["paper"])
    _refuse_others_night(desk, day)
    desk.saw(f"the packet of {day}")
    made = make_packet(desk.read(), given.day(day), paper=paper, printed=desk.at)
    return _pdf(made, f"packet-{day}.pdf")


@require_safe
@at_desk(WHO_CERTIFY)
def scorecards(request: HttpRequest, desk: Desk, day: str) -> HttpResponse:
    """Hand out the scorecards of a night."""
    paper = given.paper(given.asked(request, "paper")["paper"])
    _refuse_others_night(desk, day)
    desk.saw(f"the scorecards of {day}")
    made = make_scorecards(desk.read(), given.day(day), paper=paper, printed=desk.at)
    return _pdf(made, f"scorecards-{day}.pdf")


@require_safe
@at_desk(WHO_CERTIFY)
def suspensions_sheet(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Hand out the sheet of suspensions."""
    paper = given.paper(given.asked(request, "paper")["paper"])
    desk.saw("the sheet of suspensions")
    made = make_suspensions(desk.read(), paper=paper, printed=desk.at)
    return _pdf(made, "suspensions.pdf")


@require_safe
@at_desk(WHO_WORK)
def booklet(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Hand out the house rules as a booklet."""
    paper = given.paper(given.asked(request, "paper")["paper"])
    return _pdf(make_booklet(desk.read(), paper=paper, printed=desk.at), "rulebook.pdf")


def _refuse_others_night(desk: Desk, day: str) -> None:
    """Refuse a night on which somebody has no game; the coordinator has all."""
    if games_for(desk.reader, desk.season, desk.admits) is None:
        return
    show_night(desk.read(), given.day(day), at=desk.at, may=desk.may())


def _pdf(data: bytes, name: str) -> HttpResponse:
    if not data:
        raise Http404
    return HttpResponse(
        data,
        content_type="application/pdf",
        headers={"Content-Disposition": f'inline; filename="{name}"'},
    )
