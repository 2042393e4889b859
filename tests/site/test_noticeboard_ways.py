"""The front leads to lots whether there are any, and pages of teams and fields to their feeds."""

import re

import pytest
from django.test import Client

from cases.noticeboard_season import ROOT, board, change, public_season, text
from wholeball.files.folder import read_folder
from wholeball.reports.shell import Link, Shell
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.calendar_pages import calendar_pages

pytestmark = pytest.mark.django_db


def page(address: str) -> str:
    answer = Client().get(f"{ROOT}{address}")
    assert answer.status_code == 200
    return answer.content.decode()


def test_the_front_leads_to_lots_before_a_draw_was_promised() -> None:
    public_season()
    assert f'<a href="{ROOT}draws/"><bdi>Draws of lots</bdi></a>' in page("")
    assert "No draw was promised yet: its mark stands here before it is held." in page("")
    assert "No draw was promised in this season." in page("draws/")


@pytest.mark.parametrize(
    ("address", "says"),
    [
        (
            "teams/Library%20Fines/",
            "Captain and players make a feed of these games under Your own, once signed in.",
        ),
        (
            "fields/Lower%20Meadow%201/",
            "A coordinator makes a feed of this field under Your own, for whom it concerns.",
        ),
    ],
)
def test_a_team_and_a_field_say_where_their_feed_is_made(address: str, says: str) -> None:
    public_season()
    told = page(address)
    (section,) = re.findall(
        r'<section[^>]*aria-labelledby="feed">(.*?)</section>', told, re.DOTALL
    )
    assert '<a href="/me/">Your own</a>' in section
    assert says in re.sub(r"<[^>]+>", "", section)


def test_a_night_and_pages_without_a_site_speak_of_no_feed() -> None:
    season = public_season()
    assert 'id="feed"' not in page("calendar/2026-10-13/")
    shown = board(season)
    shell = Shell(
        links=(Link(label="Calendar", href="calendar.html"),),
        rulebook="House",
        digest=shown.read.season.rulebook.digest,
        printed=shown.local,
    )
    made = calendar_pages(read_folder(snapshot_of(season)), shell)
    assert "calendar-team-1.html" in made
    assert not any(b'id="feed"' in one for one in made.values())


@pytest.mark.parametrize("pools", [1, 2])
def test_before_the_first_result_standings_are_listed_and_nothing_leads_nowhere(
    pools: int,
) -> None:
    season = public_season()
    head = text(season, "results.csv").splitlines()[0]
    teams = text(season, "teams.csv").splitlines()
    at = teams[0].split(",").index("pool")
    if pools == 1:
        rows = [one.split(",") for one in teams[1:]]
        teams[1:] = [",".join((*one[:at], "All", *one[at + 1 :])) for one in rows]
    change(season, results_csv=f"{head}\n", teams_csv="\n".join((*teams, "")))
    front, listed = page(""), page("standings/")
    for address in re.findall(rf'href="{ROOT}([^"]*)"', front + listed):
        page(address)
    assert listed.count("no result yet") == pools


def test_a_pool_is_led_to_from_its_first_result_on() -> None:
    public_season()
    assert f'href="{ROOT}standings/1/"' in page("standings/")
    assert "no result yet" not in page("standings/")
