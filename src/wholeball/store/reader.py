"""Is who reads: an account with its roles, or the public."""

from dataclasses import dataclass

from django.contrib.auth.models import AnonymousUser

from wholeball.store.models import Account, Membership, Season


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A role in one season, or in all of an organisation where `season` is None."""

    role: str
    organisation: int
    season: int | None
    team: str
    person: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Reader:
    """Who reads; without an account it is the public."""

    account: Account | None = None
    seats: tuple[Seat, ...] = ()

    def seats_in(self, season: Season) -> tuple[Seat, ...]:
        """Return the roles that count in a season."""
        return tuple(
            one
            for one in self.seats
            if one.organisation == season.organisation_id and one.season in (None, season.pk)
        )

    def roles_in(self, season: Season) -> frozenset[str]:
        """Return the names of those roles."""
        return frozenset(one.role for one in self.seats_in(season))

    def teams_in(self, season: Season, *, role: str) -> frozenset[str]:
        """Return the teams whose captain or player it is."""
        return frozenset(
            one.team for one in self.seats_in(season) if one.role == role and one.team
        )

    def persons_in(self, season: Season, *, role: str) -> frozenset[str]:
        """Return the names or codes by which the season knows the reader in a role."""
        return frozenset(
            one.person for one in self.seats_in(season) if one.role == role and one.person
        )


PUBLIC = Reader()


def reader_of(account: Account | AnonymousUser) -> Reader:
    """Return an account with its roles; one that is not signed in is the public. 1 query."""
    if not isinstance(account, Account) or not account.is_active:
        return PUBLIC
    rows = Membership.objects.filter(account=account).order_by("pk")
    seats = rows.values_list("role", "organisation_id", "season_id", "team", "person")
    return Reader(
        account=account,
        seats=tuple(
            Seat(role=role, organisation=organisation, season=season, team=team, person=person)
            for role, organisation, season, team, person in seats
        ),
    )
