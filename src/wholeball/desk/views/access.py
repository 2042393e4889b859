"""Lets somebody at a desk: who they are, the season, and what they may do, before any view."""

import secrets
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, tzinfo
from functools import wraps
from http import HTTPStatus
from typing import Concatenate, Final, ParamSpec, TypeAlias
from zoneinfo import ZoneInfo

from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.cache import never_cache

from wholeball.files.folder import read_folder
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.store import audit
from wholeball.store.full_disk import CODE as FULL
from wholeball.store.models import Account, Season
from wholeball.store.permissions import (
    is_captain,
    is_coordinator,
    is_official,
    is_scorekeeper,
    is_supervisor,
    may_run_desk,
)
from wholeball.store.reader import Reader, reader_of
from wholeball.store.record import DatabaseRecord
from wholeball.store.scope import May, game_for, games_for, season_for, team_for
from wholeball.store.snapshot import Snapshot, snapshot_of
from wholeball.store.writing import Writer
from wholeball.usecases.rising_ids import rising_ids
from wholeball.usecases.seal_entries import Author

_P = ParamSpec("_P")
_ABSENT: Final = frozenset(
    {"range", "no_game", "unknown_game", "unknown_team", "unknown_value"}
)
"""Refusals that say that what an address names is not there."""
COORDINATORS: Final[May] = is_coordinator
WHO_CERTIFY: Final[May] = is_coordinator | is_supervisor
WHO_ENTER: Final[May] = is_coordinator | is_supervisor | is_scorekeeper
WHO_WORK: Final[May] = may_run_desk
WHO_HAVE_A_TEAM: Final[May] = is_coordinator | is_captain
WHO_HAVE_A_DESK: Final[May] = may_run_desk | is_captain
WHO_REPORT: Final[May] = is_coordinator | is_supervisor | is_official | is_scorekeeper


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """Somebody at work on a season, at a moment, on a page open to whom it `admits`."""

    reader: Reader
    admits: May
    account: Account
    season: Season
    at: datetime

    @property
    def organisation(self) -> str:
        """The part of addresses that names who runs the season."""
        return self.season.organisation.slug

    @property
    def slug(self) -> str:
        """The part of addresses that names the season."""
        return self.season.slug

    @property
    def where(self) -> tuple[str, str]:
        """Both parts, as addresses take them."""
        return self.organisation, self.slug

    @property
    def is_coordinator(self) -> bool:
        """Whether all pages of the desk are open."""
        return bool(is_coordinator(self.reader, self.season))

    @property
    def begins_seasons(self) -> bool:
        """Whether another season of the organisation may be begun: by who coordinates all."""
        seats = self.reader.seats_in(self.season)
        return any(one.role == "coordinator" and one.season is None for one in seats)

    @property
    def certifies(self) -> bool:
        """Whether results may be made official, of some game or other."""
        return bool(WHO_CERTIFY(self.reader, self.season))

    @property
    def works(self) -> bool:
        """Whether games are worked at, in any role."""
        return bool(WHO_WORK(self.reader, self.season))

    @property
    def officiates(self) -> bool:
        """Whether crews of the season may name this person as an official."""
        return bool(self.reader.persons_in(self.season, role="official"))

    @property
    def name(self) -> str:
        """The name that entries are signed with: that of the crews, else the account's."""
        for role in ("official", "scorekeeper", "supervisor"):
            named = sorted(self.reader.persons_in(self.season, role=role))
            if named:
                return named[0]
        return (self.account.name or self.account.email)[:64]

    @property
    def teams(self) -> tuple[str, ...]:
        """The teams whose captain it is."""
        return tuple(sorted(self.reader.teams_in(self.season, role="captain")))

    @property
    def zone(self) -> tzinfo:
        """The time zone of the fields; universal time where the season cannot be read."""
        try:
            return ZoneInfo(read_folder(self.read()).season.league.timezone)
        except WholeballError:
            return UTC

    def read(self) -> Snapshot:
        """Return the season as it is now."""
        return snapshot_of(self.season)

    def write(self, version: int | None = None) -> DatabaseRecord:
        """Return the season to be changed by somebody who looked at a version of it."""
        writer = Writer(account=self.account, at=self.at, version=version)
        return DatabaseRecord(self.season, writer)

    def author(self) -> Author:
        """Return who makes entries in a game's log."""
        wall = int(self.at.timestamp() * 1000)
        return Author(name=self.name, wall=wall, ids=rising_ids(wall, secrets.randbits))

    def saw(self, what: str) -> None:
        """Note that something private was read."""
        self._note("saw", what)

    def refused(self, what: str) -> None:
        """Note that a change was tried that is not this person's."""
        self._note("tried", what)

    def may(self, do: May | None = None) -> Callable[[GameId], bool]:
        """Return what tells whether something may be done to a game: by default, work at it."""
        games = games_for(self.reader, self.season, do or self.admits)
        return lambda game: games is None or game in games

    def game(self, name: str) -> GameId:
        """Return a game that is worked at.

        Raises:
            Http404: there is none, or it is not this person's.
        """
        return GameId(game_for(self.reader, self.season, name, self.admits))

    def team(self, name: str) -> str:
        """Return a team that is looked after.

        Raises:
            Http404: there is none, or it is not this person's.
        """
        return team_for(self.reader, self.season, name)

    def _note(self, did: str, what: str) -> None:
        audit.note(
            self.season.organisation,
            did=did,
            what=f"{self.slug}: {what}",
            by=self.account,
            at=self.at,
        )


View: TypeAlias = Callable[Concatenate[HttpRequest, Desk, _P], HttpResponse]


def at_desk(may: May) -> Callable[[View[_P]], Callable[..., HttpResponse]]:
    """Let a view be called by somebody who may; to all others there is no such page.

    A refusal that the view does not answer itself is shown as a page; a change that was tried
    by somebody who may not is noted.
    """

    def wrapped(view: View[_P]) -> Callable[..., HttpResponse]:
        @wraps(view)
        def answer(
            request: HttpRequest,
            organisation: str,
            season: str,
            *args: _P.args,
            **kwargs: _P.kwargs,
        ) -> HttpResponse:
            reader = reader_of(request.user)
            found = season_for(reader, organisation, season, _any_role)
            desk = _desk(request, reader, found, may)
            try:
                _refuse_others(desk)
                return view(request, desk, *args, **kwargs)
            except Http404:
                if request.method == "POST":
                    desk.refused(request.path[:200])
                raise
            except WholeballError as refused:
                return _told(request, desk, refused)

        return never_cache(login_required(answer))

    return wrapped


def _refuse_others(desk: Desk) -> None:
    if not desk.admits(desk.reader, desk.season):
        raise Http404


def _any_role(reader: Reader, season: Season, /) -> bool:
    return bool(reader.roles_in(season))


def _desk(request: HttpRequest, reader: Reader, season: Season, may: May) -> Desk:
    if not isinstance(request.user, Account):
        raise Http404
    now = datetime.now(UTC)  # noqa: TID251 - a place where people work reads the clock
    return Desk(reader=reader, admits=may, account=request.user, season=season, at=now)


def _told(request: HttpRequest, desk: Desk, refused: WholeballError) -> HttpResponse:
    if refused.code in _ABSENT:
        raise Http404 from refused
    status = HTTPStatus.INSUFFICIENT_STORAGE if refused.code == FULL else HTTPStatus.CONFLICT
    match = request.resolver_match
    game = "" if match is None or match.url_name == "game" else match.kwargs.get("game", "")
    return page(request, desk, "refused", status=status, refused=refused, game=game)


def page(
    request: HttpRequest,
    desk: Desk,
    template: str,
    *,
    status: int = HTTPStatus.OK,
    **values: object,
) -> HttpResponse:
    """Return a page of the desk with what all of them need."""
    context = {"desk": desk, "where": desk.where, **values}
    return render(request, f"desk/{template}.html", context, status=status)
