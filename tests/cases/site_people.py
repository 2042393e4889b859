"""Puts people and seasons into a site that a test serves; `in_site` runs each inside it."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Final

PASSWORD: Final = "a meadow in October"  # noqa: S105 - of accounts that live for one test


def put_person(email: str, role: str = "", name: str = "") -> int:
    """Make an account, with a role in the first league where one is named; return its number."""
    from wholeball.store.models import Account, Membership, Organisation  # noqa: PLC0415

    account = Account.objects.create_user(email, PASSWORD, name=name)
    if role:
        organisation = Organisation.objects.order_by("pk")[0]
        Membership.objects.create(organisation=organisation, account=account, role=role)
    return int(account.pk)


def put_season(folder: str, slug: str) -> int:
    """Put a season folder in, as the first league's; return the season's number."""
    from wholeball.store.models import Organisation, Season  # noqa: PLC0415
    from wholeball.store.record import DatabaseRecord  # noqa: PLC0415
    from wholeball.store.writing import Writer  # noqa: PLC0415

    organisation = Organisation.objects.order_by("pk")[0]
    season = Season.objects.create(organisation=organisation, slug=slug, name=slug)
    paths = [path for path in Path(folder).rglob("*") if path.is_file()]
    texts = {path.relative_to(folder).as_posix(): path.read_bytes() for path in paths}
    writer = Writer(account=None, at=datetime(2026, 11, 26, tzinfo=UTC))
    DatabaseRecord(season, writer).write(texts)
    return int(season.pk)
