"""Shows the play-offs of a plan, takes the bracket's games, and adds, changes and drops one."""

from collections.abc import Callable
from http import HTTPStatus

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wholeball.desk.forms.play_offs import FIELDS, ROUNDS, PlayOffForm, RoundsForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.divisions import kept
from wholeball.desk.views.refusals import faults_of, put_on, refused_at
from wholeball.files.folder import read_folder
from wholeball.files.planning_toml import FILE
from wholeball.kernel.faults import WholeballError
from wholeball.rulebook.sentence import counted
from wholeball.season.bracket_parts import brackets_of
from wholeball.usecases.offer_bracket import Offer, offer_bracket
from wholeball.usecases.set_play_offs import (
    PlayOffTold,
    add_play_off,
    change_play_off,
    drop_play_off,
    play_offs_of,
    take_bracket,
)
from wholeball.usecases.show_play_offs import show_play_offs

_UNDO = "To undo it: Season, Changes."


@require_safe
@at_desk(COORDINATORS)
def play_offs(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show the play-off games of the plan."""
    given.asked(request)
    return _page(request, desk)


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def take(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show what comes, goes and stays with the bracket's games, and take them."""
    offer = offer_bracket(desk.read())
    if request.method != "POST":
        given.asked(request)
        form = RoundsForm(rounds=offer.rounds)
        return _take_page(request, desk, offer, form, desk.season.version)
    posted = given.posted(request, (*ROUNDS, given.VERSION))
    version = given.version(posted)
    form = RoundsForm(posted, rounds=offer.rounds)
    if form.is_valid():
        try:
            taken = take_bracket(desk.write(version), form.rounds())
        except WholeballError as refused:
            put_on(form, refused)
            version = given.version_after(refused, version, now=desk.season.version)
        else:
            messages.success(
                request, f"The plan has {counted(taken, 'play-off game')}. {_UNDO}"
            )
            return redirect("desk:play_offs", *desk.where)
    return _take_page(request, desk, offer, form, version)


@require_POST
@at_desk(COORDINATORS)
def add(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Add a game."""
    posted = given.posted(request, (*FIELDS, given.VERSION))
    seen = given.version(posted)
    form = PlayOffForm(posted, brackets=_brackets(desk))
    version = _refused(desk, form, seen, lambda: add_play_off(desk.write(seen), form.told()))
    if version is not None:
        return _page(request, desk, form=form, version=version)
    messages.success(request, f"Game {form.told().game} is added. {_UNDO}")
    return redirect("desk:play_offs", *desk.where)


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def change(request: HttpRequest, desk: Desk, game: str) -> HttpResponse:
    """Change who meets in a game, its round or its name."""
    if request.method != "POST":
        given.asked(request)
        form = PlayOffForm.of(_game(desk, game), _brackets(desk))
        return _change_page(request, desk, game, form, desk.season.version)
    posted = given.posted(request, (*FIELDS, given.VERSION))
    seen = given.version(posted)
    form = PlayOffForm(posted, brackets=_brackets(desk))
    version = _refused(
        desk, form, seen, lambda: change_play_off(desk.write(seen), game, form.told())
    )
    if version is not None:
        return _change_page(request, desk, game, form, version)
    messages.success(request, kept(game, form.told().game))
    return redirect("desk:play_offs", *desk.where)


@require_POST
@at_desk(COORDINATORS)
def drop(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Take a game out."""
    told = given.posted(request, ("game", given.VERSION))
    version = given.version(told)
    try:
        drop_play_off(desk.write(version), told["game"])
    except WholeballError as refused:
        return _page(request, desk, refused=refused)
    messages.success(request, f"Game {told['game']} is taken out. {_UNDO}")
    return redirect("desk:play_offs", *desk.where)


def _refused(
    desk: Desk, form: PlayOffForm, seen: int, write: Callable[[], object]
) -> int | None:
    return refused_at(
        form, seen, write, now=lambda: desk.season.version, file=FILE, fields=FIELDS
    )


def _page(
    request: HttpRequest,
    desk: Desk,
    *,
    form: PlayOffForm | None = None,
    version: int | None = None,
    refused: WholeballError | None = None,
) -> HttpResponse:
    is_fine = form is None and refused is None
    return page(
        request,
        desk,
        "play_offs",
        status=HTTPStatus.OK if is_fine else HTTPStatus.UNPROCESSABLE_ENTITY,
        shown=show_play_offs(desk.read()),
        form=form or PlayOffForm(brackets=_brackets(desk)),
        version=f"{desk.season.version if version is None else version}",
        refused=refused,
        faults=faults_of(refused),
    )


def _take_page(
    request: HttpRequest, desk: Desk, offer: Offer, form: RoundsForm, version: int
) -> HttpResponse:
    return page(
        request,
        desk,
        "take_bracket",
        status=HTTPStatus.UNPROCESSABLE_ENTITY if form.is_bound else HTTPStatus.OK,
        offer=offer,
        form=form,
        version=f"{version}",
    )


def _change_page(
    request: HttpRequest, desk: Desk, game: str, form: PlayOffForm, version: int
) -> HttpResponse:
    return page(
        request,
        desk,
        "play_off",
        status=HTTPStatus.UNPROCESSABLE_ENTITY if form.is_bound else HTTPStatus.OK,
        game=game,
        form=form,
        version=f"{version}",
    )


def _brackets(desk: Desk) -> list[str]:
    """Return the brackets that a seed has to name; none where the season has one."""
    return [one for one in brackets_of(read_folder(desk.read()).season) if one]


def _game(desk: Desk, game: str) -> PlayOffTold:
    """Return a game of the plan.

    Raises:
        Http404: there is none of that name.
    """
    every = play_offs_of(read_folder(desk.read()))
    found = next((one for one in every if one.game == game), None)
    if found is None:
        raise Http404
    return found
