"""Lets coordinators see who has which role, end one, and give it back."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from django.db.models import Case, IntegerField, Q, QuerySet, Value, When

from wholeball.kernel.faults import WholeballError
from wholeball.site.inviting import Office, office_of
from wholeball.store import audit
from wholeball.store.models import Account, Membership, Organisation, Season
from wholeball.store.models.organisation import ROLES
from wholeball.store.queries.games import has_official, has_team
from wholeball.store.writing import alone

MOST_SHOWN: Final = 100
_PARTS: Final = ("organisation_id", "account_id", "role", "season_id", "team", "person")


@dataclass(frozen=True, slots=True, kw_only=True)
class RolesShown:
    """Who has a role, coordinators first, and how many more there are than are shown."""

    held: tuple[Membership, ...]
    more: int


def show_roles(office: Office, sought: str) -> RolesShown:
    """Return the roles that an office may end, of those who are sought. 2 queries."""
    found = _theirs(office)
    for word in sought.split():
        found = found.filter(
            Q(account__name__icontains=word)
            | Q(account__email__icontains=word)
            | Q(role__icontains=word)
            | Q(team__icontains=word)
            | Q(person__icontains=word)
        )
    rank = Case(
        *(When(role=role, then=Value(place)) for place, role in enumerate(ROLES)),
        output_field=IntegerField(),
    )
    ordered = found.select_related("account", "organisation", "season").order_by(
        rank, "person", "team", "account__email", "pk"
    )
    held = tuple(ordered[:MOST_SHOWN])
    return RolesShown(held=held, more=found.count() - len(held))


def end_role(account: Account, number: int, now: datetime) -> dict[str, Any] | None:
    """End a role, and return what gives it back; None where there is none of that number.

    Raises:
        WholeballError: it is by this role that the account runs anything.
    """
    with alone():
        _hold(number)
        office = office_of(account)
        found = None if office is None else _theirs(office).filter(pk=number).first()
        if found is None:
            return None
        if found.account_id == account.pk and found.role == "coordinator":
            raise WholeballError(
                "You cannot end your own role as coordinator: nobody might be left to run it.",
                fix="Let another coordinator end it.",
                code="own_role",
            )
        kept = {name: getattr(found, name) for name in _PARTS}
        _note(found, account, "ended", now)
        found.delete()
    return kept


def give_back(account: Account, kept: Mapping[str, Any], now: datetime) -> Membership | None:
    """Give a role back that was ended, and return it; None where it cannot be given any more.

    What is gone since gives nothing, such as the account, a season or the own office, nor does a
    team or an official that is called otherwise by now: the name may be another's one day.
    """
    with alone():
        office = office_of(account)
        if office is None or not Account.objects.filter(pk=kept["account_id"]).exists():
            return None
        places = {one.pk: one.organisation_id for one in office.seasons}
        is_whole = kept["organisation_id"] in {one.pk for one in office.organisations}
        is_theirs = places.get(kept["season_id"]) == kept["organisation_id"]
        if not (is_theirs or (is_whole and kept["season_id"] is None)) or not _is_named(kept):
            return None
        found, _ = Membership.objects.get_or_create(**{name: kept[name] for name in _PARTS})
        _note(found, account, "gave back", now)
    return found


def _hold(number: int) -> None:
    """Let nobody else end a role of the same organisation meanwhile, in no process.

    Of two coordinators who end each other at once one stays.
    """
    own = Membership.objects.filter(pk=number).values("organisation")
    Organisation.objects.select_for_update().filter(pk__in=own).first()


def _is_named(kept: Mapping[str, Any]) -> bool:
    """Tell whether the season still has the team or the official of a role."""
    season = Season.objects.filter(pk=kept["season_id"]).first()
    if season is None:
        return True
    if kept["team"] and not has_team(season, kept["team"]):
        return False
    return kept["role"] != "official" or has_official(season, kept["person"])


def _theirs(office: Office) -> QuerySet[Membership]:
    """Return the roles that an office may end."""
    return Membership.objects.filter(
        Q(organisation__in=office.organisations) | Q(season__in=office.seasons)
    )


def _note(held: Membership, by: Account, did: str, now: datetime) -> None:
    """Note which role of which account, never its address."""
    season = "every season" if held.season is None else held.season.slug
    whose = ", ".join(filter(None, (held.role, held.team, held.person)))
    audit.note(
        held.organisation,
        did=did,
        what=f"{season}: role of account {held.account_id} as {whose}",
        by=by,
        at=now,
    )
