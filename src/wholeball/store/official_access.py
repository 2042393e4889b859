"""Tells which officials can sign in, and lets their roles and feeds follow another name."""

from dataclasses import dataclass, field
from datetime import datetime
from typing import Final, TypeVar

from django.db.models import Model, Q, QuerySet

from wholeball.store.models import FeedToken, Invitation, Membership, Season
from wholeball.store.models.people_rows import OfficialRow

_OF_A_TEAM: Final = ("captain", "player")
"""Roles whose `person` is the code of a player; that of all others is an official's name."""
_M = TypeVar("_M", bound=Model)


@dataclass(slots=True)
class SignIns:
    """By which addresses somebody can sign in as an official, and which links still wait."""

    addresses: list[str] = field(default_factory=list)
    invited: list[str] = field(default_factory=list)

    @property
    def any(self) -> bool:
        """Whether there is a sign-in, or a link that makes one."""
        return bool(self.addresses or self.invited)


@dataclass(frozen=True, slots=True, kw_only=True)
class Elsewhere:
    """Another season that lists an official of a name."""

    season: str
    official: str


def sign_ins_of(season: Season, *, at: datetime) -> dict[str, SignIns]:
    """Return how officials of a season can sign in, by their names. 2 queries."""
    found: dict[str, SignIns] = {}
    seats = Membership.objects.filter(
        _here(season), organisation=season.organisation_id, account__is_active=True
    )
    for person, address in _of_officials(seats).values_list("person", "account__email"):
        known = found.setdefault(person, SignIns()).addresses
        if address not in known:
            known.append(address)
    waiting = _waiting(season, at).filter(_here(season))
    for person, address in _of_officials(waiting).values_list("person", "email"):
        found.setdefault(person, SignIns()).invited.append(address)
    return found


def works_elsewhere(season: Season, old: str, new: str, *, at: datetime) -> Elsewhere | None:
    """Return another season in which a role of every season would change whose it is.

    3 queries.
    """
    every = Membership.objects.filter(
        organisation=season.organisation_id, season=None, person=old
    )
    links = _waiting(season, at).filter(season=None, person=old)
    if not (_of_officials(every).exists() or _of_officials(links).exists()):
        return None
    rows = OfficialRow.objects.filter(season__organisation=season.organisation_id)
    rows = rows.exclude(season=season).select_related("season").order_by("season", "pk")
    either = (old.casefold(), new.casefold())
    row = next((one for one in rows if one.official.casefold() in either), None)
    return None if row is None else Elsewhere(season=row.season.name, official=row.official)


def follow_official(season: Season, old: str, new: str) -> None:
    """Let whoever has a role, an invitation or a feed of an official have it by the new name.

    A role that somebody would then have twice is kept once.
    """
    mine = _here(season) & Q(organisation=season.organisation_id, person=old)
    for one in _of_officials(Membership.objects.filter(mine)):
        same = Membership.objects.filter(
            organisation=one.organisation,
            account=one.account,
            role=one.role,
            season=one.season,
            team=one.team,
            person=new,
        )
        if same.exclude(pk=one.pk).exists():
            one.delete()
        else:
            one.person = new
            one.save(update_fields=["person"])
    _of_officials(Invitation.objects.filter(mine)).update(person=new)
    FeedToken.objects.filter(season=season, kind="official", subject=old).update(subject=new)


def _waiting(season: Season, at: datetime) -> QuerySet[Invitation]:
    """Return the links of who runs a season that nobody has used and that still work."""
    every = Invitation.objects.filter(organisation=season.organisation_id)
    return every.filter(used_at__isnull=True, expires_at__gt=at)


def _here(season: Season) -> Q:
    """Return what holds of roles that count in a season."""
    return Q(season=season) | Q(season=None)


def _of_officials(every: QuerySet[_M]) -> QuerySet[_M]:
    """Return the roles of some that go by the name of an official."""
    return every.exclude(role__in=_OF_A_TEAM).order_by("pk")
