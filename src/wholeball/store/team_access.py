"""Lets roles, invitations and feeds of a team follow it when it is called otherwise."""

from wholeball.league.player import person_called
from wholeball.store.models import FeedToken, Invitation, Membership, Season


def follow_team(season: Season, old: str, new: str) -> None:
    """Let whoever has a role, an invitation or a feed of a team have it by its new name.

    A role that somebody would then have twice is kept once.
    """
    for one in Membership.objects.filter(season=season, team=old):
        person = person_called(one.person, old, new)
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
        invitation.person = person_called(invitation.person, old, new)
        invitation.save(update_fields=["team", "person"])
    FeedToken.objects.filter(season=season, kind="team", subject=old).update(subject=new)


def follow_person(season: Season, old: str, new: str) -> None:
    """Let whoever has a role or an invitation as somebody known by name have it by a new one."""
    for model in (Membership, Invitation):
        model.objects.filter(season=season, person=old).update(person=new)
