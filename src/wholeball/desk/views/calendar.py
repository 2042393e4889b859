"""Shows the timetable as a board, and takes moves of its games into a draft."""

from collections.abc import Callable
from datetime import date, time
from typing import Final
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.drafted import Drafted, drafted, whose_timetable
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.planning.problem import Placement, Start
from wholeball.store.drafts import Whose, keep_step, step_back, throw_away
from wholeball.usecases.move_game import Proposal, proposed
from wholeball.usecases.publish_timetable import on_newest
from wholeball.usecases.show_board import Board, show_board

STEP: Final = "step"
_MOVE: Final = ("game", "place", "swap", STEP)


@require_safe
@at_desk(COORDINATORS)
def calendar(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show a week as a board; a game that is asked for with a place is judged there."""
    told = given.asked(request, "week", "game", "place", "swap")
    now = drafted(desk)
    game = now.worked.games.get(GameId(told["game"])) if told["game"] else None
    proposal = None
    if game is not None and told["place"]:
        proposal = proposed(
            now.worked, _place(told["game"], told["place"]), swaps=told["swap"] == "yes"
        )
    board = _board(desk, now, told["week"], proposal)
    return page(
        request,
        desk,
        "calendar",
        now=now,
        board=board,
        game=game,
        proposal=proposal,
        place=told["place"],
        breaks="" if now.draft is None else len(now.worked.newly_broken),
    )


@require_POST
@at_desk(COORDINATORS)
def move(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Keep a move in somebody's draft; nobody is told of it."""
    told = given.posted(request, _MOVE)
    now = drafted(desk)
    to = _place(told["game"], told["place"])
    found = proposed(now.worked, to, swaps=told["swap"] == "yes")
    try:
        keep_step(
            now.whose,
            found.text.decode(),
            base=now.base.decode(),
            step=given.whole(told[STEP], what=STEP),
        )
    except WholeballError as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, f"Game {told['game']} is moved in your draft.")
    return redirect(_week(desk, to.start.night))


@require_POST
@at_desk(COORDINATORS)
def undo(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Undo the last step of a draft."""
    return _does(request, desk, "The last step is undone.", step_back)


@require_POST
@at_desk(COORDINATORS)
def discard(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Throw a draft away."""
    return _does(request, desk, "The draft is thrown away.", throw_away)


@require_POST
@at_desk(COORDINATORS)
def newest(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Put the moves of a draft upon the timetable that was published meanwhile."""
    told = given.posted(request, (STEP,))
    now = drafted(desk)
    text, clashes = on_newest(desk.read(), base=now.base, text=now.text)
    try:
        keep_step(
            now.whose,
            text.decode(),
            base=now.worked.published.decode(),
            step=given.whole(told[STEP], what=STEP),
        )
    except WholeballError as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, "Your moves stand upon the newest timetable now.")
        for says in clashes:
            messages.warning(request, f"{says} Your draft has it there.")
    return redirect("desk:calendar", *desk.where)


def _does(
    request: HttpRequest, desk: Desk, done: str, does: Callable[[Whose, int], None]
) -> HttpResponse:
    step = given.whole(given.posted(request, (STEP,))[STEP], what=STEP)
    try:
        does(whose_timetable(desk), step)
    except WholeballError as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, done)
    return redirect("desk:calendar", *desk.where)


def _board(desk: Desk, now: Drafted, week: str, proposal: Proposal | None) -> Board:
    zone = ZoneInfo(now.worked.read.season.league.timezone)
    today = desk.at.astimezone(zone).date()
    monday = given.day(week) if week else None
    if monday is None and proposal is not None:
        monday = date.fromordinal(
            proposal.to.start.night.toordinal() - proposal.to.start.night.weekday()
        )
    return show_board(now.worked, monday, today, proposal)


def _place(game: str, place: str) -> Placement:
    """Return the place that a form names: "2026-10-13|21:00|Field 2"."""
    night, _, rest = place.partition("|")
    at, _, field = rest.partition("|")
    try:
        start = Start(date.fromisoformat(night), time.fromisoformat(at))
    except ValueError as error:
        raise BadRequest(
            f"{place[:60]!a} is no place: a night, a start and a field."
        ) from error
    if not field or not field.isprintable() or start.at.tzinfo is not None:
        raise BadRequest("The place has no field.")
    return Placement(game=GameId(game), start=start, field=field)


def _week(desk: Desk, night: date) -> str:
    monday = date.fromordinal(night.toordinal() - night.weekday())
    return f"{reverse('desk:calendar', args=desk.where)}?week={monday}"
