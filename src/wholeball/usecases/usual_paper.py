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


def other_paper(read: SeasonFolder) -> Paper:
    """Return the paper that is not usual there, for whoever has it all the same."""
    return Paper.A4 if usual_paper(read) is Paper.LETTER else Paper.LETTER
