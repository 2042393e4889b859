"""Reads whom a coordinator invites, and to what."""

from typing import Any, Final

from django import forms
from django.conf import settings

from wholeball.site.inviting import Guest, Office
from wholeball.store.models import Organisation, Season
from wholeball.store.models.organisation import ROLES
from wholeball.store.queries.games import has_official, has_team

EVERY: Final = "organisation"
"""How a choice of the form names every season of an organisation."""
ONE: Final = "season"
IN_EVERY: Final = ("coordinator", "supervisor", "scorekeeper")
"""Roles that somebody can have in all seasons at once."""
ROLE_CHOICES: Final = (("", "Choose a role"), *((one, one) for one in ROLES))
"""None is chosen beforehand: the first of them may do everything."""
TEAMS_LIST: Final = "teams-to-choose"
OFFICIALS_LIST: Final = "officials-to-choose"
OF_A_TEAM: Final = ("captain", "player")


class GuestForm(forms.Form):
    """Whom to invite; only what the coordinator runs can be chosen."""

    email = forms.EmailField(
        label="E-mail address", max_length=254, help_text="The link is for this address alone."
    )
    role = forms.ChoiceField(label="Role", choices=ROLE_CHOICES)
    where = forms.ChoiceField(label="Season")
    team = forms.CharField(
        label="Team, of a captain or a player",
        required=False,
        max_length=80,
        help_text="Choose one of the season.",
    )
    person = forms.CharField(
        label="Name or code",
        required=False,
        max_length=80,
        help_text="Choose an official as crews have the name, or write a player's code.",
    )
    mails = forms.BooleanField(
        label="Mail the link to that address", required=False, initial=True
    )

    def __init__(self, *args: Any, office: Office) -> None:
        """Offer the seasons of an office, the newest first, and mail where it goes out."""
        super().__init__(*args)
        if not settings.SENDS_MAIL:
            del self.fields["mails"]
        self._places: dict[str, tuple[Organisation, Season | None]] = {
            **{f"{ONE}-{one.pk}": (one.organisation, one) for one in office.seasons},
            **{f"{EVERY}-{one.pk}": (one, None) for one in office.organisations},
        }
        for name, listed in (("team", TEAMS_LIST), ("person", OFFICIALS_LIST)):
            self.fields[name].widget.attrs["list"] = listed
        self.fields["where"].choices = [  # type: ignore[attr-defined]
            (key, season.name if season is not None else f"Every season of {organisation.name}")
            for key, (organisation, season) in self._places.items()
        ]

    def clean(self) -> dict[str, Any]:
        """Refuse what a role lacks, and a team or an official that the season does not name."""
        said = super().clean() or {}
        place = self._places.get(said.get("where", ""))
        if place is None or "role" not in said:
            return said
        _, season = place
        role, team, person = said["role"], said.get("team", ""), said.get("person", "")
        if season is None:
            if role not in IN_EVERY:
                self.add_error("where", f"One is {role} in one season. Choose which.")
            return said
        if role in OF_A_TEAM and not team:
            self.add_error("team", f"A {role} is of a team. Choose which.")
        elif role in OF_A_TEAM and not has_team(season, team):
            self.add_error(
                "team", f"{season.name} has no team {team!r}. Write it as the season has it."
            )
        if role == "official" and not person:
            self.add_error("person", "An official has a name in crews. Choose which.")
        elif role == "official" and not has_official(season, person):
            self.add_error(
                "person",
                f"{season.name} has no official {person!r}. Write it as the season has it.",
            )
        return said

    def guest(self) -> Guest:
        """Return whom the form invites."""
        said = self.cleaned_data
        organisation, season = self._places[said["where"]]
        return Guest(
            organisation=organisation,
            season=season,
            email=said["email"],
            role=said["role"],
            team=said["team"] if said["role"] in OF_A_TEAM else "",
            person=said["person"],
        )
