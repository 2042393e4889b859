"""Is the form by which a coordinator writes down what was paid or waived of a fee."""

import re
from decimal import Decimal
from typing import Any, Final

from django import forms

from wholeball.desk.forms.times import day_field
from wholeball.kernel.identity import GameId, TeamId
from wholeball.season.fees import FeeEntry

FIELDS: Final = ("what", "amount", "day", "why")
"""What the form sends."""
COLUMNS: Final = {"what": "what", "amount": "amount", "date": "day", "why": "why"}
"""The field for each column of fees.csv that is typed."""
_AMOUNT: Final = re.compile(r"[0-9]{1,6}(?:\.[0-9]{1,4}|,[0-9]{1,2})?", re.ASCII)
"""A comma before three figures would part thousands in one place and cents in another."""


class FeeForm(forms.Form):
    """Says what was paid or waived of a fee, and when."""

    what = forms.ChoiceField(
        label="What is it?",
        choices=(("paid", "a payment"), ("waived", "a waiver: it need not be paid")),
        initial="paid",
        widget=forms.RadioSelect,
    )
    amount = forms.CharField(
        label="How much, in local currency",
        max_length=11,
        widget=forms.TextInput(attrs={"inputmode": "decimal", "class": "figure"}),
        help_text="A part of what is left will do, such as 12.50.",
        error_messages={"required": "There is no amount yet. Write it as 12.50."},
    )
    day = day_field("On which day?")
    why = forms.CharField(
        label="Why",
        required=False,
        max_length=200,
        help_text="Needed for a waiver. Nothing private: it stands in the season's files.",
    )

    def __init__(self, *given: Any, **named: Any) -> None:
        """Ask for the day."""
        super().__init__(*given, **named)
        self.fields["day"].required = True
        self.fields["day"].error_messages["required"] = "There is no day yet. Choose one."

    def clean_amount(self) -> Decimal:
        """Return the amount, written with a point or a comma."""
        told = self.cleaned_data["amount"]
        if _AMOUNT.fullmatch(told) is None:
            raise forms.ValidationError("This is no amount. Write it as 12.50.")
        amount = Decimal(told.replace(",", "."))
        if not amount:
            raise forms.ValidationError("It is 0. Write what was paid or waived.")
        return amount

    def clean(self) -> dict[str, Any]:
        """Ask why a fee is waived."""
        told = super().clean() or {}
        if told.get("what") == "waived" and told.get("why") == "":
            self.add_error("why", "A fee is waived for a reason. Write it here.")
        return told

    def entry(self, team: str, game: str) -> FeeEntry:
        """Return what the form says of a team's fee for a game."""
        told = self.cleaned_data
        return FeeEntry(
            day=told["day"],
            team=TeamId(team),
            game=GameId(game),
            what=told["what"],
            amount=told["amount"],
            why=told["why"],
        )
