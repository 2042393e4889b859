"""Starts searches for a timetable, shows how far each is, and takes what it found into a draft."""

from datetime import timedelta
from typing import Final

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wholeball.desk.forms.search import SearchForm
from wholeball.desk.tasks import search as run
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.drafted import whose_timetable
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.timetable_edit import listed_games
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.rulebook.sentence import counted
from wholeball.store.drafts import draft_of, keep_step
from wholeball.store.models import Search
from wholeball.store.searches import (
    ask_to_stop,
    begin_search,
    forget_search,
    is_silent,
    search_of,
    searches_of,
)
from wholeball.usecases.move_game import desk_of, published_timetable
from wholeball.usecases.publish_timetable import changes_between
from wholeball.usecases.show_sites import fields_to_name

MOST: Final = 20
TITLES: Final = {
    "plan": "A plan of the season",
    "repair": "A repair",
    "explain": "What speaks against a plan",
    "helps": "What would help",
}
_FIELDS: Final = ("kind", "seconds", "night", "site", "field", "team")
_ASKED: Final = ("kind", "night", "site", "field")


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def tasks(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List the searches of a season, and start one."""
    record = desk.read()
    read = read_folder(record)
    known = fields_to_name(record, read)
    if request.method != "POST":
        first = {name: says for name, says in given.asked(request, *_ASKED).items() if says}
        return _page(
            request, desk, read, SearchForm(initial=first, read=read, fields_known=known)
        )
    form = SearchForm(given.posted(request, _FIELDS), read=read, fields_known=known)
    if not form.is_valid():
        return _page(request, desk, read, form, status=422)
    begun = begin_search(
        desk.season,
        desk.account,
        kind=form.cleaned_data["kind"],
        asked=form.asked(),
        base=published_timetable(desk.read()).decode(),
        at=desk.at,
    )
    run.enqueue(begun.pk)
    return redirect("desk:task", *desk.where, begun.pk)


@require_safe
@at_desk(COORDINATORS)
def task(request: HttpRequest, desk: Desk, number: int) -> HttpResponse:
    """Show how far a search is, or what it found; a reload loses nothing."""
    given.asked(request)
    found = _found(desk, number)
    text = found.found.get("text")
    moves = () if text is None else changes_between(found.base.encode(), text.encode())
    is_first = not listed_games(found.base.encode())
    return page(
        request,
        desk,
        "task",
        search=found,
        title=TITLES[found.kind],
        silent=is_silent(found, desk.at),
        percent=_percent(found),
        left=_left(found),
        so_far=_so_far(found),
        found_room=_room(found.found.get("total"), found.found.get("bound")),
        moves=moves,
        is_first=is_first,
        label="new games" if is_first else "games differ",
        one="new game" if is_first else "game differs",
        number="" if text is None else len(moves),
        draft=draft_of(whose_timetable(desk)),
    )


@require_POST
@at_desk(COORDINATORS)
def stop(request: HttpRequest, desk: Desk, number: int) -> HttpResponse:
    """Ask a search to end with the best that it has."""
    given.posted(request, ())
    ask_to_stop(_found(desk, number))
    messages.success(request, "It stops in a moment, and keeps the best so far.")
    return redirect("desk:task", *desk.where, number)


@require_POST
@at_desk(COORDINATORS)
def take(request: HttpRequest, desk: Desk, number: int) -> HttpResponse:
    """Take what a search found into somebody's draft; what stood there is one step back."""
    step = given.whole(given.posted(request, ("step",))["step"], what="step")
    found = _found(desk, number)
    text = found.found.get("text")
    if text is None:
        raise Http404
    if not _fits(desk, text):
        messages.error(
            request,
            "The season was changed since: this fits it no longer. Nothing was taken. "
            "Search again.",
        )
        return redirect("desk:task", *desk.where, number)
    try:
        keep_step(
            whose_timetable(desk),
            text,
            base=found.base,
            step=step,
            why="a plan" if found.kind == "plan" else "a repair",
            lost=found.found.get("lost", []),
        )
    except WholeballError as refused:
        messages.error(request, str(refused))
        return redirect("desk:task", *desk.where, number)
    messages.success(request, "It is your draft now. Nobody is told before you publish.")
    return redirect(f"{reverse('desk:calendar', args=desk.where)}{_week(found.base, text)}")


@require_POST
@at_desk(COORDINATORS)
def forget(request: HttpRequest, desk: Desk, number: int) -> HttpResponse:
    """Throw away what a search found; one that runs is asked to stop first."""
    given.posted(request, ())
    found = _found(desk, number)
    if found.state in ("waiting", "running") and not is_silent(found, desk.at):
        ask_to_stop(found)
        messages.warning(request, "It still ran, and stops now. Throw it away after that.")
        return redirect("desk:task", *desk.where, number)
    forget_search(found)
    messages.success(request, "It is thrown away.")
    return redirect("desk:tasks", *desk.where)


def _fits(desk: Desk, text: str) -> bool:
    """Tell whether the season stands with a timetable that was found for it once."""
    record = desk.read()
    try:
        desk_of(record, published=published_timetable(record), text=text.encode())
    except InputFaults:
        return False
    return True


def _week(before: str, after: str) -> str:
    """Return the query of the first week in which two timetables differ, if they do."""
    was, now = listed_games(before.encode()), listed_games(after.encode())
    days = [one.day for game, one in now.items() if one != was.get(game)]
    if not days:
        return ""
    first = min(days)
    return f"?week={first - timedelta(days=first.weekday())}"


def _found(desk: Desk, number: int) -> Search:
    found = search_of(desk.season, number)
    if found is None:
        raise Http404
    return found


def _page(
    request: HttpRequest, desk: Desk, read: SeasonFolder, form: SearchForm, status: int = 200
) -> HttpResponse:
    every = [
        (one, TITLES[one.kind], is_silent(one, desk.at))
        for one in searches_of(desk.season, most=MOST)
    ]
    running = sum(one.state in ("waiting", "running") and not gone for one, _, gone in every)
    return page(
        request,
        desk,
        "tasks",
        status=status,
        form=form,
        searches=every,
        running=running,
        has_times=bool(read.planning.slots),
    )


def _percent(search: Search) -> int:
    if search.left is None:
        return 0
    return round(100 * search.seconds / max(1.0, search.seconds + search.left))


def _so_far(search: Search) -> str:
    """Return what a search has found so far; that of a repair weighs moves, and is no cost."""
    if search.best is None:
        return ""
    if search.kind == "repair":
        return "A timetable. Perhaps fewer games can move"
    room = _room(search.best, search.bound)
    gained = "" if room is None else f"; at most {room} % could be gained"
    return f"Wishes cost {search.best}{gained}"


def _room(total: int | None, bound: float | None) -> int | None:
    """Return how many per cent of the cost could be saved at most."""
    if total is None or bound is None:
        return None
    return round(100 * max(0.0, total - bound) / max(1, total))


def _left(search: Search) -> str:
    """Say how long a search goes on at most."""
    if search.left is None:
        return ""
    return f"at most {counted(max(1, round(search.left)), 'second')}"
