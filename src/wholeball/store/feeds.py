"""Finds what a calendar's feed is made from: its token, its season, what changed of its games."""

import hashlib
import hmac
import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from django.db.models import Exists, OuterRef, Q

from wholeball.store.models import Account, Change, FeedToken, Membership, Season
from wholeball.store.models.tables import fields_of

BYTES: Final = 32
"""Of chance in a token: 256 bits."""
FILES: Final = ("timetable.csv", "crews.csv", "closures.csv", "notices.csv")
_OF_A_TEAM: Final = ("captain", "player")
Cells = Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """What one write changed of a table: the rows that went and those that came, by column."""

    version: int
    at: datetime
    name: str
    gone: tuple[Cells, ...]
    came: tuple[Cells, ...]

    def rows(self) -> tuple[Cells, ...]:
        """Return the rows that are on one side only; rows that merely moved are on both."""
        gone, came = ({tuple(one.values()) for one in side} for side in (self.gone, self.came))
        apart = gone ^ came
        return tuple(one for one in (*self.gone, *self.came) if tuple(one.values()) in apart)


def history_of(season: Season) -> tuple[Changed, ...]:
    """Return what was changed of timetable, crews, closures and notices, oldest first. 1 query."""
    found = Change.objects.filter(season=season, name__in=FILES).order_by("version", "name")
    rows = found.values_list("version", "at", "name", "gone", "came")
    return tuple(
        Changed(
            version=version,
            at=at,
            name=name,
            gone=_rows(name, gone),
            came=_rows(name, came),
        )
        for version, at, name, gone, came in rows
    )


def _rows(name: str, lines: list[list[str]]) -> tuple[Cells, ...]:
    columns = tuple(fields_of(name))
    return tuple(dict(zip(columns, cells, strict=True)) for cells in lines)


def feed_of(token: str) -> FeedToken | None:
    """Return what a token opens, or None where it is unknown or revoked. 1 query.

    What an account made opens nothing once the account, or the role it was made in, is gone.
    The table is searched by the token's hash, so how long it takes tells nothing of tokens.
    """
    digest = _digest(token)
    found = (
        FeedToken.objects.filter(_still_theirs(), digest=digest, revoked_at=None)
        .select_related("season__organisation")
        .first()
    )
    return found if found is not None and hmac.compare_digest(found.digest, digest) else None


def _still_theirs() -> Q:
    """Return what holds of a feed that nobody's account made, or whose maker still may have it."""
    seats = Membership.objects.filter(
        Q(season=None) | Q(season=OuterRef("season")),
        account=OuterRef("account"),
        organisation=OuterRef("season__organisation"),
    )
    team = seats.filter(role__in=_OF_A_TEAM, team=OuterRef("subject"))
    official = seats.filter(role="official", person=OuterRef("subject"))
    may = (
        Q(Exists(team), kind="team")
        | Q(Exists(official), kind="official")
        | Q(Exists(seats.filter(role="coordinator")), kind="field")
    )
    return Q(account=None) | (Q(account__is_active=True) & may)


def make_token(
    season: Season, kind: str, subject: str, *, account: Account | None, at: datetime
) -> str:
    """Return a new token; it is shown once, and only its hash is kept. 1 query."""
    token = secrets.token_urlsafe(BYTES)
    FeedToken.objects.create(
        season=season,
        account=account,
        kind=kind,
        subject=subject,
        digest=_digest(token),
        made_at=at,
    )
    return token


def tokens_of(season: Season, account: Account) -> list[FeedToken]:
    """Return the tokens that an account made and that still open something. 1 query."""
    return list(
        FeedToken.objects.filter(season=season, account=account, revoked_at=None).order_by(
            "made_at", "pk"
        )
    )


def revoke(token: int, account: Account, *, at: datetime) -> bool:
    """Close a feed that the account made, and tell whether there was one. 1 query."""
    found = FeedToken.objects.filter(pk=token, account=account, revoked_at=None)
    return found.update(revoked_at=at) == 1


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()
