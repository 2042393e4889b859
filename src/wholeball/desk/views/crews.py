"""Shows who works the games of a night, and names them."""

from http import HTTPStatus

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.listing import list_officials
from wholeball.desk.views.refusals import faults_of
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import GameId
from wholeball.usecases.set_crews import CrewsShown, set_crews, show_crews


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def crews(request: HttpRequest, desk: Desk, day: str) -> HttpResponse:
    """Show the crews of a night, and take them all at once."""
    night = given.day(day)
    shown = show_crews(desk.read(), night)
    if request.method != "POST":
        given.asked(request)
        return _page(request, desk, shown)
    fields = {
        f"post-{number}-{post.place}": (one.game, post.place)
        for number, one in enumerate(shown.games, start=1)
        for post in one.posts
    }
    told = given.posted(request, (*fields, given.VERSION))
    version = given.version(told)
    chosen = {fields[name]: told[name] for name in fields if told[name] in shown.officials}
    try:
        set_crews(desk.write(version), night, chosen)
    except InputFaults as refused:
        return _page(request, desk, shown, refused=refused, chosen=chosen)
    messages.success(request, "The crews are kept. To undo it: Season, Changes.")
    return redirect("desk:night", *desk.where, day)


@require_POST
@at_desk(COORDINATORS)
def officials(request: HttpRequest, desk: Desk, day: str) -> HttpResponse:
    """List officials by their names, one a line."""
    night = given.day(day)
    told = given.posted(request, ("names",))["names"]
    try:
        says = list_officials(desk, told)
    except WholeballError as refused:
        return _page(request, desk, show_crews(desk.read(), night), refused=refused, names=told)
    messages.success(request, says)
    return redirect("desk:crews", *desk.where, day)


def _page(
    request: HttpRequest,
    desk: Desk,
    shown: CrewsShown,
    *,
    refused: WholeballError | None = None,
    chosen: dict[tuple[GameId, int], str] | None = None,
    names: str = "",
) -> HttpResponse:
    rows = [
        (
            one,
            [
                (post, (chosen or {}).get((one.game, post.place), post.official))
                for post in one.posts
            ],
        )
        for one in shown.games
    ]
    return page(
        request,
        desk,
        "crews",
        status=HTTPStatus.OK if refused is None else HTTPStatus.UNPROCESSABLE_ENTITY,
        shown=shown,
        rows=rows,
        refused=refused,
        faults=faults_of(refused),
        names=names,
    )
