"""Begins a season at the desk from a list of nine teams, and reads what it has become."""

from collections.abc import Iterator
from http import HTTPStatus
from typing import Any, Final

from django.contrib.messages import get_messages
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from cases.stored import before_a_season
from wholeball.files.folder import read_folder
from wholeball.store.models import Season
from wholeball.store.record import DatabaseRecord

SEASON: Final = "/desk/meadow/autumn/season/"
TODAY: Final = "/desk/meadow/autumn/today/"
NAMES: Final = ("Ash", "Bay", "Cedar", "Dogwood", "Elm", "Fir", "Gorse", "Hazel", "Ivy")
TIME: Final = {
    "fields_named": "Meadow 1, Meadow 2",
    "weekday": "monday",
    "opens": "18:00",
    "closes": "21:00",
    "minutes": "",
    "first": "",
    "last": "",
}


def begun(client: Client) -> Client:
    """Return the coordinator of a season of nine teams that has begun on a Monday."""
    before_a_season(client)
    told = {
        "way": "preset",
        "preset-name": "Autumn",
        "preset-preset": "eight",
        "preset-timezone": "America/New_York",
        "preset-first_day": "2027-01-18",
        "preset-file": listed(*NAMES),
    }
    assert client.post("/start/", told).status_code == HTTPStatus.FOUND
    return client


def listed(*names: str) -> SimpleUploadedFile:
    return SimpleUploadedFile("teams.csv", "\n".join(("team", *names)).encode())


def record() -> DatabaseRecord:
    return DatabaseRecord(Season.objects.get())


def text(name: str) -> str:
    return record().read(name, 1_000_000).decode()


def pools() -> dict[str, str]:
    return {str(one.team): str(one.pool) for one in read_folder(record()).season.league.teams}


def post(client: Client, page: str, **told: Any) -> Any:
    return client.post(f"{SEASON}{page}/", told)


def said(answer: Any) -> list[str]:
    return [str(one) for one in get_messages(answer.wsgi_request)]


def at_version(**told: str) -> dict[str, str]:
    return {**told, "version": f"{Season.objects.get().version}"}


def steps(client: Client) -> Iterator[tuple[str, str, str, bool]]:
    for one in client.get(TODAY).context["today"].steps:
        yield one.place, one.word, one.says, one.is_next
