"""Fills an empty site with the demonstration's seasons, and an account for each role in the newest."""

import secrets
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from wholeball.files.folder import SeasonFolder
from wholeball.files.folder_record import FolderRecord
from wholeball.store.models import Account, Membership, Organisation, Season
from wholeball.store.record import DatabaseRecord
from wholeball.store.writing import Writer
from wholeball.usecases.begin_season import new_season
from wholeball.usecases.import_season import import_season

NAME: Final = "Quillmere Recreation"
SLUG: Final = "quillmere"
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


def fill(folders: Mapping[str, Path]) -> str:
    """Take seasons in, each by its name, and make the accounts; return the password of all.

    The coordinator has every season, the other roles are of the last.
    """
    password = secrets.token_urlsafe(_SECRET_BYTES)
    organisation = Organisation.objects.create(name=NAME, slug=SLUG)
    accounts = {
        one.role: Account.objects.create_user(one.email, password, name=one.role.capitalize())
        for one in ACCOUNTS
    }
    coordinator = accounts["coordinator"]
    taken = [
        _take_in(folder, new_season(organisation, name), coordinator)
        for name, folder in folders.items()
    ]
    season, read = taken[-1]
    for role, team, person in _seats(read):
        Membership.objects.create(
            organisation=organisation,
            account=accounts[role],
            role=role,
            season=None if role == "coordinator" else season,
            team=team,
            person=person,
        )
    return password


def _take_in(folder: Path, season: Season, account: Account) -> tuple[Season, SeasonFolder]:
    """Take a season in and open its noticeboard."""
    writer = Writer(account=account, at=datetime.now(UTC))
    taken = import_season(FolderRecord(folder), DatabaseRecord(season, writer))
    season.refresh_from_db()
    season.is_public = True
    season.save(update_fields=["is_public"])
    return season, taken.season


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
