"""Is the form by which a night, a site or a field is called off."""

import re
from collections.abc import Iterable
from datetime import date
from typing import Any, Final

from django import forms

from wholeball.files.folder import SeasonFolder
from wholeball.files.notices import LONGEST
from wholeball.kernel.identity import SiteId
from wholeball.league.notice import Notice
from wholeball.league.place import sites_of

EVERYTHING: Final = "all"
_SAFE: Final = re.compile(r"(?<!not )(?<!n't )(?<!never )\bsafe\b", re.IGNORECASE)
STATES: Final = (
    ("off", "It is off"),
    ("later", "Not decided: next word at a time"),
    ("on", "It is on"),
)


class WordForm(forms.Form):
    """Asks for the night, the place, and what the public is told."""

    night = forms.DateField(
        label="Night",
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        error_messages={
            "required": "There is no night yet. Choose one.",
            "invalid": "This is no day of the calendar. Write it as 2027-01-18.",
        },
    )
    place = forms.ChoiceField(
        label="What is it about?",
        error_messages={"required": "Choose every field, a site or a field."},
    )
    state = forms.ChoiceField(label="What is told?", choices=STATES, widget=forms.RadioSelect)
    next_word = forms.TimeField(
        label="Next word at",
        required=False,
        widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M"),
        help_text="Only where it is not decided.",
        error_messages={"invalid": "This is no time of the day. Write it as 16:30."},
    )
    says = forms.CharField(
        label="In a sentence",
        required=False,
        max_length=LONGEST,
        help_text="Everybody reads it. Say what was decided, and by whom; no names of players.",
    )

    def __init__(
        self,
        *given: Any,
        read: SeasonFolder,
        fields_known: Iterable[str],
        today: date,
        **named: Any,
    ) -> None:
        """Offer the sites and fields of the season."""
        super().__init__(*given, **named)
        self.today = today
        self.league = read.season.league
        field = self.fields["place"]
        assert isinstance(field, forms.ChoiceField)  # noqa: S101 - declared so above
        sites = sorted({str(one) for one in sites_of(read.fields).values()})
        field.choices = [
            (EVERYTHING, "Every field"),
            *((f"site:{one}", f"{one}: the whole site") for one in sites),
            *((f"field:{one}", f"{one}: this field alone") for one in fields_known),
        ]

    def clean_night(self) -> date:
        """Return the night, from today on and within the season."""
        night: date = self.cleaned_data["night"]
        if night < self.today:
            raise forms.ValidationError("That night is gone by. Choose one from today on.")
        if not self.league.first_day <= night <= self.league.last_day:
            raise forms.ValidationError(
                f"The season runs from {self.league.first_day} to {self.league.last_day}."
                " Choose a night in it."
            )
        return night

    def clean_says(self) -> str:
        """Return the sentence, which never says that anything is safe."""
        says: str = self.cleaned_data["says"]
        if _SAFE.search(says):
            raise forms.ValidationError(
                "Nobody can promise that here. Say what was decided: on, off, or when you will know."
            )
        return says

    def clean(self) -> dict[str, Any]:
        """Hold the time to the state."""
        told = super().clean() or {}
        state, at = told.get("state"), told.get("next_word")
        if state == "later" and at is None and "next_word" not in self.errors:
            self.add_error("next_word", "When is the next word? Write the time, such as 16:30.")
        if state in ("on", "off") and at is not None:
            self.add_error("next_word", f"It is {state}: take the time out.")
        return told

    def notice(self) -> Notice:
        """Return the word that the form says."""
        told = self.cleaned_data
        kind, _, name = told["place"].partition(":")
        return Notice(
            night=told["night"],
            state=told["state"],
            site=SiteId(name) if kind == "site" else None,
            field=name if kind == "field" else None,
            next_word=told["next_word"],
            says=told["says"],
        )
