"""Invites people by links that work once, of which only a hash is kept."""

import secrets
from datetime import datetime, timedelta
from hashlib import sha256
from typing import Final

from django.db import transaction

from wholeball.kernel.faults import WholeballError
from wholeball.store import audit
from wholeball.store.models import Account, Invitation, Membership, Organisation, Season

INVITED: Final = "invitation"
"""Where a session keeps the invitation that it was opened with."""
TOKEN_BYTES: Final = 32
FIRST_ORGANISATION: Final = "Our league"
FIRST_SLUG: Final = "league"
ADMINISTRATOR: Final = "coordinator"
LINK_LASTS: Final = timedelta(hours=24)


def invite(  # noqa: PLR0913 - a role has as many parts
    organisation: Organisation,
    role: str,
    *,
    until: datetime,
    email: str = "",
    season: Season | None = None,
    team: str = "",
    person: str = "",
) -> str:
    """Return the word that a link ends with; it is not kept, and cannot be found again."""
    token = secrets.token_urlsafe(TOKEN_BYTES)
    Invitation.objects.create(
        organisation=organisation,
        role=role,
        email=email,
        season=season,
        team=team,
        person=person,
        digest=digest_of(token),
        expires_at=until,
    )
    return token


def digest_of(token: str) -> str:
    """Return what is kept of a link's word."""
    return sha256(token.encode()).hexdigest()


def open_invitation(digest: str, now: datetime) -> Invitation | None:
    """Return the invitation, where it was not used yet and is not too old. 1 query."""
    waiting = Invitation.objects.filter(used_at__isnull=True, expires_at__gt=now)
    return waiting.select_related("organisation", "season").filter(digest=digest).first()


def is_for(invitation: Invitation, email: str) -> bool:
    """Tell whether an invitation is for whoever is reached at an address."""
    return invitation.email.lower() in ("", email.lower())


@transaction.atomic
def accept(digest: str, account: Account, now: datetime) -> Membership:
    """Give the account the role that it was invited to; of two at once, the second is refused.

    A link that was made for an address is used by the account of that address alone.

    Raises:
        WholeballError: the link was used, closed, is too old, or is for another address.
    """
    invitation = open_invitation(digest, now)
    if invitation is not None and not is_for(invitation, account.email):
        raise WholeballError(
            f"This link is for {invitation.email}, and you are {account.email}.",
            fix="Sign out and open it again, or ask your coordinator for one of your own.",
            code="invitation",
        )
    used = Invitation.objects.filter(digest=digest, used_at__isnull=True)
    if invitation is None or not used.update(used_at=now):
        raise WholeballError(
            "This link was used already, or is too old.",
            fix="Ask your coordinator for a new one.",
            code="invitation",
        )
    membership = Membership.objects.get_or_create(
        organisation=invitation.organisation,
        account=account,
        role=invitation.role,
        season=invitation.season,
        team=invitation.team,
        person=invitation.person,
    )[0]
    _note(membership, now)
    return membership


def _note(membership: Membership, now: datetime) -> None:
    """Note who has a role from now on, and whose."""
    season = "every season" if membership.season is None else membership.season.slug
    whose = [one for one in (membership.role, membership.team, membership.person) if one]
    audit.note(
        membership.organisation,
        did="joined",
        what=f"{season}: as {', '.join(whose)}",
        by=membership.account,
        at=now,
    )


@transaction.atomic
def first_link(now: datetime) -> str | None:
    """Return the word of a link for the administrator, where there is no coordinator yet.

    Links that an earlier start printed stop working.
    """
    if Membership.objects.filter(role=ADMINISTRATOR, account__is_active=True).exists():
        return None
    organisation, _ = Organisation.objects.get_or_create(
        slug=FIRST_SLUG, defaults={"name": FIRST_ORGANISATION}
    )
    Invitation.objects.filter(role=ADMINISTRATOR, used_at__isnull=True).delete()
    return invite(organisation, ADMINISTRATOR, until=now + LINK_LASTS)
