"""Papers are laid out for the paper that is usual where a season is played."""

from dataclasses import replace
from pathlib import Path

import pytest

from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.usecases.usual_paper import other_paper, usual_paper

EXAMPLE = Path(__file__).parent.parent / "examples" / "lantern-hill"


@pytest.mark.parametrize(
    ("zone", "paper"),
    [
        ("America/Chicago", "us-letter"),
        ("Pacific/Honolulu", "us-letter"),
        ("America/Toronto", "us-letter"),
        ("America/Sao_Paulo", "a4"),
        ("Europe/London", "a4"),
        ("Asia/Manila", "us-letter"),
        ("UTC", "a4"),
    ],
)
def test_paper_is_that_of_the_country_of_the_time_zone(zone: str, paper: str) -> None:
    """Countries by zone.tab of the IANA database, paper by the Unicode CLDR (from memory)."""
    read = read_folder(FolderRecord(EXAMPLE))
    league = replace(read.season.league, timezone=zone)
    there = replace(read, season=replace(read.season, league=league))
    assert usual_paper(there) == paper
    assert {usual_paper(there), other_paper(there)} == {"a4", "us-letter"}
