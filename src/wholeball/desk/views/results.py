"""Makes results official, opens them again, and rules on games, each time with a reason."""

from dataclasses import dataclass
from http import HTTPStatus
from typing import Final

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_safe

from wholeball.desk.leads import Lead, lead_of
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, WHO_CERTIFY, WHO_WORK, Desk, at_desk, page
from wholeball.desk.views.unread import unread
from wholeball.files.cells import LONGEST
from wholeball.game.paper import score_of
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.reports.figures import score
from wholeball.reports.game_told import ToldGame
from wholeball.reports.game_words import game_words
from wholeball.reports.spoken import spoken
from wholeball.reports.unsigned_words import unsigned_words
from wholeball.usecases.award_game import TO, Award, Awarded
from wholeball.usecases.certify_game import MOST_REASON, certify_game, entries_of, reopen_game
from wholeball.usecases.rule_on_game import rule_on_game
from wholeball.usecases.show_doubts import Remark, doubts_about
from wholeball.usecases.show_game import GameShown, show_game
from wholeball.usecases.show_results import show_results

GET_OR_POST: Final = ("GET", "HEAD", "POST")
ENTRIES: Final = "entries"
"""The field that says how many entries a game had when it was looked at."""
_RULED: Final = {
    "home": "for the home side",
    "away": "for the away side",
    "draw": "as a draw",
    "nobody": "for nobody: it is annulled",
    "as_played": "as it was played: earlier rulings are taken back",
}


class ReasonForm(forms.Form):
    """Why a result is certified all the same, or opened again."""

    reason = forms.CharField(
        label="Reason", max_length=MOST_REASON, widget=forms.Textarea(attrs={"rows": 3})
    )

    def __init__(self, data: dict[str, str] | None = None, *, needed: bool) -> None:
        """Ask for the reason; it may stay empty where none is `needed`."""
        super().__init__(data)
        self.fields["reason"].required = needed


class AwardForm(forms.Form):
    """A ruling about a game."""

    to = forms.ChoiceField(label="The game counts", choices=[(one, _RULED[one]) for one in TO])
    goals = forms.CharField(
        label="Goals that count",
        required=False,
        max_length=7,
        help_text="Home first, such as 0-3. Left empty, the other side forfeits.",
    )
    ref = forms.CharField(
        label="Article", max_length=LONGEST, help_text="The one it cites, such as H 3.5."
    )
    why = forms.CharField(
        label="Reason",
        max_length=LONGEST,
        help_text="As people shall read it, on public pages too: write no name of a person.",
        widget=forms.Textarea(attrs={"rows": 3}),
    )

    def clean_goals(self) -> tuple[int, int] | None:
        """Return the goals as two numbers."""
        text = self.cleaned_data["goals"]
        if not text:
            return None
        try:
            found = score_of(text)
        except ValueError as error:
            raise forms.ValidationError("Write two numbers, home first: 0-3.") from error
        return found.home, found.away


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """Both versions of a game in words: as it counts until now, and as it would count."""

    played: str
    was: str
    now: str
    moved: tuple[str, ...]
    out: tuple[str, ...]
    back: tuple[str, ...]
    has_bracket: bool
    remarks: tuple[str, ...]


@require_safe
@at_desk(WHO_CERTIFY)
def results(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List every result, and what does not stand as it was played; own games can be opened."""
    given.asked(request)
    shown, may = show_results(desk.read()), desk.may(WHO_WORK)
    works = [one.result.game for one in shown.lines if may(one.result.game)]
    return page(request, desk, "results", shown=shown, works=works)


@require_http_methods(GET_OR_POST)
@at_desk(WHO_CERTIFY)
def certify(request: HttpRequest, desk: Desk, game: str) -> HttpResponse:
    """Show what is unsigned, disputed or open, and make the result official."""
    name = desk.game(game)
    if request.method != "POST":
        given.asked(request)
        return _certify(request, desk, name, ReasonForm(needed=False))
    sent = given.posted(request, ("reason", ENTRIES))
    seen = given.whole(sent[ENTRIES], what=ENTRIES)
    form = ReasonForm(sent, needed=False)
    if not form.is_valid():
        return _certify(request, desk, name, form)
    try:
        reason = form.cleaned_data["reason"]
        decided = certify_game(desk.write(), name, by=desk.author(), reason=reason, seen=seen)
    except WholeballError as refused:
        if refused.code in ("open_questions", "damaged"):
            says = (
                f"{refused.says} Answer first, or write here why it is certified all the same."
            )
            form.add_error("reason", says)
        else:
            form.add_error(None, _plain(refused))
        return _certify(request, desk, name, form)
    says = f"Certified. {game_words(decided.told).counts_as}"
    messages.success(request, f"{says} What is entered from now on does not change it.")
    return redirect("desk:game", *desk.where, name)


@require_http_methods(GET_OR_POST)
@at_desk(COORDINATORS)
def reopen(request: HttpRequest, desk: Desk, game: str) -> HttpResponse:
    """Open a certified result again: what was certified, and what would count instead."""
    name = desk.game(game)
    if request.method != "POST":
        given.asked(request)
        return _reopen(request, desk, name, ReasonForm(needed=True))
    sent = given.posted(request, ("reason", ENTRIES))
    seen = given.whole(sent[ENTRIES], what=ENTRIES)
    form = ReasonForm(sent, needed=True)
    if not form.is_valid():
        return _reopen(request, desk, name, form)
    try:
        reason = form.cleaned_data["reason"]
        decided = reopen_game(desk.write(), name, by=desk.author(), reason=reason, seen=seen)
    except WholeballError as refused:
        form.add_error(None, _plain(refused))
        return _reopen(request, desk, name, form)
    messages.success(request, f"Open again. {game_words(decided.told).counts_as}")
    return redirect("desk:game", *desk.where, name)


@require_http_methods(GET_OR_POST)
@at_desk(COORDINATORS)
def award(request: HttpRequest, desk: Desk, game: str) -> HttpResponse:
    """Rule on a game: first both versions are shown, then the ruling is written."""
    name = desk.game(game)
    if request.method != "POST":
        given.asked(request)
        return _award(request, desk, name, AwardForm())
    fields = ("to", "goals", "ref", "why", "sure", given.VERSION)
    sent = given.posted(request, fields)
    form = AwardForm(sent)
    if not form.is_valid():
        return _award(request, desk, name, form)
    said = form.cleaned_data
    ruling = Award(
        game=name, to=said["to"], why=said["why"], ref=said["ref"], goals=said["goals"]
    )
    is_sure = sent["sure"] == "yes"
    try:
        version = given.version(sent) if is_sure else None
        record = desk.write(version) if is_sure else desk.read()
        found = rule_on_game(record, ruling, at=desk.at, writes=is_sure)
    except WholeballError as refused:
        form.add_error(None, _plain(refused))
        return _award(request, desk, name, form)
    if not is_sure:
        return _award(request, desk, name, form, compared=_compared(found))
    messages.success(
        request,
        f"Ruling {found.ruling.number} is written. To take it back, rule as it was played.",
    )
    return redirect("desk:game", *desk.where, name)


def _told(desk: Desk, name: GameId) -> ToldGame:
    return _shown(desk, name).told


def _shown(desk: Desk, name: GameId) -> GameShown:
    return show_game(desk.read(), name, reader="officials", html=None, printed=desk.at)


def _certify(request: HttpRequest, desk: Desk, name: GameId, form: ReasonForm) -> HttpResponse:
    entries = entries_of(desk.read(), name)  # before the rest: what comes between is told
    shown = _shown(desk, name)
    told = shown.told
    return page(
        request,
        desk,
        "certify",
        entries=entries,
        status=HTTPStatus.UNPROCESSABLE_ENTITY if form.errors else HTTPStatus.OK,
        told=told,
        words=game_words(told),
        unsigned=unsigned_words(told),
        unread=unread(desk).get(name, 0),
        doubts=_led(desk, name),
        to_start=shown.to_start,
        form=form,
    )


def _led(desk: Desk, name: GameId) -> list[tuple[Remark, Lead | None]]:
    """Return what is to look at about a game, and for who may open all pages where it is mended."""
    found = doubts_about(desk.read(), name, at=desk.at)
    return [(one, lead_of(one, desk.where) if desk.is_coordinator else None) for one in found]


def _reopen(request: HttpRequest, desk: Desk, name: GameId, form: ReasonForm) -> HttpResponse:
    entries = entries_of(desk.read(), name)  # before the rest, as for certifying
    told = _told(desk, name)
    return page(
        request,
        desk,
        "reopen",
        entries=entries,
        status=HTTPStatus.UNPROCESSABLE_ENTITY if form.errors else HTTPStatus.OK,
        told=told,
        words=game_words(told),
        form=form,
    )


def _award(
    request: HttpRequest,
    desk: Desk,
    name: GameId,
    form: AwardForm,
    *,
    compared: Compared | None = None,
) -> HttpResponse:
    told = _told(desk, name)
    return page(
        request,
        desk,
        "award",
        status=HTTPStatus.UNPROCESSABLE_ENTITY if form.errors else HTTPStatus.OK,
        told=told,
        words=game_words(told),
        form=form,
        compared=compared,
    )


def _compared(found: Awarded) -> Compared:
    return Compared(
        played=_score(found.played),
        was=_score(found.was),
        now=_score(found.now),
        moved=tuple(
            f"{one.pool}: {one.team}, {_place(one.before)} until now, {_place(one.after)} then"
            for one in found.moved
        ),
        out=tuple(str(one.team) for one in found.out),
        back=tuple(map(str, found.back)),
        has_bracket=found.has_bracket,
        remarks=tuple(f"{one.says} {one.cure}" for one in found.brought),
    )


def _score(goals: tuple[int, int] | None) -> str:
    return "no score" if goals is None else score(*goals)


def _place(one: object) -> str:
    place, points = getattr(one, "place", None), getattr(one, "points", None)
    return "no place" if place is None else f"place {place} with {points} points"


def _plain(refused: WholeballError) -> str:
    """Return a refusal for a page: what is so; the page itself has the cure."""
    return spoken(refused.says)
