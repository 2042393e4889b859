"""Is the form by which a season is called otherwise."""

from django import forms


class SeasonNameForm(forms.Form):
    """Asks for the name of a season."""

    name = forms.CharField(
        label="Name of the season",
        max_length=120,
        help_text="As everybody reads it, in mail and calendars too. Its addresses stay as they"
        " are, so links go on to work.",
        error_messages={
            "required": "There is no name yet. Write one.",
            "max_length": "It has more than 120 characters. Shorten it.",
        },
    )
