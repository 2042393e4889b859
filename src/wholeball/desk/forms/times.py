"""Are the forms of a season's days, of times to play, and of how much each team plays."""

from typing import Any, Final, get_args

from django import forms

from wholeball.league.division import Weekday
from wholeball.usecases.set_times import NewTime, TimesShown

MOST_FIELDS: Final = 40
_DAY: Final = {"invalid": "This is no day of the calendar. Write it as 2027-01-18."}
_TIME: Final = {
    "invalid": "This is no time of the day. Write it as 18:00.",
    "required": "There is no time yet. Write it as 18:00.",
}


def time_field(label: str, initial: str = "", *, is_needed: bool = True) -> forms.TimeField:
    """Return a field for a time of the day."""
    return forms.TimeField(
        label=label,
        initial=initial,
        required=is_needed,
        widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M"),
        error_messages=_TIME,
    )


def day_field(label: str) -> forms.DateField:
    """Return a field for a day, which may stay empty."""
    return forms.DateField(
        label=label,
        required=False,
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        error_messages=_DAY,
    )


class TimeForm(forms.Form):
    """Adds a time to play on some fields."""

    fields_named = forms.CharField(
        label="Fields",
        max_length=2_000,
        help_text="Their names with commas, such as: Meadow 1, Meadow 2.",
        error_messages={"required": "There is no field yet. Write the name of one."},
    )
    weekday = forms.ChoiceField(
        label="Every", choices=[(one, one.capitalize()) for one in get_args(Weekday)]
    )
    opens = time_field("From", "18:00")
    closes = time_field("Until", "21:00")
    minutes = forms.IntegerField(
        label="Minutes from one start to the next",
        required=False,
        min_value=1,
        max_value=600,
        help_text="Empty: as many as a game takes with its turnover.",
    )
    first = day_field("Only from this day on")
    last = day_field("Only until this day")

    def clean_fields_named(self) -> tuple[str, ...]:
        """Return the names of the fields, each once."""
        names = dict.fromkeys(
            one.strip() for one in self.cleaned_data["fields_named"].split(",")
        )
        found = tuple(one for one in names if one)
        if not 1 <= len(found) <= MOST_FIELDS:
            raise forms.ValidationError(
                f"{len(found)} fields are named. Name 1 to {MOST_FIELDS}, with commas."
            )
        return found

    def time(self) -> NewTime:
        """Return what the form says."""
        told = self.cleaned_data
        return NewTime(
            fields=told["fields_named"],
            weekday=told["weekday"],
            opens=told["opens"],
            closes=told["closes"],
            first=told["first"],
            last=told["last"],
            minutes=told["minutes"],
        )


class DaysForm(forms.Form):
    """Says from when to when the season is."""

    first_day = day_field("First day")
    last_day = day_field("Last day")

    def __init__(self, *given: Any, **named: Any) -> None:
        """Ask for both days."""
        super().__init__(*given, **named)
        for field in self.fields.values():
            field.required = True
            field.error_messages["required"] = "There is no day yet. Choose one."

    def clean(self) -> dict[str, Any]:
        """Hold the last day to the first."""
        told = super().clean() or {}
        first, last = told.get("first_day"), told.get("last_day")
        if first is not None and last is not None and last < first:
            self.add_error("last_day", f"It is before {first}. Choose that day or a later one.")
        return told


class DayOffForm(forms.Form):
    """Keeps days free of games."""

    day = day_field("Day")
    until = day_field("Until this day")
    why = forms.CharField(
        label="Why", required=False, max_length=80, help_text="Such as: spring break."
    )

    def __init__(self, *given: Any, **named: Any) -> None:
        """Ask for the first day."""
        super().__init__(*given, **named)
        self.fields["day"].required = True
        self.fields["day"].error_messages["required"] = "There is no day yet. Choose one."


class AmountForm(forms.Form):
    """Says how much each team plays."""

    kind = forms.ChoiceField(
        label="Each team plays",
        choices=(
            ("meetings", "everybody else of its pool, so many times"),
            ("games_each", "so many games, against others of its pool"),
        ),
        widget=forms.RadioSelect,
    )
    many = forms.IntegerField(
        label="How many?",
        min_value=1,
        max_value=99,
        error_messages={"required": "There is no number yet. Write one from 1 to 99."},
    )

    @classmethod
    def of(cls, shown: TimesShown) -> "AmountForm":
        """Return the form with what the season has."""
        kind = "meetings" if shown.games_each is None else "games_each"
        return cls(initial={"kind": kind, "many": shown.games_each or shown.meetings})

    def amount(self) -> dict[str, Any]:
        """Return what the form says, as a season takes it."""
        many = self.cleaned_data["many"]
        is_each = self.cleaned_data["kind"] == "games_each"
        return {"games_each": many if is_each else None, "meetings": 1 if is_each else many}
