"""Lets coordinators invite people, see which links still wait, and close them."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

from django.db.models import Q, QuerySet

from wholeball.site.invitations import invite
from wholeball.store import audit
from wholeball.store.mail import sent
from wholeball.store.models import Account, Invitation, Membership, Organisation, Season
from wholeball.store.models.league_rows import TeamRow
from wholeball.store.writing import alone

WORKS: Final = timedelta(days=14)
"""How long a link waits for whom it was made."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Office:
    """What somebody coordinates: whole organisations, and single seasons of others."""

    account: Account
    organisations: tuple[Organisation, ...]
    seasons: tuple[Season, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Guest:
    """Who is invited, and to what: a role in a season, or in every one where it is None."""

    organisation: Organisation
    email: str
    role: str
    season: Season | None
    team: str = ""
    person: str = ""


def office_of(account: Account) -> Office | None:
    """Return what an account coordinates, or None where that is nothing. 2 queries."""
    seats = Membership.objects.filter(account=account, role="coordinator")
    found = list(seats.select_related("organisation", "season").order_by("pk"))
    if not found:
        return None
    whole = {one.organisation.pk: one.organisation for one in found if one.season is None}
    own = [one.season_id for one in found if one.season_id is not None]
    seasons = Season.objects.filter(Q(organisation__in=whole) | Q(pk__in=own))
    return Office(
        account=account,
        organisations=tuple(whole.values()),
        seasons=tuple(seasons.select_related("organisation").order_by("-pk")),
    )


def waiting(office: Office, now: datetime) -> list[Invitation]:
    """Return the links that nobody has used and that still work, the newest first. 1 query."""
    return list(
        _theirs(office, now).select_related("organisation", "season").order_by("-expires_at")
    )


def invite_guest(office: Office, guest: Guest, now: datetime) -> str:
    """Return the word of a link for somebody, and note who invited to what; it works once."""
    with alone():
        token = invite(
            guest.organisation,
            guest.role,
            until=now + WORKS,
            email=guest.email.lower(),
            season=guest.season,
            team=guest.team,
            person=guest.person,
        )
        made = Invitation.objects.filter(organisation=guest.organisation).latest("pk")
        _note(office, made, "invited", now)
    return token


def mail_link(guest: Guest, href: str) -> str:
    """Mail somebody their link, and return why it did not go out, or nothing."""
    season = "every season" if guest.season is None else guest.season.name
    body = (
        f"{guest.organisation.name} invites you as {guest.role}, in {season}.\n\n{href}\n\n"
        f"The link works once, for {WORKS.days} days, and for this address alone. "
        "If you expect no invitation, do nothing.\n"
    )
    return sent("Your invitation", body, guest.email)


def close(office: Office, number: int, now: datetime) -> bool:
    """Close a link, and tell whether one waited that is this office's to close."""
    with alone():
        found = _theirs(office, now).filter(pk=number).first()
        if found is None:
            return False
        Invitation.objects.filter(pk=found.pk).update(expires_at=now)
        _note(office, found, "closed", now)
    return True


def captains_of(season: Season, now: datetime) -> Mapping[str, str]:
    """Return who leads each team already, or is invited to: the name, or "". 3 queries.

    Teams come in the order of their list; one without a captain and without a link has "".
    """
    teams = TeamRow.objects.filter(season=season).order_by("position")
    held = Membership.objects.filter(season=season, role="captain").select_related("account")
    has = {one.team: f"{one.account} is its captain" for one in held}
    links = Invitation.objects.filter(
        season=season, role="captain", used_at__isnull=True, expires_at__gt=now
    )
    waits = {one.team: "a link waits" for one in links}
    return {one.team: has.get(one.team) or waits.get(one.team, "") for one in teams}


def _theirs(office: Office, now: datetime) -> QuerySet[Invitation]:
    waits = Invitation.objects.filter(used_at__isnull=True, expires_at__gt=now)
    return waits.filter(Q(organisation__in=office.organisations) | Q(season__in=office.seasons))


def _note(office: Office, made: Invitation, did: str, now: datetime) -> None:
    """Note to what somebody is invited, never by which address."""
    season = "every season" if made.season is None else made.season.slug
    to = ", ".join(filter(None, (made.role, made.team, made.person)))
    audit.note(
        made.organisation,
        did=did,
        what=f"{season}: invitation {made.pk} as {to}",
        by=office.account,
        at=now,
    )
