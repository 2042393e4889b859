"""Are the forms of what was asked for at sign-up: by a team, and by a player without one."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from types import MappingProxyType
from typing import Any, Final

from django import forms

from wholeball.desk.forms.times import day_field, time_field
from wholeball.files.cells import LONGEST_NAME
from wholeball.league.sign_up import Alone, SignUp
from wholeball.usecases.set_sign_ups import AloneTold, TeamTold

TEAM_FIELDS: Final = (
    "team",
    "block",
    "day",
    "time",
    "captain",
    "players",
    "colours",
    "second_colours",
)
ALONE_FIELDS: Final = ("name", "block", "day", "time")
COLUMNS: Final[Mapping[str, str]] = MappingProxyType(
    {**{name: name for name in (*TEAM_FIELDS, *ALONE_FIELDS)}, "at": "day"}
)
"""The field for each column of sign_ups.csv and alone.csv."""
_LONGEST: Final = 200
_WHOLE: Final = {
    "invalid": "This is no whole number. Write one from 0 to 99.",
    "min_value": "It is less than 0. Write a number from 0 to 99.",
    "max_value": "It is more than 99. Write a number from 0 to 99.",
}


class _Asked(forms.Form):
    """What both ask for: a block, at a moment."""

    block = forms.ChoiceField(label="Which block?")
    day = day_field("Came in on this day")
    time = time_field("At this time")

    def __init__(self, *given: Any, blocks: Iterable[str], **named: Any) -> None:
        """Offer the blocks of the season."""
        super().__init__(*given, **named)
        field = self.fields["block"]
        assert isinstance(field, forms.ChoiceField)  # noqa: S101 - declared so above
        field.choices = [(one, one) for one in blocks]
        self.fields["day"].required = True
        self.fields["day"].error_messages["required"] = "There is no day yet. Choose one."

    @property
    def _at(self) -> datetime:
        """When it came in, in local time."""
        return datetime.combine(self.cleaned_data["day"], self.cleaned_data["time"])


class TeamSignUpForm(_Asked):
    """Says what a team asked for."""

    team = forms.CharField(
        label="Name of the team",
        max_length=LONGEST_NAME,
        error_messages={"required": "There is no name yet. Write one."},
    )
    captain = forms.CharField(label="Captain", required=False, max_length=LONGEST_NAME)
    players = forms.IntegerField(
        label="How many players it has so far",
        required=False,
        min_value=0,
        max_value=99,
        error_messages=_WHOLE,
    )
    colours = forms.CharField(
        label="Colours", required=False, max_length=_LONGEST, help_text="In words."
    )
    second_colours = forms.CharField(
        label="Second colours", required=False, max_length=_LONGEST, help_text="In words."
    )
    field_order = TEAM_FIELDS

    @classmethod
    def of(cls, asked: SignUp, blocks: Iterable[str]) -> "TeamSignUpForm":
        """Return the form with what a team asked for."""
        initial = {
            "team": asked.team,
            "block": asked.block,
            "day": asked.at.date(),
            "time": asked.at.time(),
            "captain": asked.captain,
            "players": asked.players or None,
            "colours": asked.colours,
            "second_colours": asked.second_colours,
        }
        return cls(initial=initial, blocks=blocks)

    def told(self) -> TeamTold:
        """Return what the form says."""
        names = ("team", "block", "captain", "players", "colours", "second_colours")
        return TeamTold(at=self._at, **{name: self.cleaned_data[name] for name in names})


class AloneForm(_Asked):
    """Says what a player without a team asked for."""

    name = forms.CharField(
        label="Name of the player",
        max_length=LONGEST_NAME,
        error_messages={"required": "There is no name yet. Write one."},
    )
    field_order = ALONE_FIELDS

    @classmethod
    def of(cls, asked: Alone, blocks: Iterable[str]) -> "AloneForm":
        """Return the form with what a player asked for."""
        initial = {
            "name": asked.name,
            "block": asked.block,
            "day": asked.at.date(),
            "time": asked.at.time(),
        }
        return cls(initial=initial, blocks=blocks)

    def told(self) -> AloneTold:
        """Return what the form says."""
        name, block = self.cleaned_data["name"], self.cleaned_data["block"]
        return AloneTold(name=name, block=block, at=self._at)
