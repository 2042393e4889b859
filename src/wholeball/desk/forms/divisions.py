"""Are the forms of a division, and of a block in which a division plays."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Any, Final, get_args

from django import forms

from wholeball.files.cells import LONGEST_NAME
from wholeball.league.division import Kind, Weekday
from wholeball.usecases.set_blocks import BlockTold
from wholeball.usecases.show_divisions import BlockShown, DivisionTold

DIVISION_FIELDS: Final[Mapping[str, str]] = MappingProxyType(
    {name: name for name in ("division", "kind", "level", "league")}
)
"""The field for each column of divisions.csv."""
BLOCK_FIELDS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "block": "block",
        "division": "division",
        "weekday": "weekday",
        "from": "opens",
        "until": "closes",
        "places": "places",
    }
)
"""The field for each column of blocks.csv."""
_KINDS: Final = {"open": "Open to all", "mixed": "Mixed", "women": "Women", "men": "Men"}
_TIME: Final = {
    "invalid": "This is no time of the day. Write it as 19:00.",
    "required": "There is no time yet. Write it as 19:00.",
}


def _time(label: str) -> forms.TimeField:
    return forms.TimeField(
        label=label,
        widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M"),
        error_messages=_TIME,
    )


class DivisionForm(forms.Form):
    """Says what a division is called, and who plays in it."""

    division = forms.CharField(
        label="Name of the division",
        max_length=LONGEST_NAME,
        help_text="Such as: Mixed, or Open Competitive.",
        error_messages={"required": "There is no name yet. Write one."},
    )
    kind = forms.ChoiceField(
        label="Who plays in it?", choices=[(one, _KINDS[one]) for one in get_args(Kind)]
    )
    level = forms.CharField(
        label="Level",
        required=False,
        max_length=LONGEST_NAME,
        help_text="In words, such as: competitive.",
    )
    league = forms.CharField(
        label="League",
        required=False,
        max_length=LONGEST_NAME,
        help_text="Divisions of one league share its limits and its suspensions. Empty: the"
        " season's own.",
    )

    @classmethod
    def of(cls, told: DivisionTold) -> "DivisionForm":
        """Return the form with what was said of a division."""
        return cls(initial={name: getattr(told, name) for name in DIVISION_FIELDS})

    def told(self) -> DivisionTold:
        """Return what the form says."""
        return DivisionTold(**{name: self.cleaned_data[name] for name in DIVISION_FIELDS})


class BlockForm(forms.Form):
    """Says when a division plays, and for how many teams there are places."""

    block = forms.CharField(
        label="Name of the block",
        max_length=LONGEST_NAME,
        help_text="Such as: Tuesday late.",
        error_messages={"required": "There is no name yet. Write one."},
    )
    division = forms.ChoiceField(label="Which division plays?")
    weekday = forms.ChoiceField(
        label="Every", choices=[(one, one.capitalize()) for one in get_args(Weekday)]
    )
    opens = _time("From")
    closes = _time("Until")
    places = forms.IntegerField(
        label="Places for teams",
        min_value=1,
        max_value=99,
        error_messages={"required": "There is no number yet. Write one from 1 to 99."},
    )

    def __init__(self, *given: Any, divisions: Iterable[str], **named: Any) -> None:
        """Offer the divisions of the season."""
        super().__init__(*given, **named)
        field = self.fields["division"]
        assert isinstance(field, forms.ChoiceField)  # noqa: S101 - declared so above
        field.choices = [(one, one) for one in divisions]

    def clean(self) -> dict[str, Any]:
        """Hold the end to the beginning."""
        told = super().clean() or {}
        opens, closes = told.get("opens"), told.get("closes")
        if opens is not None and closes is not None and closes <= opens:
            says = f"The block begins at {opens:%H:%M}. It ends later on the same day."
            self.add_error("closes", says)
        return told

    @classmethod
    def of(cls, shown: BlockShown, divisions: Iterable[str]) -> "BlockForm":
        """Return the form with what was said of a block."""
        block = shown.block
        initial = {name: getattr(block, name) for name in BLOCK_FIELDS.values()}
        return cls(initial=initial, divisions=divisions)

    def told(self) -> BlockTold:
        """Return what the form says."""
        return BlockTold(**{name: self.cleaned_data[name] for name in BLOCK_FIELDS.values()})
