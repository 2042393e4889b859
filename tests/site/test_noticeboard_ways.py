"""The front leads to lots whether there are any, and pages of teams and fields to their feeds."""

import re

import pytest
from django.test import Client

from cases.noticeboard_season import ROOT, board, public_season
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
    assert f'<a href="{ROOT}draws/"><bdi>Lots</bdi></a>' in page("")
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
