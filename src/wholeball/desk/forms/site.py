"""Is the form of a site: its name, the fields at it, and what its emergency page says."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, Final

from django import forms

from wholeball.desk.forms.rules import Ticks
from wholeball.files.cells import LONGEST_NAME
from wholeball.kernel.identity import SiteId
from wholeball.league.place import Site
from wholeball.reports.night_words import NO_SHELTER, SITE_LABELS
from wholeball.usecases.show_sites import SiteShown, SitesShown

LONGEST: Final = 200
"""Characters of one thing at most: all of it is read in a hurry, on a printed sheet."""
TICKED: Final = "fields_here"
"""The field of which several can be ticked."""
SITE_FIELDS: Final[Mapping[str, str]] = MappingProxyType(
    {"site": "site", **{name: name for name in SITE_LABELS}}
)
"""The field for each column of sites.csv."""
_HINTS: Final = {
    "address": "What is said to whoever answers the call: street, number, town, and the entrance.",
    "gate": "Which gate the ambulance drives in by, and how it is found from the road.",
    "gate_opener": "Who opens it, where the key is, and who else can.",
    "aed": "Where the nearest defibrillator (AED) hangs, and how to reach it behind a locked door.",
    "calls": "Who calls, by their work, such as: the supervisor. The emergency number itself is"
    " never kept here: it is written on the printed page by hand.",
    "meets": "Who stands at the gate and shows the way, such as: the trail official.",
    "shelter": f"Where all go at thunder or a flash: which building, by which door. {NO_SHELTER}",
}

_FIELDS_HINT: Final = "A field is at one site only."
_NO_FIELD: Final = "No field is known yet. Add times under Fields and times first."


class SiteForm(forms.Form):
    """Says what a site is called, which fields are at it, and what to do there in an emergency."""

    site = forms.CharField(
        label="Name of the site",
        max_length=LONGEST_NAME,
        help_text="Such as: Long Meadow.",
        error_messages={"required": "There is no name yet. Write one."},
    )
    fields_here = forms.MultipleChoiceField(
        label="Fields at it",
        required=False,
        widget=Ticks,
        error_messages={
            "invalid_choice": "%(value)s is no field of the season any more."
            " Tick those that are there now."
        },
    )

    def __init__(self, *given: Any, shown: SitesShown, here: str = "", **named: Any) -> None:
        """Offer the fields that the season knows; `here` is the site that is changed."""
        super().__init__(*given, **named)
        ticked = self.fields[TICKED]
        assert isinstance(ticked, forms.MultipleChoiceField)  # noqa: S101 - declared so above
        ticked.choices = [(field, _offered(field, at, here)) for field, at in shown.fields]
        ticked.help_text = _FIELDS_HINT if shown.fields else _NO_FIELD
        for name, label in SITE_LABELS.items():
            self.fields[name] = forms.CharField(
                label=label,
                required=False,
                max_length=LONGEST,
                help_text=_HINTS[name],
                widget=forms.Textarea(attrs={"rows": 2}),
            )

    @classmethod
    def of(cls, one: SiteShown, shown: SitesShown) -> "SiteForm":
        """Return the form with what was said of a site."""
        told = {name: getattr(one.told, name) for name in SITE_FIELDS}
        return cls(initial={**told, TICKED: [*one.fields]}, shown=shown, here=one.told.site)

    def told(self) -> Site:
        """Return what the form says of the site; browsers end lines in a way of their own."""
        texts = {name: self.cleaned_data[name].replace("\r\n", "\n") for name in SITE_LABELS}
        return Site(site=SiteId(self.cleaned_data["site"]), **texts)

    def ticked(self) -> tuple[str, ...]:
        """Return the fields at the site."""
        return tuple(self.cleaned_data[TICKED])


def _offered(field: str, at: str, here: str) -> str:
    return f"{field} (at {at} now: ticked, it moves here)" if at and at != here else field
