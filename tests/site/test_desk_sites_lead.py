"""Nights, calling off and times know the sites of a season, and lead to what is not written down."""

from http import HTTPStatus
from pathlib import Path
from typing import Final

import pytest
from django.test import Client

from cases.answers import words
from cases.desk_season import DeskSeason, a_desk, at
from cases.desk_sites import NIGHT, WEIR, post, texts
from wholeball.store.models import Season

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    """A season whose games are on Field 1, without a site or a list of fields."""
    return a_desk(tmp_path)


def test_a_night_says_which_emergency_page_lacks_what_and_leads_there(kim: Client) -> None:
    told = {**WEIR, "site": "North Lea", "fields_here": ["North 1", "West 1"]}
    post(kim, "site", told, "North Lea")
    post(kim, "site", {**WEIR, "site": "South Lea", "aed": "", "fields_here": []}, "South Lea")
    page = words(kim.get(at("night", f"{NIGHT}")))
    assert "<bdi>South 1</bdi>: at no site yet, so nothing is written down" in page
    assert at("sites") in page
    assert at("site", "North Lea") not in page
    told = {**WEIR, "site": "South Lea", "aed": "", "fields_here": ["South 1"]}
    post(kim, "site", told, "South Lea")
    page = words(kim.get(at("night", f"{NIGHT}")))
    assert "(<bdi>South 1</bdi>). Not written down: AED." in page
    assert at("site", "South Lea") in page
    post(kim, "site", {**told, "aed": "Porch"}, "South Lea")
    assert "Emergency pages" not in words(kim.get(at("night", f"{NIGHT}")))


def test_a_supervisor_reads_what_is_missing_and_is_led_to_no_page_of_others(
    desk: DeskSeason,
) -> None:
    page = words(desk.people["supervisor"].get(at("night", "2026-09-15")))
    assert "at no site yet, so nothing is written down" in page
    assert "filled in by hand before the first game" in page
    assert at("sites") not in page
    assert "Emergency pages" not in words(
        desk.people["official"].get(at("night", "2026-09-15"))
    )


EVERY: Final = [("all", "Every field"), ("field:Field 1", "Field 1: this field alone")]


def test_calling_off_leads_to_sites_while_there_is_none(desk: DeskSeason) -> None:
    kim = desk.people["coordinator"]
    assert "fields.csv" not in texts(desk.season)
    place = kim.get(at("call_off")).context["form"].fields["place"]
    assert list(place.choices) == EVERY
    field = kim.get(at("tasks")).context["form"].fields["field"]
    assert list(field.choices) == [("", "no field alone"), ("Field 1", "Field 1")]
    hint = "No site has a field yet, so no site can be called off alone."
    post(kim, "add_site", {**WEIR, "fields_here": []})
    page = words(kim.get(at("call_off")))
    assert hint in page
    assert at("sites") in page
    post(kim, "site", {**WEIR, "fields_here": ["Field 1"]}, "Weir")
    assert hint not in words(kim.get(at("call_off")))


def test_a_site_that_was_added_can_be_called_off(desk: DeskSeason) -> None:
    kim = desk.people["coordinator"]
    post(kim, "add_site", {**WEIR, "fields_here": ["Field 1"]})
    choices = dict(kim.get(at("call_off")).context["form"].fields["place"].choices)
    assert choices == {
        "all": "Every field",
        "site:Weir": "Weir: the whole site",
        "field:Field 1": "Field 1: this field alone",
    }
    post(kim, "site", {**WEIR, "fields_here": []}, "Weir")
    choices = dict(kim.get(at("call_off")).context["form"].fields["place"].choices)
    assert list(choices) == ["all", "field:Field 1"]


TIME: Final = {
    "fields_named": "North 1, New 1",
    "weekday": "monday",
    "opens": "10:00",
    "closes": "12:00",
    "minutes": "",
    "first": "",
    "last": "",
}


def test_a_time_on_a_new_field_lists_it_at_no_site_and_the_page_leads_there(
    season: Season, kim: Client
) -> None:
    assert "At no site" not in words(kim.get(at("times")))
    before = texts(season)
    kim.post(at("add_time"), TIME)
    assert texts(season)["fields.csv"] == f"{before['fields.csv']}New 1,\n"
    page = words(kim.get(at("times")))
    assert "This field belongs to no site yet: <bdi>New 1</bdi>." in page
    assert at("sites") in page


def test_a_field_leaves_the_list_with_the_last_time_that_names_it(
    season: Season, kim: Client
) -> None:
    before = texts(season)
    kim.post(at("add_time"), TIME)
    kim.post(at("add_time"), {**TIME, "fields_named": "New 1", "weekday": "tuesday"})
    rows = texts(season)["slots.csv"].splitlines()
    numbers = [number for number, row in enumerate(rows, start=1) if "New 1" in row]
    for number, is_listed in zip(reversed(numbers), (True, False), strict=True):
        post(kim, "drop_time", {"row": f"{number}"})
        assert ("New 1" in texts(season)["fields.csv"]) == is_listed
    assert texts(season)["fields.csv"] == before["fields.csv"]
    first = next(number for number, row in enumerate(rows, start=1) if "North 1" in row)
    post(kim, "drop_time", {"row": f"{first}"})
    assert texts(season)["fields.csv"] == before["fields.csv"]


def test_capitals_alone_make_no_new_field(season: Season, kim: Client) -> None:
    before = texts(season)
    answer = kim.post(at("add_time"), {**TIME, "fields_named": "north 1"})
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert "Did you mean North 1?" in words(answer)
    assert texts(season) == before


def test_a_season_without_a_list_of_fields_gets_none_by_a_time(desk: DeskSeason) -> None:
    desk.people["coordinator"].post(at("add_time"), {**TIME, "fields_named": "New 1"})
    assert "fields.csv" not in texts(desk.season)
    assert "New 1" in texts(desk.season)["slots.csv"]
