"""Reads where the captains of a season are reached, a team a line."""

from collections.abc import Iterator, Mapping
from typing import Any

from django import forms
from django.conf import settings

from wholeball.files.team_sheet import Captain
from wholeball.site.inviting import Guest
from wholeball.store.models import Season


class CaptainsForm(forms.Form):
    """Asks for the address of each team's captain; a line may stay empty."""

    mails = forms.BooleanField(label="Mail each link", required=False, initial=True)

    def __init__(
        self, *args: Any, season: Season, teams: Mapping[str, str], known: Mapping[str, Captain]
    ) -> None:
        """Ask for the teams that nobody leads yet; addresses that are known are filled in."""
        super().__init__(*args)
        self._season = season
        if not settings.SENDS_MAIL:
            del self.fields["mails"]
        self.names = {team: known[team].name for team in teams if team in known}
        self.free = {
            f"email-{at}": team for at, (team, says) in enumerate(teams.items()) if not says
        }
        for name, team in self.free.items():
            self.fields[name] = forms.EmailField(
                label=team,
                max_length=254,
                required=False,
                initial=known[team].email if team in known else "",
            )

    @property
    def lines(self) -> Iterator[tuple[str, forms.BoundField]]:
        """Yield each team's field, with the name of its captain if that is known."""
        for name, team in self.free.items():
            yield self.names.get(team, ""), self[name]

    def clean(self) -> dict[str, Any]:
        """Refuse a form without any address."""
        said = super().clean() or {}
        if not self.errors and not any(said.get(name) for name in self.free):
            raise forms.ValidationError("There is no address yet. Write one at least.")
        return said

    def guests(self) -> list[Guest]:
        """Return whom the form invites."""
        return [
            Guest(
                organisation=self._season.organisation,
                season=self._season,
                email=self.cleaned_data[name],
                role="captain",
                team=team,
            )
            for name, team in self.free.items()
            if self.cleaned_data[name]
        ]
