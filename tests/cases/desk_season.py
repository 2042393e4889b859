"""Makes a season at a desk with everybody who works there: two nights gone by, one to come."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import Final

from django.test import Client
from django.urls import reverse

from cases.paper_cards import ordinary
from cases.people_season import RULES, enter, write_people
from cases.stored import a_season, an_account, texts_of, written_by
from wholeball.store.models import Membership, Season
from wholeball.store.snapshot import snapshot_of

HERE: Final = "/desk/harrow-fen/autumn/"
WHERE: Final = ("harrow-fen", "autumn")
"""Both names of the season, as its addresses take them."""
GAME: Final = "A1"
OTHER_GAME: Final = "C1"
"""A game of another night and other officials."""
CREWS: Final = """game,role,official
A1,referee,Ada Quill
A1,scorekeeper,Bo Tarn
A2,referee,Cy Imbray
C1,referee,Cy Imbray
C1,scorekeeper,Di Lund
"""
OFFICIALS: Final = "official\nAda Quill\nBo Tarn\nCy Imbray\nDi Lund\n"
CREW: Final = """
[crew]
ref = "H 2.1"
size = 2
roles = ["referee", "scorekeeper"]
least = 1
system = "one_official"
"""
ROLES: Final = (
    "coordinator",
    "supervisor",
    "official",
    "scorekeeper",
    "captain",
    "player",
)


_TEXTS: Final[dict[frozenset[tuple[str, str]], Mapping[str, bytes]]] = {}
"""The texts of folders that were written once, by what was asked of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DeskSeason:
    """A season, and a browser for each role: theirs are game A1 and the team Ash."""

    season: Season
    people: dict[str, Client]

    def texts(self) -> dict[str, bytes]:
        """Return everything that the season holds."""
        return dict(snapshot_of(Season.objects.get(pk=self.season.pk)).texts)


def a_desk(tmp_path: Path, **files: str) -> DeskSeason:
    """Return the season with A1 played and typed in, and somebody of every role."""
    season, said = a_season(), frozenset(files.items())
    if said not in _TEXTS:
        _TEXTS[said] = texts_of(a_folder(tmp_path / "season", **files))
    put_texts(season, _TEXTS[said])
    people = {role: member(season, role) for role in ROLES}
    return DeskSeason(season=season, people=people)


def a_folder(place: Path, **files: str) -> Path:
    """Write the season's folder, with game A1 played and typed in."""
    given = {"rules": RULES + CREW, "crews": CREWS, "officials": OFFICIALS, **files}
    folder = write_people(place, **given)
    enter(folder, GAME, ordinary())
    return folder


def put_season(season: Season, folder: Path) -> None:
    """Put all that a folder holds into a season of the database."""
    put_texts(season, texts_of(folder))


def put_texts(season: Season, texts: Mapping[str, bytes]) -> None:
    """Put texts as a folder holds them into a season of the database."""
    record = written_by(season)
    record.write({name: data for name, data in texts.items() if not name.startswith("games/")})
    for name, data in texts.items():
        if name.startswith("games/"):
            record.append(name, data)


def member(season: Season, role: str, *, person: str = "", team: str = "") -> Client:
    """Return a browser of somebody who has a role: that of game A1 and of the team Ash."""
    own = {"official": "Ada Quill", "supervisor": "Ada Quill", "scorekeeper": "Bo Tarn"}
    named = person or own.get(role, "")
    account = an_account(f"{role} {named}".strip())
    Membership.objects.create(
        organisation=season.organisation,
        account=account,
        role=role,
        season=season,
        person=named,
        team=team or ("Ash" if role in ("captain", "player") else ""),
    )
    client = Client()
    client.force_login(account)
    return client


def at(name: str, *args: object) -> str:
    """Return the address of a page of the season at the desk."""
    return reverse(f"desk:{name}", args=(*WHERE, *args))


def days_from(first: date, count: int) -> str:
    """Return a day so many days after another, as files write it."""
    return (first + timedelta(days=count)).isoformat()
