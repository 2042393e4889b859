"""Holds the forms that belong to no room: the ways in which a first season begins."""

from typing import Any, Final

from django import forms

from wholeball.files.archive import MOST_PACKED
from wholeball.files.presets import PRESETS
from wholeball.files.zones import zones

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
NO_FILE: Final = "There is no file yet. Choose one."


def _name_field() -> forms.CharField:
    return forms.CharField(
        max_length=120,
        label="Name of the season",
        help_text="Such as: Autumn eights.",
        error_messages={"required": "There is no name yet. Write what people call the season."},
    )


class _FileForm(forms.Form):
    """Takes one file, whose size is judged before it is read."""

    file = forms.FileField(error_messages={"required": NO_FILE, "empty": "The file is empty."})

    def clean_file(self) -> Any:
        """Return the file, unless it is too large."""
        given = self.cleaned_data["file"]
        if given is not None and given.size > MOST_PACKED:
            most = MOST_PACKED // 1_000_000
            raise forms.ValidationError(
                f"The file has {given.size:,} bytes. Choose one of at most {most} MB."
            )
        return given


class PresetForm(_FileForm):
    """Begins a season from a preset of the rulebook, with a spreadsheet of teams or without."""

    field_order = ("name", "preset", "timezone", "first_day", "file")

    name = _name_field()
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

    def __init__(self, *given: Any, **named: Any) -> None:
        """Offer the presets and the zones that there are, and say what the file is."""
        super().__init__(*given, **named)
        self.fields["file"].required = False
        self.fields["file"].label = "Spreadsheet of teams"
        self.fields["file"].help_text = (
            "An .xlsx workbook or a CSV file as you have it: one row a team, with a column “team”"
            " or “team name”. Divisions, pools and colours are read too, and captains' addresses"
            " for their invitations; other columns are passed over."
        )
        if not self.is_bound:
            self.fields["timezone"].widget.attrs["data-own-zone"] = ""
        places = sorted(zone for zone in zones() if "/" in zone)
        self._offer("preset", [(key, PRESET_WORDS[key]) for key in PRESETS])
        self._offer("timezone", [(zone, zone.replace("_", " ")) for zone in places])

    def _offer(self, name: str, choices: list[tuple[str, str]]) -> None:
        field = self.fields[name]
        assert isinstance(field, forms.ChoiceField)  # noqa: S101 - declared so above
        field.choices = choices


class FolderForm(_FileForm):
    """Begins a season with a season folder."""

    name = _name_field()

    def __init__(self, *given: Any, **named: Any) -> None:
        """Say what the file is."""
        super().__init__(*given, **named)
        self.fields["file"].label = "Season folder, as a .zip file"
        self.fields["file"].help_text = "All of it is checked first; what is wrong is listed."

    def clean_file(self) -> Any:
        """Return the file, unless it is a list of teams, which begins a season otherwise."""
        given = super().clean_file()
        if given.name.lower().endswith((".xlsx", ".csv")):
            raise forms.ValidationError(
                f"{given.name[:80]} is a list, not a season folder. Choose it under “From a"
                " preset”, as the spreadsheet of teams."
            )
        return given


class ExampleForm(forms.Form):
    """Begins the example; it asks nothing."""
