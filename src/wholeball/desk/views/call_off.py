"""Calls off a night, a site or a field, and takes that back with a correction."""

from datetime import date, time
from typing import TypedDict
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods

from wholeball.desk.forms.call_off import WordForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.refusals import refusals_on
from wholeball.desk.views.telling import by_mail, reached, said, told_on, write_and_tell
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.notices import FILE
from wholeball.kernel.identity import SiteId
from wholeball.league.notice import Notice
from wholeball.league.place import sites_of
from wholeball.planning.days import day
from wholeball.store.mail import occasion_of
from wholeball.store.models import Occasion
from wholeball.usecases.call_off import (
    Word,
    correction_of,
    place_of,
    say_word,
    word_on,
)
from wholeball.usecases.show_sites import fields_to_name

_FIELDS = ("night", "place", "state", "next_word", "says", "sure", given.VERSION)


class _Looked(TypedDict):
    """A word that is looked at before it is said, and how many are told by mail and by hand."""

    word: Word
    place: str
    number: int
    mails: int
    by_hand: int


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def call_off(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Ask what is off; show whom that concerns and what they will read; then say so."""
    record = desk.read()
    read = read_folder(record)
    known = fields_to_name(record, read)
    today, has_sites = _today(desk, read), bool(sites_of(read.fields))
    if request.method != "POST":
        asked = given.asked(request, "night", "place")
        first = {"night": asked["night"] or f"{today}", "place": asked["place"], "state": "off"}
        form = WordForm(initial=first, read=read, fields_known=known, today=today)
        return page(request, desk, "call_off", form=form, has_sites=has_sites)
    told = given.posted(request, _FIELDS)
    form = WordForm(told, read=read, fields_known=known, today=today)
    if form.is_valid():
        with refusals_on(form, file=FILE, fields={"says": "says"}):
            notice = form.notice()
            word = word_on(record, notice, reached(desk), now=desk.at)
            if told["sure"] == "yes":
                return _said(request, desk, notice, word, given.version(told))
            looked = _looked_at(notice, word)
            return page(request, desk, "call_off", form=form, has_sites=has_sites, **looked)
    return page(request, desk, "call_off", status=422, form=form, has_sites=has_sites)


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def take_back(request: HttpRequest, desk: Desk, number: int) -> HttpResponse:
    """Show the correction that takes a word back; then say it."""
    if request.method == "POST":
        given.posted(request, ())
        with desk.write().held():  # of two at once the second finds it taken back
            return _taken_back(request, desk, number)
    given.asked(request)
    occasion = _called_off(desk, number)
    if hasattr(occasion, "correction"):
        return _was_taken_back(request, desk, occasion.correction)
    notice = notice_of(occasion)
    word = _correction(desk, occasion)
    mails, by_hand = by_mail(word.letters)
    return page(
        request,
        desk,
        "take_back",
        occasion=occasion,
        word=word,
        place=place_of(notice),
        mails=mails,
        by_hand=by_hand,
    )


def _taken_back(request: HttpRequest, desk: Desk, number: int) -> HttpResponse:
    occasion = _called_off(desk, number)
    if hasattr(occasion, "correction"):
        return _was_taken_back(request, desk, occasion.correction)
    word = _correction(desk, occasion)
    corrected = said(desk, "correction", f"Taken back: {occasion.says}")
    corrected.corrects = occasion
    sent = write_and_tell(
        corrected, lambda: say_word(desk.write(), word.notices, now=desk.at), word.letters
    )
    messages.success(request, f"It is taken back. {word.public}")
    return redirect("desk:message", *desk.where, sent.pk)


def _correction(desk: Desk, occasion: Occasion) -> Word:
    """Return what takes the word of an occasion back, for everybody who was told."""
    return correction_of(
        desk.read(),
        notice_of(occasion),
        reached(desk),
        before=told_on(occasion),
        now=desk.at,
    )


def _called_off(desk: Desk, number: int) -> Occasion:
    """Return the occasion on which a word was said.

    Raises:
        Http404: there is none of that number.
    """
    occasion = occasion_of(desk.season, number)
    if occasion is None or occasion.kind != "called_off":
        raise Http404
    return occasion


def _was_taken_back(request: HttpRequest, desk: Desk, correction: Occasion) -> HttpResponse:
    messages.warning(request, "That was taken back already.")
    return redirect("desk:message", *desk.where, correction.pk)


def _looked_at(notice: Notice, word: Word) -> _Looked:
    """Return what shows whom a word concerns and what they will read; nothing is said yet."""
    mails, by_hand = by_mail(word.letters)
    return _Looked(
        word=word,
        place=place_of(notice),
        number=len(word.games),
        mails=mails,
        by_hand=by_hand,
    )


def _said(
    request: HttpRequest, desk: Desk, notice: Notice, word: Word, version: int
) -> HttpResponse:
    """Say a word, unless another was said since it was looked at.

    Raises:
        WholeballError: one was, as by a second click; nobody is told twice.
    """
    told = said(
        desk,
        "called_off",
        f"{day(notice.night)}, {place_of(notice)}: {_state(notice)}",
    )
    told.what = _kept(notice)
    occasion = write_and_tell(
        told, lambda: say_word(desk.write(version), word.notices, now=desk.at), word.letters
    )
    messages.success(request, f"The public reads: {word.public}")
    return redirect("desk:message", *desk.where, occasion.pk)


def _state(notice: Notice) -> str:
    return f"next word at {notice.next_word:%H:%M}" if notice.next_word else notice.state


def _kept(notice: Notice) -> dict[str, str]:
    return {
        "night": f"{notice.night}",
        "site": notice.site or "",
        "field": notice.field or "",
        "state": notice.state,
        "next_word": f"{notice.next_word:%H:%M}" if notice.next_word else "",
        "says": notice.says,
    }


def notice_of(occasion: Occasion) -> Notice:
    """Return the word that was said on an occasion."""
    what = occasion.what
    return Notice(
        night=date.fromisoformat(what["night"]),
        site=SiteId(what["site"]) if what["site"] else None,
        field=what["field"] or None,
        state=what["state"],
        next_word=time.fromisoformat(what["next_word"]) if what["next_word"] else None,
        says=what["says"],
    )


def _today(desk: Desk, read: SeasonFolder) -> date:
    return desk.at.astimezone(ZoneInfo(read.season.league.timezone)).date()
