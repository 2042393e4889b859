"""Tells which paper people print on where a season is played."""

from typing import Final

from wholeball.files.folder import SeasonFolder
from wholeball.files.zones import countries
from wholeball.usecases.print_booklet import Paper

LETTER_IN: Final = frozenset(
    ("BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE")
)
"""Where Letter is usual: paperSize of the Unicode CLDR's supplemental data (from memory)."""


def usual_paper(read: SeasonFolder) -> Paper:
    """Return Letter where the country of the season's time zone prints on it, else A4."""
    country = countries().get(read.season.league.timezone)
    return Paper.LETTER if country in LETTER_IN else Paper.A4
