"""Lets roles, invitations and feeds of a team follow it when it is called otherwise."""

from typing import Final

from wholeball.kernel.faults import WholeballError
from wholeball.league.player import person_called
from wholeball.store.models import FeedToken, Invitation, Membership, Season

LONGEST: Final = 80
"""Letters of whose role it is, as many as the table of roles keeps."""


def follow_team(season: Season, old: str, new: str) -> None:
    """Let whoever has a role, an invitation or a feed of a team have it by its new name.

    A role that somebody would then have twice is kept once.

    Raises:
        WholeballError: somebody without a code would be known by more letters than are kept.
    """
    for one in Membership.objects.filter(season=season, team=old):
        person = _called(one.person, old, new)
        same = Membership.objects.filter(
            organisation=one.organisation,
            account=one.account,
            role=one.role,
            season=season,
            team=new,
            person=person,
        )
        if same.exists():
            one.delete()
        else:
            one.team, one.person = new, person
            one.save(update_fields=["team", "person"])
    for invitation in Invitation.objects.filter(season=season, team=old):
        invitation.team = new
        invitation.person = _called(invitation.person, old, new)
        invitation.save(update_fields=["team", "person"])
    FeedToken.objects.filter(season=season, kind="team", subject=old).update(subject=new)


def follow_person(season: Season, old: str, new: str) -> None:
    """Let whoever has a role or an invitation as somebody known by name have it by a new one."""
    for model in (Membership, Invitation):
        model.objects.filter(season=season, person=old).update(person=new)


def _called(person: str, old: str, new: str) -> str:
    """Return who somebody is on the roster of a team that is called otherwise."""
    found = person_called(person, old, new)
    if len(found) > LONGEST:
        raise WholeballError(
            f"{person} has a sign-in, and would be known by {len(found)} letters there.",
            fix=f"Nothing was changed. Give the team a name with {len(found) - LONGEST} fewer.",
            code="limits",
        )
    return found
