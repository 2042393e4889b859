"""Adds one player to a roster by hand, corrects one, and takes one out."""

from dataclasses import dataclass
from http import HTTPStatus
from typing import Final

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST

from wholeball.desk.forms.player import ADD_FIELDS, COLUMNS, FIELDS, NewPlayerForm, PlayerForm
from wholeball.desk.id_key import id_key
from wholeball.desk.views import given
from wholeball.desk.views.access import WHO_HAVE_A_TEAM, Desk, at_desk, page
from wholeball.desk.views.refusals import put_on
from wholeball.files.folder import read_folder
from wholeball.files.rosters import FILE
from wholeball.kernel.days import day_of_season
from wholeball.kernel.faults import WholeballError
from wholeball.league.player import Player
from wholeball.reports.spoken import spoken
from wholeball.usecases.set_roster import (
    GIVEN,
    PlayerAt,
    add_player,
    correct_player_on_site,
    drop_player,
    games_of,
    player_at,
)
from wholeball.usecases.show_season import TeamShown, show_team

WAS: Final = "was"
"""The field that says by which name the player stood there when the form was made."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Open:
    """A roster that somebody may change, and the place of a player on it."""

    team: TeamShown
    place: int
    player: Player

    @property
    def name(self) -> str:
        """The name of the team."""
        return self.team.team.team


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(WHO_HAVE_A_TEAM)
def add(request: HttpRequest, desk: Desk, team: str) -> HttpResponse:
    """Add one player; of the student id only a code is kept."""
    shown = _open_roster(desk, team)
    if request.method != "POST":
        given.asked(request)
        return _add_page(request, desk, shown, NewPlayerForm(), desk.season.version)
    told = given.posted(request, (*ADD_FIELDS, given.VERSION))
    version = given.version(told)
    form = NewPlayerForm(told)
    if form.is_valid():
        try:
            added = add_player(
                desk.write(version),
                team,
                form.told(),
                student=form.cleaned_data["student_id"],
                key=id_key(),
                day=shown.on,
                for_staff=desk.is_coordinator,
            )
        except WholeballError as refused:
            put_on(form, refused, file=GIVEN, fields=COLUMNS)
            version = given.version_after(refused, version, now=desk.season.version)
        else:
            name = form.cleaned_data["name"]
            messages.success(
                request, f"{name} is on the roster of {team}. To undo it: {_undo(desk)}."
            )
            for one in added.remarks:
                messages.warning(request, spoken(f"{one.says} {one.cure}"))
            return redirect("desk:team", *desk.where, team)
    return _add_page(request, desk, shown, form, version)


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(WHO_HAVE_A_TEAM)
def correct(request: HttpRequest, desk: Desk, team: str, place: int) -> HttpResponse:
    """Correct name, number or captain of a player of a roster."""
    found = _player(desk, team, place)
    if request.method != "POST":
        given.asked(request)
        desk.saw(f"a player of {team}")
        return _page(request, desk, found, PlayerForm.of(found.player), desk.season.version)
    told = given.posted(request, (*FIELDS, WAS, given.VERSION))
    version = given.version(told)
    form = PlayerForm(told)
    if found.player.name != told[WAS]:
        return _gone(request, desk, found.name, told[WAS])
    if form.is_valid():
        at = _at(desk, found)
        try:
            done = correct_player_on_site(desk.write(version), at, form.told())
        except WholeballError as refused:
            put_on(form, refused, file=FILE, fields=COLUMNS)
            version = given.version_after(refused, version, now=desk.season.version)
        else:
            no_more = f" {done.no_more} is captain no more." if done.no_more else ""
            undo = "correct the name back" if done.follows_name else _undo(desk)
            messages.success(request, f"{done.name} is corrected.{no_more} To undo it: {undo}.")
            return redirect("desk:team", *desk.where, team)
    return _page(request, desk, found, form, version)


@require_POST
@at_desk(WHO_HAVE_A_TEAM)
def drop(request: HttpRequest, desk: Desk, team: str, place: int) -> HttpResponse:
    """Take a player off a roster whom no recorded game knows."""
    found = _player(desk, team, place)
    told = given.posted(request, (WAS, given.VERSION))
    if found.player.name != told[WAS]:
        return _gone(request, desk, found.name, told[WAS])
    try:
        drop_player(desk.write(given.version(told)), _at(desk, found))
    except WholeballError as refused:
        form = PlayerForm.of(found.player)
        version = desk.season.version
        return _page(request, desk, found, form, version, refused=refused)
    messages.success(
        request, f"{found.player.name} is off the roster. To undo it: {_undo(desk)}."
    )
    return redirect("desk:team", *desk.where, team)


def _undo(desk: Desk) -> str:
    return "Season, Changes" if desk.is_coordinator else "add or correct them again"


def _gone(request: HttpRequest, desk: Desk, team: str, was: str) -> HttpResponse:
    """Lead back to a roster on which somebody else stands where a player stood."""
    messages.error(
        request,
        f"Nothing was changed: {was[:80]} does not stand there any more. This is the roster now.",
    )
    return redirect("desk:team", *desk.where, team)


def _at(desk: Desk, found: _Open) -> PlayerAt:
    return PlayerAt(
        team=found.name,
        place=found.place,
        name=found.player.name,
        for_staff=desk.is_coordinator,
    )


def _open_roster(desk: Desk, team: str) -> TeamShown:
    """Return a roster that may be changed: a captain's own, until the rulebook's last day.

    Raises:
        Http404: there is no such team, or it is not this person's.
        WholeballError: the last day is over, and it is no coordinator.
    """
    shown = show_team(desk.read(), desk.team(team), at=desk.at, for_staff=desk.is_coordinator)
    if shown.is_locked and shown.last_day is not None and not desk.is_coordinator:
        raise WholeballError(
            f"{day_of_season(shown.last_day)} was the last day on which captains change a "
            "roster.",
            fix="Nothing was changed. Ask the coordinator.",
            code="locked",
        )
    return shown


def _player(desk: Desk, team: str, place: int) -> _Open:
    """Return a player of a roster that may be changed.

    Raises:
        Http404: nobody stands there.
    """
    shown = _open_roster(desk, team)
    if not 1 <= place <= len(shown.players):
        raise Http404
    return _Open(team=shown, place=place, player=shown.players[place - 1].player)


def _add_page(
    request: HttpRequest, desk: Desk, shown: TeamShown, form: NewPlayerForm, version: int
) -> HttpResponse:
    return page(
        request,
        desk,
        "player_new",
        status=HTTPStatus.UNPROCESSABLE_ENTITY if form.is_bound else HTTPStatus.OK,
        team=shown,
        form=form,
        version=f"{version}",
    )


def _page(
    request: HttpRequest,
    desk: Desk,
    found: _Open,
    form: PlayerForm,
    version: int,
    *,
    refused: WholeballError | None = None,
) -> HttpResponse:
    is_fine = not form.is_bound and refused is None
    read = read_folder(desk.read())
    now = player_at(read, found.name, found.place)
    return page(
        request,
        desk,
        "player",
        status=HTTPStatus.OK if is_fine else HTTPStatus.UNPROCESSABLE_ENTITY,
        team=found.team,
        place=found.place,
        player=found.player,
        games=() if now is None else games_of(read, found.name, now),
        form=form,
        version=f"{version}",
        refused=refused,
    )
