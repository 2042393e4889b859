"""Is the form by which the name of an official is corrected."""

from django import forms

from wholeball.files.cells import LONGEST_NAME


class OfficialNameForm(forms.Form):
    """Asks for the right name of an official."""

    official = forms.CharField(
        label="Name of the official",
        max_length=LONGEST_NAME,
        help_text="As sheets show it. It is corrected on every crew, for the sign-in and the"
        " calendar too. Nobody is told.",
        error_messages={"required": "There is no name yet. Write one."},
    )
