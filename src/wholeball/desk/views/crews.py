"""Shows who works the games of a night, and names them."""

from collections.abc import Mapping
from dataclasses import dataclass
from http import HTTPStatus

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.listing import list_officials
from wholeball.desk.views.refusals import faults_of
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.usecases.set_crews import (
    CrewGame,
    CrewsShown,
    LaterCrew,
    Post,
    set_crews,
    show_crews,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tried:
    """Who was chosen for which post, upon which version of the season; it was not kept."""

    chosen: Mapping[tuple[GameId, int], str]
    version: int


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def crews(request: HttpRequest, desk: Desk, day: str) -> HttpResponse:
    """Show the crews of a night, and take them all at once."""
    night = given.day(day)
    shown = show_crews(desk.read(), night)
    if request.method != "POST":
        given.asked(request)
        return _page(request, desk, shown)
    fields = _fields(shown)
    told = given.posted(request, (*fields, given.VERSION))
    version = given.version(told)
    chosen = {fields[name]: told[name] for name in fields if told[name] in shown.officials}
    try:
        set_crews(desk.write(version), night, chosen)
    except WholeballError as refused:
        version = given.version_after(refused, version, now=desk.season.version)
        tried = _Tried(chosen=chosen, version=version)
        return _page(request, desk, shown, refused=refused, tried=tried)
    messages.success(request, "The crews are kept. To undo it: Season, Changes.")
    if shown.games or any(chosen.values()):
        return redirect("desk:night", *desk.where, day)
    return redirect("desk:nights", *desk.where)


@require_safe
@at_desk(COORDINATORS)
def goes_on(request: HttpRequest, desk: Desk, game: str) -> HttpResponse:
    """Lead to the crews of the night on which a game that was stopped goes on."""
    name = desk.game(game)
    told = given.asked(request, "day")["day"]
    try:
        shown = show_crews(desk.read(), given.day(told))
    except (Http404, WholeballError):
        found = False
    else:
        found = name in [one.game for one in shown.later]
    if found:
        return redirect("desk:crews", *desk.where, told)
    messages.error(
        request,
        f"Game {name} does not go on that day. Choose a day after the one it was stopped.",
    )
    return redirect("desk:game", *desk.where, name)


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
    tried: _Tried | None = None,
    names: str = "",
) -> HttpResponse:
    def filled(one: CrewGame | LaterCrew) -> list[tuple[Post, str]]:
        if tried is None:
            return [(post, post.official) for post in one.posts]
        return [(post, tried.chosen.get((one.game, post.place), "")) for post in one.posts]

    return page(
        request,
        desk,
        "crews",
        status=HTTPStatus.OK if refused is None else HTTPStatus.UNPROCESSABLE_ENTITY,
        shown=shown,
        rows=[(one, filled(one)) for one in shown.games],
        later=[(one, filled(one)) for one in shown.later],
        refused=refused,
        faults=faults_of(refused),
        names=names,
        version=f"{desk.season.version if tried is None else tried.version}",
    )


def _fields(shown: CrewsShown) -> dict[str, tuple[GameId, int]]:
    """Return which post of which game each field of the page is.

    Games that go on are named: which they are can change while somebody looks at the page.
    """
    of_night = {
        f"post-{number}-{post.place}": (one.game, post.place)
        for number, one in enumerate(shown.games, start=1)
        for post in one.posts
    }
    later = {
        f"later-{one.game}-{post.place}": (one.game, post.place)
        for one in shown.later
        for post in one.posts
    }
    return {**of_night, **later}
