"""Tests how the days of a season and the days off are set at the desk."""

from http import HTTPStatus

import pytest
from django.test import Client

from cases.setting_up import SEASON, TIME, at_version, begun, post, said, text

pytestmark = pytest.mark.django_db


@pytest.fixture
def coordinator(client: Client) -> Client:
    return begun(client)


def test_the_days_of_a_season_are_changed_and_the_places_with_them(coordinator: Client) -> None:
    post(coordinator, "times/add", **TIME)
    before = text("season.toml")
    days = at_version(first_day="2027-01-18", last_day="2027-01-25")
    answer = post(coordinator, "times/days", **days)
    assert said(answer)[-1] == "The days are kept. To undo it: Season, Changes."
    assert text("season.toml") == before.replace("2027-04-11", "2027-01-25")
    shown = coordinator.get(f"{SEASON}times/").context["shown"]
    assert (shown.room.places, shown.room.nights) == (8, 2)


@pytest.mark.parametrize(
    ("first", "last", "says"),
    [
        ("2027-01-18", "2027-01-17", "It is before 2027-01-18."),
        ("2027-01-18", "", "There is no day yet. Choose one."),
        ("2027-01-18", "2027-02-30", "This is no day of the calendar."),
        ("2027-01-19", "2027-01-24", "there is no such day"),
    ],
)
def test_days_that_cannot_be_are_told_and_nothing_is_kept(
    coordinator: Client, first: str, last: str, says: str
) -> None:
    post(coordinator, "times/add", **TIME)
    before = text("season.toml")
    answer = post(coordinator, "times/days", **at_version(first_day=first, last_day=last))
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert says.lower() in answer.content.decode().lower()
    assert text("season.toml") == before


def test_days_off_take_their_places_and_give_them_back(coordinator: Client) -> None:
    post(coordinator, "times/add", **TIME)

    def places() -> int:
        found: int = coordinator.get(f"{SEASON}times/").context["shown"].room.places
        return found

    post(coordinator, "days-off", day="2027-02-15", until="2027-02-22", why="=spring break")
    assert (places(), text("closures.csv").splitlines()[-1]) == (
        40,
        ",,2027-02-15,2027-02-22,,,'=spring break",
    )
    (row,) = coordinator.get(f"{SEASON}days-off/").context["rows"]
    assert (row.says, row.why) == (
        "Monday 15 February to Monday 22 February: every field",
        "=spring break",
    )
    stale = at_version(row="2")
    post(coordinator, "days-off/open", **at_version(row="2"))
    assert places() == 48
    assert post(coordinator, "days-off/open", **stale).status_code == HTTPStatus.CONFLICT


@pytest.mark.parametrize(
    ("day", "until"),
    [("", ""), ("2027-02-30", ""), ("2026-02-15", ""), ("2027-02-15", "2027-02-14")],
)
def test_a_day_off_that_cannot_be_is_told_and_not_kept(
    coordinator: Client, day: str, until: str
) -> None:
    answer = post(coordinator, "days-off", day=day, until=until, why="")
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert not coordinator.get(f"{SEASON}days-off/").context["rows"]
