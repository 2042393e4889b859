"""Holds the forms that belong to no room: how a first season begins."""

from typing import Final
from zoneinfo import available_timezones

from django import forms

from wholeball.files.presets import PRESETS

PRESET_WORDS: Final = {
    "eleven": "Elevens",
    "nine": "Nines",
    "eight": "Eights",
    "seven": "Sevens",
    "five_indoor": "Fives, indoors",
    "mixed": "Mixed teams",
}
DEFAULT_PRESET: Final = "eight"
DEFAULT_ZONE: Final = "America/New_York"


class StartForm(forms.Form):
    """Begins a season from a preset of the rulebook."""

    name = forms.CharField(
        max_length=120,
        label="Name of the season",
        help_text="Such as: Autumn eights.",
        error_messages={"required": "There is no name yet. Write what people call the season."},
    )
    preset = forms.ChoiceField(label="Rulebook to start from", initial=DEFAULT_PRESET)
    timezone = forms.ChoiceField(label="Time zone of the fields", initial=DEFAULT_ZONE)
    first_day = forms.DateField(
        label="First day",
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        help_text="The season runs for twelve weeks; every day can be changed later.",
        error_messages={
            "required": "There is no first day yet. Choose one.",
            "invalid": "This is no day of the calendar. Write it as 2027-01-18.",
        },
    )

    def __init__(self, *given: object, **named: object) -> None:
        """Offer the presets and the zones that there are."""
        super().__init__(*given, **named)  # type: ignore[arg-type]
        zones = sorted(zone for zone in available_timezones() if "/" in zone)
        self.fields["preset"].choices = [(key, PRESET_WORDS[key]) for key in PRESETS]  # type: ignore[attr-defined]
        self.fields["timezone"].choices = [(zone, zone.replace("_", " ")) for zone in zones]  # type: ignore[attr-defined]
