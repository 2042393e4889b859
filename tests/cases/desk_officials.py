"""Makes a season at a desk with an official whom no crew names, and does what is done with them."""

from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, Final

from django.test import Client

from cases.desk_season import OFFICIALS, DeskSeason, a_desk, at
from cases.stored import written_by
from wholeball.store.models import Invitation, Season

SOON: Final = (datetime.now(UTC) + timedelta(days=3)).date()
"""A day on which nothing of the season has been played yet."""
LEFT: Final = "El Marrow"


def officials_desk(tmp_path: Path) -> DeskSeason:
    """Return a season in which A1 was played, A3 is to come, and no crew names El Marrow."""
    made = a_desk(tmp_path, officials=f"{OFFICIALS}{LEFT}\n")
    texts = made.texts()
    last = f"last_day = {SOON + timedelta(days=30)}"
    row = "A3,3,2026-09-22"
    written_by(made.season).write(
        {
            "season.toml": texts["season.toml"].replace(
                b"last_day = 2026-12-04", last.encode()
            ),
            "timetable.csv": texts["timetable.csv"].replace(
                row.encode(), f"A3,3,{SOON}".encode()
            ),
            "crews.csv": texts["crews.csv"] + b"A3,referee,Ada Quill\n",
        }
    )
    return made


def version() -> str:
    return f"{Season.objects.get(slug='autumn').version}"


def drop(client: Client, official: str, seen: str = "") -> Any:
    return client.post(at("drop_official", official), {"version": seen or version()})


def invited(desk: DeskSeason, person: str, **keys: Any) -> Invitation:
    told = {
        "organisation": desk.season.organisation,
        "role": "official",
        "season": desk.season,
        "person": person,
        "email": f"{person[:2].lower()}@harrowfen.example",
        "digest": f"{Invitation.objects.count()}",
        "expires_at": datetime.now(UTC) + timedelta(days=1),
        **keys,
    }
    return Invitation.objects.create(**told)
