"""Fills an empty site with the demonstration's season, and an account for each role in it."""

import secrets
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from wholeball.files.folder import SeasonFolder
from wholeball.files.folder_record import FolderRecord
from wholeball.store.models import Account, Membership, Organisation
from wholeball.store.record import DatabaseRecord
from wholeball.store.writing import Writer
from wholeball.usecases.begin_season import new_season
from wholeball.usecases.import_season import import_season

NAME: Final = "Quillmere Recreation"
SLUG: Final = "quillmere"
SEASON: Final = "Autumn eights"
_SECRET_BYTES: Final = 9


@dataclass(frozen=True, slots=True, kw_only=True)
class Demonstrator:
    """An account of the demonstration, named for what it may do; no mail ever goes there."""

    role: str

    @property
    def email(self) -> str:
        """What it signs in as."""
        return f"{self.role}@{SLUG}.example"


ACCOUNTS: Final = tuple(
    Demonstrator(role=role)
    for role in ("coordinator", "supervisor", "official", "scorekeeper", "captain", "player")
)


def fill(folder: Path) -> str:
    """Take a season in and make the accounts; return the password of all of them."""
    password = secrets.token_urlsafe(_SECRET_BYTES)
    organisation = Organisation.objects.create(name=NAME, slug=SLUG)
    accounts = {
        one.role: Account.objects.create_user(one.email, password, name=one.role.capitalize())
        for one in ACCOUNTS
    }
    season = new_season(organisation, SEASON)
    writer = Writer(account=accounts["coordinator"], at=datetime.now(UTC))
    taken = import_season(FolderRecord(folder), DatabaseRecord(season, writer))
    season.refresh_from_db()
    season.is_public = True
    season.save(update_fields=["is_public"])
    for role, team, person in _seats(taken.season):
        Membership.objects.create(
            organisation=organisation,
            account=accounts[role],
            role=role,
            season=None if role == "coordinator" else season,
            team=team,
            person=person,
        )
    return password


def _seats(read: SeasonFolder) -> Iterator[tuple[str, str, str]]:
    """Yield each role with the team and the person that it stands for: the first of the season."""
    team, roster = next(iter(read.rosters.items()))
    player = next(one for one in roster if one.person is not None)
    yield "coordinator", "", ""
    yield "supervisor", "", ""
    yield "scorekeeper", "", ""
    yield "official", "", read.officials[0].official
    yield "captain", team, ""
    yield "player", team, str(player.person)
