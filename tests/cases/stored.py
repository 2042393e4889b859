"""Makes seasons in the database, and whoever writes them."""

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from django.test import Client

from wholeball.files.folder import SeasonFolder
from wholeball.kernel.refusals import Source
from wholeball.store.models import Account, Membership, Organisation, Season
from wholeball.store.record import DatabaseRecord
from wholeball.store.writing import Writer

NOW = datetime(2026, 11, 26, 9, 5, tzinfo=UTC)
NOWHERE = Source("planning.toml", {})


def a_season(name: str = "Autumn") -> Season:
    organisation, _ = Organisation.objects.get_or_create(
        slug="harrow-fen", defaults={"name": "Harrow Fen"}
    )
    return Season.objects.create(organisation=organisation, slug=name.lower(), name=name)


def an_account(name: str = "Kim Vale") -> Account:
    email = f"{name.lower().replace(' ', '.')}@harrowfen.example"
    return Account.objects.create_user(email, name=name)


def before_a_season(client: Client, role: str = "coordinator") -> Client:
    """Sign somebody in who has a role in a league that has no season yet."""
    league = Organisation.objects.create(name="Meadow leagues", slug="meadow")
    account = Account.objects.create_user("tessa@league.invalid")
    Membership.objects.create(organisation=league, account=account, role=role)
    client.force_login(account)
    return client


def written_by(
    season: Season, account: Account | None = None, *, version: int | None = None
) -> DatabaseRecord:
    """Return the record of a season as somebody sees it who looked at a version."""
    now = Season.objects.get(pk=season.pk)
    return DatabaseRecord(now, Writer(account=account, at=NOW, version=version))


def texts_of(folder: Path) -> dict[str, bytes]:
    files = (path for path in sorted(folder.rglob("*")) if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def facts_of(season: SeasonFolder) -> SeasonFolder:
    """Return what was read, its planning without the text that faults are shown in."""
    said = season.planning.said
    if said is None:
        return season
    same = replace(said, source=NOWHERE)
    return replace(season, planning=replace(season.planning, said=same))
