"""Are the forms by which a player is added to a roster by hand, and corrected there."""

from typing import Any, Final

from django import forms

from wholeball.files.cells import LONGEST_NAME, Refused
from wholeball.files.student_ids import student_id
from wholeball.league.player import Player
from wholeball.usecases.set_roster import PlayerTold

FIELDS: Final = ("name", "number", "captain")
ADD_FIELDS: Final = ("student_id", *FIELDS)
COLUMNS: Final = {one: one for one in ADD_FIELDS}
"""The field for each column that is typed."""
_WHOLE: Final = {
    "invalid": "This is no whole number. Write one from 0 to 99.",
    "min_value": "It is less than 0. Write a number from 0 to 99.",
    "max_value": "It is more than 99. Write a number from 0 to 99.",
}


class Unshown(forms.TextInput):
    """A field that never shows what was sent: it is typed again."""

    def format_value(self, value: Any) -> None:
        """Show nothing."""
        del value


class PlayerForm(forms.Form):
    """Says what a roster has of a player."""

    name = forms.CharField(
        label="Name",
        max_length=LONGEST_NAME,
        help_text="As the player agreed to be shown.",
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
        error_messages={"required": "There is no name yet. Write one."},
    )
    number = forms.IntegerField(
        label="Shirt number",
        required=False,
        min_value=0,
        max_value=99,
        widget=forms.TextInput(attrs={"inputmode": "numeric", "class": "figure"}),
        help_text="0 to 99; empty where shirts have none.",
        error_messages=_WHOLE,
    )
    captain = forms.BooleanField(label="Captain of the team", required=False)

    @classmethod
    def of(cls, player: Player) -> "PlayerForm":
        """Return the form with a player as the roster has them."""
        initial = {"name": player.name, "number": player.number, "captain": player.is_captain}
        return cls(initial=initial)

    def told(self) -> PlayerTold:
        """Return what the form says."""
        return PlayerTold(
            name=self.cleaned_data["name"],
            number=self.cleaned_data["number"],
            is_captain=self.cleaned_data["captain"],
        )


class NewPlayerForm(PlayerForm):
    """Says who is added; the student id is taken, and never shown again."""

    student_id = forms.CharField(
        label="Student id",
        max_length=60,
        widget=Unshown(attrs={"autocomplete": "off"}),
        help_text="It becomes a code that nobody can read back. Once sent it is not shown again.",
        error_messages={"required": "There is no student id yet. Type it."},
    )
    field_order = ADD_FIELDS

    def clean_student_id(self) -> str:
        """Return the id without spaces and in small letters."""
        try:
            return student_id(self.cleaned_data["student_id"])
        except Refused as refused:
            raise forms.ValidationError(f"This is no student id. {refused.cure}") from refused
