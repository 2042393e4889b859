"""Reads what people send from their own pages."""

from typing import Final, get_args

from django import forms

from wholeball.league.person import Shown

WORDS: Final[dict[Shown, str]] = {
    "initial": "Initial and surname",
    "full": "The whole name",
    "hidden": "Not at all",
}


class NameForm(forms.Form):
    """How the public reads a name."""

    person = forms.CharField(max_length=200, widget=forms.HiddenInput)
    shown = forms.ChoiceField(
        label="The public reads your name",
        choices=[(one, WORDS[one]) for one in get_args(Shown)],
        widget=forms.RadioSelect,
    )


class FeedForm(forms.Form):
    """Which calendar a feed is of."""

    subject = forms.CharField(max_length=120, widget=forms.HiddenInput)
