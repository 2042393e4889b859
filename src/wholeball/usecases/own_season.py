"""Opens a season to somebody signed in: their own part of it, and every read of it noted."""

from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import AnonymousUser
from django.http import Http404

from wholeball.files.folder import read_folder
from wholeball.kernel.identity import PersonId
from wholeball.league.person import Shown
from wholeball.store import audit
from wholeball.store.feeds import history_of, make_token, revoke, tokens_of
from wholeball.store.models import Account, FeedToken, Season
from wholeball.store.permissions import is_coordinator, is_member
from wholeball.store.reader import Reader, reader_of
from wholeball.store.record import DatabaseRecord
from wholeball.store.scope import season_for, seasons_for, team_for
from wholeball.store.snapshot import snapshot_of
from wholeball.store.writing import Writer, alone
from wholeball.usecases.addresses import Addresses
from wholeball.usecases.choose_name import choose_name
from wholeball.usecases.kept_pages import board_of
from wholeball.usecases.own_games import OwnTeam, Standing, own_teams
from wholeball.usecases.own_pages import (
    OwnHours,
    OwnPlayer,
    OwnRoster,
    own_hours,
    own_players,
    own_roster,
)
from wholeball.usecases.show_noticeboard import Around


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """A calendar that somebody may have a feed of."""

    kind: str
    name: str

    @property
    def value(self) -> str:
        """How a form names it."""
        return f"{self.kind}:{self.name}"


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnSeason:
    """A season as somebody reads their own part of it; `zone` is the time zone of its fields.

    `teams` are those whose captain it is, `games` the games of every team they belong to, and
    `at` the addresses of the pages that everybody reads.
    """

    season: Season
    zone: str
    teams: tuple[str, ...]
    games: tuple[OwnTeam, ...]
    at: Addresses
    players: tuple[OwnPlayer, ...]
    hours: OwnHours
    subjects: tuple[Subject, ...]
    feeds: tuple[FeedToken, ...]


def own_seasons(account: Account | AnonymousUser) -> list[Season]:
    """Return the seasons in which somebody has a role. 2 queries."""
    return seasons_for(reader_of(account), is_member)


def refuse_others(account: Account | AnonymousUser, organisation: str, season: str) -> None:
    """Let nobody on who has no part in a season, whatever they send. 2 queries.

    Raises:
        Http404: there is no such season, or they have no role in it.
    """
    _entered(account, organisation, season)


def own_season(
    account: Account | AnonymousUser,
    organisation: str,
    season: str,
    *,
    now: datetime,
    root: str,
) -> OwnSeason:
    """Return somebody's own part of a season, and note that it was read.

    `root` is where the pages of the season begin that everybody reads.

    Raises:
        Http404: there is no such season, or they have no role in it.
    """
    reader, found = _entered(account, organisation, season)
    board = board_of(snapshot_of(found), Around(root=root, styles=(), own=""), now)
    read, persons = board.read, _persons(reader, found)
    stands = Standing(board=board, history=history_of(found))
    officials = reader.persons_in(found, role="official")
    players = own_players(read, persons, now=now)
    if players:
        _note(reader, found, "read own suspensions", now)
    return OwnSeason(
        season=found,
        zone=read.season.league.timezone,
        teams=tuple(sorted(reader.teams_in(found, role="captain"))),
        games=own_teams(stands, sorted(_teams(reader, found) | {one.team for one in players})),
        at=board.at,
        players=players,
        hours=own_hours(stands, officials),
        subjects=_subjects(reader, found, fields=[one.field for one in read.fields]),
        feeds=tuple(tokens_of(found, _account(reader))),
    )


def own_team(
    account: Account | AnonymousUser, at: tuple[str, str], team: str, *, now: datetime
) -> tuple[Season, OwnRoster]:
    """Return the roster of one's own team, and note that it was read.

    Raises:
        Http404: there is no such team, or it is not one's own.
    """
    reader, found = _entered(account, *at)
    named = team_for(reader, found, team)
    _note(reader, found, f"read roster of {named}", now)
    return found, own_roster(snapshot_of(found), named, now=now)


def choose_own_name(
    account: Account | AnonymousUser,
    at: tuple[str, str],
    person: str,
    shown: Shown,
    *,
    now: datetime,
) -> None:
    """Keep how the public reads one's own name.

    Raises:
        Http404: it is somebody else's.
        InputFaults: the season does not fit together.
    """
    reader, found = _entered(account, *at)
    if person not in _persons(reader, found):
        raise Http404(person)
    record = DatabaseRecord(found, Writer(account=_account(reader), at=now))
    choose_name(record, PersonId(person), shown)


def make_own_feed(
    account: Account | AnonymousUser, at: tuple[str, str], subject: str, *, now: datetime
) -> str:
    """Return the token of a new feed of one's own; it is never shown again.

    Raises:
        Http404: it is not one's own.
    """
    reader, found = _entered(account, *at)
    fields = [one.field for one in read_folder(snapshot_of(found)).fields]
    every = {one.value: one for one in _subjects(reader, found, fields=fields)}
    if subject not in every:
        raise Http404(subject)
    asked = every[subject]
    with alone():
        token = make_token(found, asked.kind, asked.name, account=_account(reader), at=now)
        _note(reader, found, f"feed of {asked.kind} {asked.name}", now, did="made")
    return token


def close_own_feed(
    account: Account | AnonymousUser, at: tuple[str, str], feed: int, *, now: datetime
) -> None:
    """Close a feed that one made.

    Raises:
        Http404: there is none, or somebody else made it.
    """
    reader, found = _entered(account, *at)
    with alone():
        if not revoke(feed, _account(reader), at=now):
            raise Http404(str(feed))
        _note(reader, found, f"feed {feed}", now, did="closed")


def _entered(
    account: Account | AnonymousUser, organisation: str, season: str
) -> tuple[Reader, Season]:
    reader = reader_of(account)
    return reader, season_for(reader, organisation, season, is_member)


def _account(reader: Reader) -> Account:
    if reader.account is None:
        message = "the public has no pages of its own"
        raise ValueError(message)
    return reader.account


def _persons(reader: Reader, season: Season) -> frozenset[str]:
    roles = ("player", "captain")
    return frozenset().union(*(reader.persons_in(season, role=role) for role in roles))


def _teams(reader: Reader, season: Season) -> frozenset[str]:
    roles = ("captain", "player")
    return frozenset().union(*(reader.teams_in(season, role=role) for role in roles))


def _subjects(reader: Reader, season: Season, *, fields: list[str]) -> tuple[Subject, ...]:
    """Return what somebody may have a feed of: own teams, own games, and staff every field."""
    officials = reader.persons_in(season, role="official")
    return (
        *(Subject(kind="team", name=one) for one in sorted(_teams(reader, season))),
        *(Subject(kind="official", name=one) for one in sorted(officials)),
        *(
            Subject(kind="field", name=one)
            for one in (fields if is_coordinator(reader, season) else ())
        ),
    )


def _note(
    reader: Reader, season: Season, what: str, now: datetime, *, did: str = "read"
) -> None:
    audit.note(
        season.organisation,
        did=did,
        what=f"{season.slug}: {what}",
        by=_account(reader),
        at=now,
    )
