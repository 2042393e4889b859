"""Are the forms of a rule of the timetable: one made from its kind, one of how much it weighs."""

from collections.abc import Mapping, Sequence
from datetime import date, time
from typing import Any, Final, Literal, get_args, get_origin

from django import forms
from pydantic.fields import FieldInfo

from wholeball.desk.forms.absences import SCALE_SAID, cost_field
from wholeball.desk.forms.rule_kinds import WORDS, Offer
from wholeball.desk.forms.times import day_field, time_field
from wholeball.planning.kinds import KINDS
from wholeball.planning.rule import Strength
from wholeball.usecases.set_rules import NewRule, RulesShown

STRENGTHS: Final = {
    "must": "a must: every plan keeps it",
    "wish": "a wish: each time it is not met costs",
}
"""What a rule can be, and what that means."""
STAGES: Final = {
    "all": "all games",
    "league": "games of the league only",
    "play_off": "games of the play-offs only",
}
LISTS: Final = ("teams", "weekdays")
"""Fields of which several can be ticked."""
LONGEST: Final = 4_000
"""Characters of a list of days or names."""
_PAIR: Final = ("one", "other")
_TOO_FEW: Final = "It is about two teams or more. Tick them."
_MUST_COSTS: Final = "A must has no cost. Empty this, or choose a wish."
_WISH_FREE: Final = f"A wish has a cost. Write one: {SCALE_SAID}."


class Ticks(forms.CheckboxSelectMultiple):
    """Boxes to tick; what leads to the group leads to the first of them."""

    def id_for_label(self, id_: str, index: str | None = None) -> str:
        """Return the id of a box."""
        return super().id_for_label(id_, index or "0")


class WeightForm(forms.Form):
    """Asks whether a rule must hold, or what it costs where it does not."""

    strength = forms.ChoiceField(label="Must it hold?", widget=forms.RadioSelect)
    cost = cost_field()

    def __init__(self, *given: Any, strengths: Sequence[Strength], **named: Any) -> None:
        """Offer what the kind of the rule can be; of one alone nothing is asked."""
        super().__init__(*given, **named)
        self.strengths = strengths
        field = self.fields["strength"]
        assert isinstance(field, forms.ChoiceField)  # noqa: S101 - declared so above
        field.choices = [(one, STRENGTHS[one]) for one in strengths]
        field.initial = strengths[0]
        if len(strengths) == 1:
            field.widget = forms.HiddenInput()
            self.fields["cost"].label = "Cost each time it is not met"
            self.fields["cost"].required = True
            self.fields["cost"].error_messages["required"] = _WISH_FREE

    def clean(self) -> dict[str, Any]:
        """Hold the cost to the strength."""
        told = super().clean() or {}
        is_wish = told.get("strength") == "wish"
        if told.get("strength") == "must" and told.get("cost") is not None:
            self.add_error("cost", _MUST_COSTS)
        if is_wish and "cost" in told and told["cost"] is None:
            self.add_error("cost", _WISH_FREE)
        return told


class RuleForm(WeightForm):
    """Adds a rule of a kind: its own parameters first, then whom it is about, then its weight."""

    teams = forms.MultipleChoiceField(label="Teams", required=False, widget=Ticks)
    games = forms.ChoiceField(label="Games", choices=list(STAGES.items()))
    why = forms.CharField(
        label="Why", required=False, max_length=400, help_text="Such as: early classes."
    )

    def __init__(self, *given: Any, offer: Offer, shown: RulesShown, **named: Any) -> None:
        """Ask for what the kind has; `shown` says which teams and days there are."""
        self.kind = KINDS[offer.kind]
        super().__init__(*given, strengths=self.kind.strengths, **named)
        self.shown = shown
        self.params: dict[str, FieldInfo] = {
            info.alias or name: info for name, info in self.kind.params.model_fields.items()
        }
        bounds = self.kind.params.model_json_schema()["properties"] if self.params else {}
        for name, info in self.params.items():
            hint = offer.hints.get(name, "")
            self.fields[name] = _field(info, bounds[name], offer.labels[name], hint)
        self._ask_whom()
        self.order_fields([*self.params, "teams", "games", "strength", "cost", "why"])

    def _ask_whom(self) -> None:
        teams = self.fields["teams"]
        assert isinstance(teams, forms.MultipleChoiceField)  # noqa: S101 - declared so above
        teams.choices = [(one, one) for one in self.shown.teams]
        teams.help_text = "None ticked: every team."
        if self.kind.teams == "several":
            teams.help_text = "Two or more."
            teams.required = True
            teams.error_messages["required"] = _TOO_FEW
        elif self.kind.teams == "none":
            del self.fields["teams"]
        if not self.kind.stages:
            del self.fields["games"]

    @property
    def names(self) -> tuple[str, ...]:
        """What the form sends once each."""
        return tuple(name for name in self.fields if name not in LISTS)

    def clean(self) -> dict[str, Any]:
        """Hold the fields to one another and to the season."""
        told = super().clean()
        if self.kind.teams == "several" and len(told.get("teams", _PAIR)) < len(_PAIR):
            self.add_error("teams", _TOO_FEW)
        for name in ("night", "nights"):
            self._clean_days(name, told.get(name))
        self._clean_times(told)
        return told

    def _clean_times(self, told: Mapping[str, Any]) -> None:
        begins, ends = told.get("from"), told.get("until")
        if begins is not None and ends is not None and ends <= begins:
            self.add_error("until", f"It is not after {begins:%H:%M}. Choose a later time.")
        is_silent = not any(told.get(name) for name in self.params)
        if self.kind.name == "absent" and is_silent and not {*self.params} & {*self.errors}:
            self.add_error("nights", "It does not say when. Tick a day, write one, or a time.")

    def _clean_days(self, name: str, days: date | tuple[date, ...] | None) -> None:
        first, last = self.shown.first_day, self.shown.last_day
        for one in (days,) if isinstance(days, date) else days or ():
            if not first <= one <= last:
                says = f"{one} is no day of the season. Choose one from {first} to {last}."
                self.add_error(name, says)

    def rule(self) -> NewRule:
        """Return what the form says; an empty field is left to its kind."""
        told = self.cleaned_data
        return NewRule(
            kind=self.kind.name,
            params={
                name: told[name]
                for name, info in self.params.items()
                if told[name] not in (None, "", (), info.default)
            },
            cost=told["cost"],
            teams=tuple(told.get("teams", ())),
            games=told.get("games", "all"),
            why=told["why"],
        )


class DaysField(forms.CharField):
    """Takes days with commas between."""

    def clean(self, value: Any) -> Any:
        """Return the days in their order, each once."""
        parts = dict.fromkeys(filter(None, map(str.strip, super().clean(value).split(","))))
        days = []
        for one in parts:
            try:
                days.append(date.fromisoformat(one))
            except ValueError as error:
                raise forms.ValidationError(
                    f"“{one[:20]}” is no day of the calendar. Write it as 2027-01-18."
                ) from error
        return tuple(sorted(days))


class NamesField(forms.CharField):
    """Takes names with commas between."""

    def clean(self, value: Any) -> Any:
        """Return the names, each once."""
        return tuple(
            dict.fromkeys(filter(None, map(str.strip, super().clean(value).split(","))))
        )


class TicksField(forms.MultipleChoiceField):
    """Takes some of the days of the week."""

    widget = Ticks

    def clean(self, value: Any) -> Any:
        """Return those that are ticked."""
        return tuple(super().clean(value))


def _field(info: FieldInfo, bounds: Mapping[str, Any], label: str, hint: str) -> forms.Field:
    """Return the field for a parameter: its bounds are those of the kind."""
    bare: Any = info.annotation
    is_needed = info.is_required()
    if get_origin(bare) is Literal:
        words = [(one, WORDS[one]) for one in get_args(bare)]
        return forms.ChoiceField(label=label, choices=words, help_text=hint)
    if get_origin(bare) is tuple:
        return _several(get_args(bare)[0], label, hint, is_needed=is_needed)
    if bare is int:
        return _number(bounds, label, hint, is_needed=is_needed)
    if bare is time:
        return time_field(label, is_needed=is_needed)
    if bare is date:
        field = day_field(label)
        field.required = is_needed
        return field
    most = bounds["maxLength"]
    return forms.CharField(label=label, required=is_needed, max_length=most, help_text=hint)


def _number(
    bounds: Mapping[str, Any], label: str, hint: str, *, is_needed: bool
) -> forms.IntegerField:
    least, most = bounds["minimum"], bounds["maximum"]
    return forms.IntegerField(
        label=label,
        required=is_needed,
        min_value=least,
        max_value=most,
        help_text=f"{least} to {most}. {hint}".strip(),
        error_messages={
            "required": f"There is no number yet. Write one from {least} to {most}.",
            "invalid": f"This is no whole number. Write one from {least} to {most}.",
            "min_value": f"It is less than {least}. Write one from {least} to {most}.",
            "max_value": f"It is more than {most}. Write one from {least} to {most}.",
        },
    )


def _several(one: Any, label: str, hint: str, *, is_needed: bool) -> forms.Field:
    if get_origin(one) is Literal:
        days = [(day, day.capitalize()) for day in get_args(one)]
        return TicksField(label=label, choices=days, required=is_needed)
    kind = NamesField if one is str else DaysField
    return kind(label=label, required=is_needed, max_length=LONGEST, help_text=hint)
