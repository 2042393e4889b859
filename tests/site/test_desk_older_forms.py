"""Two windows on one page: who keeps the older one is told, and takes back nothing unseen."""

import re
from pathlib import Path
from typing import Any

import pytest
from django.test import Client

from cases.answers import words
from cases.desk_season import DeskSeason, a_desk, at

pytestmark = pytest.mark.django_db
FIRST, LAST = "2026-09-01", "2026-12-04"


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path)


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def days(client: Client, first: str, last: str, seen: str) -> Any:
    told = {"first_day": first, "last_day": last, "version": seen}
    return client.post(at("set_days"), told)


def of_form(answer: Any, action: str) -> str:
    """Return the version that the form of an address holds on a page."""
    page = answer.content.decode()
    form = page[page.index(f'action="{at(action)}"') :]
    found = re.search(r'name="version" value="([0-9]+)"', form)
    assert found is not None
    return found[1]


def test_the_days_that_another_kept_meanwhile_are_not_set_back_unseen(
    desk: DeskSeason, kim: Client
) -> None:
    seen = of_form(kim.get(at("times")), "set_days")
    assert days(kim, FIRST, "2026-12-11", seen).status_code == 302
    kept = desk.texts()["season.toml"]
    faulty = days(kim, "2026-08-31", "", seen)
    assert (faulty.status_code, of_form(faulty, "set_days")) == (422, seen)
    stale = days(kim, "2026-08-31", LAST, seen)
    assert (stale.status_code, desk.texts()["season.toml"]) == (422, kept)
    assert "It was changed while you worked on it." in words(stale)
    assert 'value="2026-08-31"' in stale.content.decode()
    assert days(kim, "2026-08-31", LAST, of_form(stale, "set_days")).status_code == 302


def test_how_much_each_plays_is_not_set_back_unseen(desk: DeskSeason, kim: Client) -> None:
    seen = of_form(kim.get(at("times")), "set_amount")
    told = {"kind": "meetings", "many": "2", "version": seen}
    assert kim.post(at("set_amount"), told).status_code == 302
    kept = desk.texts()["planning.toml"]
    stale = kim.post(at("set_amount"), {**told, "many": "3"})
    assert (stale.status_code, desk.texts()["planning.toml"]) == (422, kept)
    assert "It was changed while you worked on it." in words(stale)
    newest = {**told, "many": "3", "version": of_form(stale, "set_amount")}
    assert kim.post(at("set_amount"), newest).status_code == 302


def test_a_form_without_its_version_is_not_understood(kim: Client) -> None:
    for name, told in (
        ("set_days", {"first_day": FIRST, "last_day": LAST}),
        ("set_amount", {"kind": "meetings", "many": "2"}),
    ):
        assert kim.post(at(name), told).status_code == 400
