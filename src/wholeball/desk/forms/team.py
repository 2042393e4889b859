"""Is the form by which the name of a team is corrected."""

from django import forms

from wholeball.files.cells import LONGEST_NAME


class TeamNameForm(forms.Form):
    """Asks for the right name of a team."""

    team = forms.CharField(
        label="Name of the team",
        max_length=LONGEST_NAME,
        help_text="It is corrected wherever the season has it, for its captain and its calendar"
        " too. Nobody is told.",
        error_messages={"required": "There is no name yet. Write one."},
    )
