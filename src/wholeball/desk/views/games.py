"""Shows a game as it stands, and takes what is written about it: scorecard, answers, reports."""

from dataclasses import dataclass
from http import HTTPStatus
from typing import Final

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import (
    WHO_CERTIFY,
    WHO_ENTER,
    WHO_REPORT,
    WHO_WORK,
    Desk,
    at_desk,
    page,
)
from wholeball.desk.views.refusals import faults_of
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.reports.game_page import spot_of
from wholeball.reports.game_words import game_words
from wholeball.usecases.answer_questions import answer_question, game_to_answer, open_questions
from wholeball.usecases.certify_game import entries_of
from wholeball.usecases.enter_game import (
    Entered,
    GameToEnter,
    card_so_far,
    enter_card,
    game_to_enter,
    redo,
    undo,
)
from wholeball.usecases.not_started import starts_only
from wholeball.usecases.report_incident import incident_reports, report_incident
from wholeball.usecases.said_full_time import said_full_time
from wholeball.usecases.scorecard_sheet import Asked, asked
from wholeball.usecases.sheet_faults import refuse_unmeant
from wholeball.usecases.show_game import GameShown, show_game
from wholeball.usecases.typed_scorecard import card_of
from wholeball.usecases.unread_reports import reading_of

ENTRIES: Final = "entries"
"""The field that says how many entries the game had when its sheet was opened."""


@require_safe
@at_desk(WHO_WORK)
def game(request: HttpRequest, desk: Desk, game: str) -> HttpResponse:
    """Show what a game has come to, and what may be done about it."""
    given.asked(request)
    name = desk.game(game)
    record = desk.read()
    entries = entries_of(record, name)  # before the rest: what comes between is told
    shown = show_game(record, name, reader="officials", html=None, printed=desk.at)
    reports = incident_reports(record, name, own=None if desk.is_coordinator else desk.name)
    if reports:
        desk.saw(reading_of(len(reports), name))
    return page(
        request,
        desk,
        "game",
        told=shown.told,
        entries=entries,
        certifies=desk.may(WHO_CERTIFY)(name),
        enters=desk.may(WHO_ENTER)(name),
        words=game_words(shown.told),
        spot=spot_of(shown.told) if shown.told.has_entries or shown.told.settled else None,
        remarks=shown.remarks,
        to_start=shown.to_start,
        is_ready=_is_ready(shown),
        reports=reports,
        ruling=shown.told.settled and shown.told.settled.ruling,
        goes_on=desk.is_coordinator
        and shown.told.state.phase == "broken_off"
        and shown.told.settled is None,
    )


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(WHO_ENTER)
def scorecard(request: HttpRequest, desk: Desk, game: str) -> HttpResponse:
    """Take a paper scorecard in, typed on one sheet."""
    name = desk.game(game)
    if request.method != "POST":
        given.asked(request)
        to = game_to_enter(desk.read(), name)
        return _sheet(request, desk, to)
    to = game_to_enter(desk.write(), name)
    sheet = _asked(to)
    form = given.posted(request, (ENTRIES, *(one.name for one in sheet)))
    seen = given.whole(form[ENTRIES], what=ENTRIES)
    if seen != len(to.log.entries):
        return _sheet(request, desk, to, Tried(typed=form, is_newer=True))
    try:
        card = card_of(form, rules=to.rules, was=card_so_far(to))
        refuse_unmeant(card, to.rules)
        card = said_full_time(card, to.rules)
        entered = enter_card(to, card, by=desk.author(), seen=seen)
    except WholeballError as refused:
        if refused.code == "conflict":
            to = game_to_enter(desk.read(), name)
            return _sheet(request, desk, to, Tried(typed=form, is_newer=True))
        return _sheet(request, desk, to, Tried(typed=form, refused=refused))
    return _entered(request, desk, name, entered)


@require_POST
@at_desk(WHO_ENTER)
def step(request: HttpRequest, desk: Desk, game: str) -> HttpResponse:
    """Go one entering back, or bring back what was taken back."""
    name = desk.game(game)
    sent = given.posted(request, ("way", ENTRIES))
    way, seen = sent["way"], given.whole(sent[ENTRIES], what=ENTRIES)
    if way not in ("undo", "redo"):
        raise BadRequest("way is undo or redo.")
    to = game_to_enter(desk.write(), name)
    try:
        entered = (undo if way == "undo" else redo)(to, by=desk.author(), seen=seen)
    except WholeballError as refused:
        messages.error(request, refused.says)
        return redirect("desk:game", *desk.where, name)
    return _entered(request, desk, name, entered)


@require_POST
@at_desk(WHO_CERTIFY)
def answer(request: HttpRequest, desk: Desk, game: str) -> HttpResponse:
    """Answer an open question about a game."""
    name = desk.game(game)
    form = given.posted(request, ("event", "code", "answer", "reason"))
    to = game_to_answer(desk.write(), name)
    asked_for = (form["event"], form["code"])
    found = next(
        (
            one
            for one in open_questions(to)
            if (one.question.event, one.question.code) == asked_for
        ),
        None,
    )
    if found is None:
        messages.error(request, "That question is open no more. Look at the game as it is now.")
        return redirect("desk:game", *desk.where, name)
    try:
        by, reason = desk.author(), form["reason"]
        answer_question(to, found.question, form["answer"], reason=reason, by=by)
    except WholeballError as refused:
        return _questions(request, desk, to, refused=refused, typed=form)
    messages.success(request, "Answered. What was recorded stays as it was.")
    return redirect("desk:questions", *desk.where, name)


@require_safe
@at_desk(WHO_CERTIFY)
def questions(request: HttpRequest, desk: Desk, game: str) -> HttpResponse:
    """List the open questions of a game, each with what every answer does."""
    given.asked(request)
    return _questions(request, desk, game_to_answer(desk.read(), desk.game(game)))


@require_POST
@at_desk(WHO_REPORT)
def report(request: HttpRequest, desk: Desk, game: str) -> HttpResponse:
    """Keep what somebody saw of an incident."""
    name = desk.game(game)
    says = given.posted(request, ("says",))["says"]
    try:
        report_incident(desk.write(), name, by=desk.name, says=says, at=desk.at)
    except WholeballError as refused:
        return page(
            request,
            desk,
            "report_incident",
            status=HTTPStatus.UNPROCESSABLE_ENTITY,
            game=name,
            says=says,
            refused=refused,
        )
    messages.success(request, "Your report is kept. You and the coordinator can read it.")
    return redirect("desk:game", *desk.where, name)


def _is_ready(shown: GameShown) -> bool:
    """Tell whether nothing is left to do about a game but to certify it."""
    told = shown.told
    waits = told.state.protests and not (told.settled and told.settled.ruling)
    is_over = told.state.ending is not None and told.state.ending.how != "to_coordinator"
    is_open = told.state.open_questions or waits or shown.to_start
    return is_over and not told.official and not is_open


def _asked(to: GameToEnter) -> tuple[Asked, ...]:
    return asked(to.rules, card_so_far(to), home=to.home, away=to.away)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """A sheet that was sent and not taken: what was typed, and why it was not."""

    typed: dict[str, str]
    refused: WholeballError | None = None
    is_newer: bool = False

    @property
    def status(self) -> int:
        """What the answer is called."""
        return HTTPStatus.CONFLICT if self.is_newer else HTTPStatus.UNPROCESSABLE_ENTITY


def _sheet(
    request: HttpRequest, desk: Desk, to: GameToEnter, tried: Tried | None = None
) -> HttpResponse:
    """Show the sheet with what was typed, what is wrong beside it, or that it is newer now."""
    refused = None if tried is None else tried.refused
    faults = faults_of(refused)
    beside = {one.place.column: one.cure for one in faults if one.place.column}
    parts = _parts(_asked(to), None if tried is None else tried.typed, beside)
    return page(
        request,
        desk,
        "scorecard",
        status=HTTPStatus.OK if tried is None else tried.status,
        to=to,
        parts=parts,
        to_start=starts_only(to.fixture, at=desk.at, timezone=to.timezone),
        folded={part: not _is_said(parts[part]) for part in ("ending", "more")},
        other=[str(one) for one in faults if not one.place.column] or _said(refused, faults),
        entries=len(to.log.entries),
        is_newer=tried is not None and tried.is_newer,
        has_faults=bool(beside),
    )


def _is_said(fields: list[dict[str, object]]) -> bool:
    """Tell whether a fold holds anything, or something to mend."""
    return any(field["value"] or field["fault"] for field in fields)


def _said(refused: WholeballError | None, faults: tuple[object, ...]) -> list[str]:
    return [] if refused is None or faults else [str(refused)]


def _parts(
    sheet: tuple[Asked, ...], typed: dict[str, str] | None, beside: dict[str, str]
) -> dict[str, list[dict[str, object]]]:
    """Return the fields of the sheet by its parts, each with what was typed and its fault."""
    parts: dict[str, list[dict[str, object]]] = {}
    for one in sheet:
        value = one.value if typed is None else typed[one.name]
        field = {"asked": one, "value": value, "fault": beside.get(one.name, "")}
        parts.setdefault(one.part, []).append(field)
    return parts


def _questions(
    request: HttpRequest,
    desk: Desk,
    to: GameToEnter,
    *,
    refused: WholeballError | None = None,
    typed: dict[str, str] | None = None,
) -> HttpResponse:
    status = HTTPStatus.OK if refused is None else HTTPStatus.UNPROCESSABLE_ENTITY
    return page(
        request,
        desk,
        "questions",
        status=status,
        to=to,
        questions=open_questions(to),
        refused=refused,
        typed=typed or {},
    )


def _entered(request: HttpRequest, desk: Desk, name: GameId, entered: Entered) -> HttpResponse:
    count = len(entered.gone) + len(entered.new)
    if not count:
        messages.info(request, "Nothing differs from what stood there; nothing was written.")
    else:
        words = game_words(entered.after)
        messages.success(
            request,
            f"{'1 entry' if count == 1 else f'{count} entries'} written. {words.counts_as}",
        )
    for one in entered.remarks:
        messages.warning(request, f"{one.says} {one.cure}")
    return redirect("desk:game", *desk.where, name)
