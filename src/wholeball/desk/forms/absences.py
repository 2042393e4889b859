"""Is the form by which a coordinator says when a team cannot play."""

from collections.abc import Sequence
from typing import Any, Final, get_args

from django import forms

from wholeball.desk.forms.times import day_field, time_field
from wholeball.league.division import Weekday
from wholeball.planning.rule import SCALE
from wholeball.usecases.set_absences import NewAbsence

FIELDS: Final = (
    "team",
    "when",
    "weekday",
    "day",
    "until_day",
    "opens",
    "closes",
    "strength",
    "cost",
    "why",
)
"""What the form sends."""
MOST_COST: Final = 10_000
SCALE_SAID: Final = ", ".join(f"{cost} {word}" for cost, word in SCALE.items())


def cost_field() -> forms.IntegerField:
    """Return the field for the cost of a wish, with what numbers mean."""
    return forms.IntegerField(
        label="Cost, where it is a wish",
        required=False,
        min_value=1,
        max_value=MOST_COST,
        help_text=f"The plan with the least cost is looked for: {SCALE_SAID}.",
        error_messages={
            "invalid": f"This is no whole number. Write one: {SCALE_SAID}.",
            "min_value": f"It is less than 1. Write one: {SCALE_SAID}.",
            "max_value": f"It is more than {MOST_COST:,}. Write one: {SCALE_SAID}.",
        },
    )


class AbsenceForm(forms.Form):
    """Adds a time at which a team does not play."""

    team = forms.ChoiceField(label="Team")
    when = forms.ChoiceField(
        label="When?",
        choices=(
            ("weekday", "on one day of every week"),
            ("days", "on one day, or on several on end"),
            ("every", "every night, at the times below"),
        ),
        initial="weekday",
        widget=forms.RadioSelect,
    )
    weekday = forms.ChoiceField(
        label="Day of the week",
        required=False,
        choices=[(one, one.capitalize()) for one in get_args(Weekday)],
    )
    day = day_field("Day")
    until_day = day_field("Until this day")
    opens = time_field("From this time on", is_needed=False)
    closes = time_field("Until this time", is_needed=False)
    strength = forms.ChoiceField(
        label="Must it hold?",
        choices=(
            ("must", "a must: they cannot play then"),
            ("wish", "a wish: they would rather not"),
        ),
        initial="must",
        widget=forms.RadioSelect,
    )
    cost = cost_field()
    why = forms.CharField(
        label="Why",
        required=False,
        max_length=80,
        help_text="Such as: evening classes. Nothing private: it stands in the season's files.",
    )

    def __init__(self, *given: Any, teams: Sequence[str], **named: Any) -> None:
        """Offer the teams of the season."""
        super().__init__(*given, **named)
        field = self.fields["team"]
        assert isinstance(field, forms.ChoiceField)  # noqa: S101 - declared so above
        field.choices = [(one, one) for one in teams]

    def clean(self) -> dict[str, Any]:
        """Hold the fields to one another."""
        told = super().clean() or {}
        self._clean_when(told)
        opens, closes = told.get("opens"), told.get("closes")
        if opens is not None and closes is not None and closes <= opens:
            self.add_error("closes", f"It is not after {opens:%H:%M}. Choose a later time.")
        if told.get("strength") == "must" and told.get("cost") is not None:
            self.add_error("cost", "A must has no cost. Empty this, or choose a wish.")
        if told.get("strength") == "wish" and "cost" in told and told["cost"] is None:
            self.add_error("cost", f"A wish has a cost. Write one: {SCALE_SAID}.")
        return told

    def _clean_when(self, told: dict[str, Any]) -> None:
        when, day, until = told.get("when"), told.get("day"), told.get("until_day")
        if when == "days" and day is None and "day" not in self.errors:
            self.add_error("day", "There is no day yet. Choose one.")
        if when == "days" and day is not None and until is not None and until < day:
            self.add_error("until_day", f"It is before {day}. Choose that day or a later one.")
        if when in ("weekday", "every"):
            for name in ("day", "until_day"):
                if told.get(name) is not None:
                    self.add_error(name, "Empty this, or choose days above.")
        if when == "weekday" and not told.get("weekday") and "weekday" not in self.errors:
            self.add_error("weekday", "Choose one.")
        is_timeless = told.get("opens") is None and told.get("closes") is None
        if when == "every" and is_timeless and not {"opens", "closes"} & {*self.errors}:
            self.add_error(
                "opens", "There is no time yet. Write from when, or until when below."
            )

    def absence(self) -> NewAbsence:
        """Return what the form says."""
        told = self.cleaned_data
        when = told["when"]
        return NewAbsence(
            team=told["team"],
            weekday=told["weekday"] if when == "weekday" else None,
            first=told["day"] if when == "days" else None,
            last=told["until_day"] if when == "days" else None,
            opens=told["opens"],
            closes=told["closes"],
            cost=told["cost"],
            why=told["why"],
        )
