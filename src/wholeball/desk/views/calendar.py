"""Shows the timetable as a board, and takes moves of its games into a draft."""

from collections.abc import Callable
from datetime import date, datetime, time
from typing import Final
from urllib.parse import urlencode
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
from wholeball.planning.answer import Broken
from wholeball.planning.problem import Placement, Start
from wholeball.store.drafts import Whose, keep_step, step_back, throw_away
from wholeball.usecases.move_game import Proposal, cure_of, proposed, refuse_taken
from wholeball.usecases.publish_timetable import on_newest
from wholeball.usecases.show_board import Board, Square, show_board, square_of

STEP: Final = "step"
_MOVE: Final = ("game", "place", "swap", STEP)


@require_safe
@at_desk(COORDINATORS)
def calendar(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show a week as a board; a game that is asked for with a place is judged there."""
    told = given.asked(request, "week", "game", "place", "swap")
    now = drafted(desk)
    game = now.worked.games.get(GameId(told["game"])) if told["game"] else None
    is_played = game is not None and game.game in now.worked.played
    proposal = None
    if game is not None and told["place"] and not is_played:
        proposal = proposed(
            now.worked, _place(told["game"], told["place"]), swaps=told["swap"] == "yes"
        )
    board = _board(desk, now, told["week"], proposal)
    broken = now.worked.report.broken if proposal is None else proposal.broken_of(now.worked)
    is_changed = now.draft is not None or proposal is not None
    return page(
        request,
        desk,
        "calendar",
        now=now,
        board=board,
        game=game,
        proposal=proposal,
        is_played=is_played,
        place=told["place"],
        places=() if game is None else _places(desk, now, board, game.game),
        may_swap=_may_swap(now, proposal),
        broken=() if proposal is None else _judged(now, proposal),
        cure=_cure(desk, now, proposal),
        search=_search(now),
        standing=[one for one in now.worked.report.broken if one in now.worked.was_broken],
        breaks=len(broken) if now.worked.has_rules and (broken or is_changed) else "",
    )


@require_POST
@at_desk(COORDINATORS)
def move(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Keep a move in somebody's draft; nobody is told of it."""
    told = given.posted(request, _MOVE)
    now = drafted(desk)
    to = _place(told["game"], told["place"])
    try:
        found = proposed(now.worked, to, swaps=told["swap"] == "yes")
        refuse_taken(found, now.worked.played)
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


def _cure(desk: Desk, now: Drafted, proposal: Proposal | None) -> Square | None:
    """Return the place that mends what a proposal breaks, where one is near."""
    if proposal is None or not proposal.broken or _may_swap(now, proposal):
        return None
    found = cure_of(now.worked, proposal, _local(desk, now))
    return None if found is None else square_of(found)


def _search(now: Drafted) -> str:
    """Return what is searched for where the published timetable breaks a rule."""
    lost = next((one for one in now.worked.was_broken if one.rule == "places"), None)
    game = None if lost is None else now.worked.were.get(lost.games[0])
    if game is None:
        return urlencode({"kind": "plan"})
    return urlencode({"kind": "repair", "night": f"{game.day}", "field": game.field})


def _may_swap(now: Drafted, proposal: Proposal | None) -> bool:
    """Tell whether the two games of a place that is taken may change places."""
    taken = None if proposal is None or proposal.swaps else proposal.taken
    return taken is not None and taken.game not in now.worked.played


def _judged(now: Drafted, proposal: Proposal) -> list[Broken]:
    """Return what a proposal breaks; that a place is taken is told apart where a swap cures it."""
    is_told = _may_swap(now, proposal)
    return [one for one in proposal.broken if not (is_told and one.rule == "capacity")]


def _places(desk: Desk, now: Drafted, board: Board, game: GameId) -> list[Square]:
    """Return where a game may go: from today on, and not onto a game that was played."""
    today = _local(desk, now).date()
    return [
        one
        for one in board.places
        if one.is_slot
        and one.night >= today
        and not any(
            on.is_played or (on.game.game == game and not on.is_proposed) for on in one.games
        )
    ]


def _local(desk: Desk, now: Drafted) -> datetime:
    zone = ZoneInfo(now.worked.read.season.league.timezone)
    return desk.at.astimezone(zone).replace(tzinfo=None)


def _board(desk: Desk, now: Drafted, week: str, proposal: Proposal | None) -> Board:
    today = _local(desk, now).date()
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
