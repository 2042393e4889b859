"""Is the form by which teams are dealt out into pools."""

from typing import Any

from django import forms

from wholeball.usecases.arrange_pools import PoolsShown, Spread


class SpreadForm(forms.Form):
    """Asks into how many pools, and which teams where there are divisions."""

    pools = forms.ChoiceField(
        label="How many pools?",
        help_text="Teams are dealt out in the order of the list, one to each pool in turn.",
    )

    def __init__(self, *given: Any, shown: PoolsShown, **named: Any) -> None:
        """Offer what the number of teams allows."""
        super().__init__(*given, **named)
        self.spreads = {_value(one): one for one in shown.spreads}
        field = self.fields["pools"]
        assert isinstance(field, forms.ChoiceField)  # noqa: S101 - declared so above
        field.choices = [(value, one.says) for value, one in self.spreads.items()]

    def clean_pools(self) -> Spread:
        """Return what was chosen."""
        return self.spreads[self.cleaned_data["pools"]]


def _value(spread: Spread) -> str:
    return f"{spread.pools}" if spread.place is None else f"{spread.pools} {spread.place.key}"
