"""Is the form by which teams are dealt out into pools."""

from typing import Any

from django import forms

from wholeball.usecases.arrange_pools import PoolsShown


class SpreadForm(forms.Form):
    """Asks into how many pools."""

    pools = forms.TypedChoiceField(
        label="How many pools?",
        coerce=int,
        help_text="Teams are dealt out in the order of the list, one to each pool in turn.",
    )

    def __init__(self, *given: Any, shown: PoolsShown, **named: Any) -> None:
        """Offer what the number of teams allows."""
        super().__init__(*given, **named)
        field = self.fields["pools"]
        assert isinstance(field, forms.ChoiceField)  # noqa: S101 - declared so above
        field.choices = shown.spreads
