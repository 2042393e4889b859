"""Is the form by which a search for a timetable is started."""

from collections.abc import Iterable
from typing import Any, Final

from django import forms

from wholeball.files.folder import SeasonFolder
from wholeball.league.place import sites_of

KINDS: Final = (
    ("plan", "Plan all games that are to come"),
    ("repair", "Repair: something was lost or edited, as few games as can be move"),
    ("explain", "Explain why there is no plan, and what the timetable costs"),
    ("helps", "What one thing more would help most?"),
)


class SearchForm(forms.Form):
    """Asks what is searched for, and for how long."""

    kind = forms.ChoiceField(
        label="What is wanted?", choices=KINDS, initial="plan", widget=forms.RadioSelect
    )
    seconds = forms.IntegerField(
        label="Seconds to search",
        initial=60,
        min_value=1,
        max_value=3600,
        help_text="The best so far is kept whenever it is stopped.",
    )
    night = forms.DateField(
        label="For a repair: the night that is lost",
        required=False,
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        help_text="Nothing lost? Then it keeps to the rules, times and days off as they are now.",
        error_messages={"invalid": "This is no day of the calendar. Write it as 2027-01-18."},
    )
    site = forms.ChoiceField(label="For a repair: of which site", required=False)
    field = forms.ChoiceField(label="For a repair: the field that is lost", required=False)
    team = forms.ChoiceField(label="For a repair: the team that plays no more", required=False)

    def __init__(
        self, *given: Any, read: SeasonFolder, fields_known: Iterable[str], **named: Any
    ) -> None:
        """Offer the sites, fields and teams of the season."""
        super().__init__(*given, **named)
        self._offer("site", "all of them", {str(one) for one in sites_of(read.fields).values()})
        self._offer("field", "no field alone", set(fields_known))
        self._offer("team", "no team", {str(one.team) for one in read.season.league.teams})

    def asked(self) -> dict[str, Any]:
        """Return what the search is asked, as plain values."""
        told = self.cleaned_data
        night = told["night"]
        happened = {
            "night": f"{night}" if night else "",
            **{name: told[name] for name in ("site", "field", "team")},
        }
        return {"seconds": told["seconds"], "happened": happened}

    def _offer(self, name: str, none: str, choices: set[str]) -> None:
        field = self.fields[name]
        assert isinstance(field, forms.ChoiceField)  # noqa: S101 - declared so above
        field.choices = [("", none), *((one, one) for one in sorted(choices))]
