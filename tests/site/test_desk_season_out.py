"""A season is downloaded whole, handed out as tables of standings, and called otherwise."""

import csv
import io
import zipfile
from html import unescape
from http import HTTPStatus
from pathlib import Path
from typing import Any

import pytest
from django.contrib.messages import get_messages
from django.test import Client
from openpyxl import load_workbook

from cases.desk_season import DeskSeason, a_desk, at
from cases.stored import a_season, written_by
from wholeball.files.folder import read_folder
from wholeball.store.models import AuditRow, Change, Season
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.import_season import import_archive

pytestmark = pytest.mark.django_db
RESULTS = (
    "game,round,home,away,home_goals,away_goals\nA3,3,Ash,Elder,1,0\nC1,1,Cedar,Dogwood,1,1\n"
)
HEADER = [
    "pool",
    "after_round",
    "place",
    "team",
    "played",
    "won",
    "drawn",
    "lost",
    "goals_for",
    "goals_against",
    "difference",
    "points",
    "deducted",
]


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    """A season in which Ash beat Birch 3-2, and what RESULTS says."""
    return a_desk(tmp_path, results=RESULTS)


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def names() -> tuple[str, str]:
    """Return what the season is called on the site, and on its pages."""
    season = Season.objects.get(slug="autumn")
    return season.name, read_folder(snapshot_of(season)).season.league.name


def rename(kim: Client, name: str, version: str = "") -> Any:
    seen = version or f"{Season.objects.get(slug='autumn').version}"
    return kim.post(at("season_name"), {"name": name, "version": seen})


def said(answer: Any) -> str:
    return str([*get_messages(answer.wsgi_request)][-1])


def test_the_download_holds_every_text_and_comes_in_again_as_the_same_season(
    desk: DeskSeason, kim: Client
) -> None:
    answer = kim.get(at("download"))
    assert answer.headers["Content-Type"] == "application/zip"
    assert answer.headers["Content-Disposition"] == 'attachment; filename="autumn.zip"'
    assert "no-store" in answer.headers["Cache-Control"]
    with zipfile.ZipFile(io.BytesIO(answer.content)) as archive:
        assert archive.testzip() is None
        assert {one: archive.read(one) for one in archive.namelist()} == desk.texts()
    spring = a_season("Spring")
    import_archive(answer.content, written_by(spring), file="autumn.zip")
    assert dict(snapshot_of(Season.objects.get(pk=spring.pk)).texts) == desk.texts()


def test_a_download_is_noted_once_as_a_read_of_what_is_private(kim: Client) -> None:
    kim.get(at("download"))
    noted = AuditRow.objects.filter(did="saw").values_list("what", flat=True)
    assert list(noted) == ["autumn: the whole season, downloaded"]


def test_standings_of_every_pool_with_a_result_are_handed_out(kim: Client) -> None:
    text = kim.get(at("table", "standings", "csv")).content.decode("utf-8-sig")
    assert list(csv.reader(io.StringIO(text))) == [
        HEADER,
        ["A", "3", "1", "Ash", "2", "2", "0", "0", "4", "2", "2", "6", "0"],
        ["A", "3", "2", "Birch", "1", "0", "0", "1", "2", "3", "-1", "0", "0"],
        ["A", "3", "3", "Elder", "1", "0", "0", "1", "0", "1", "-1", "0", "0"],
        ["B", "1", "1", "Cedar", "1", "0", "1", "0", "1", "1", "0", "1", "0"],
        ["B", "1", "1", "Dogwood", "1", "0", "1", "0", "1", "1", "0", "1", "0"],
    ]
    sheet = load_workbook(io.BytesIO(kim.get(at("table", "standings", "xlsx")).content)).active
    assert sheet is not None
    rows = [list(one) for one in sheet.iter_rows(values_only=True)]
    assert rows[:2] == [HEADER, ["A", 3, 1, "Ash", 2, 2, 0, 0, 4, 2, 2, 6, 0]]


def test_the_report_and_the_season_lead_to_both(kim: Client) -> None:
    report = kim.get(at("report")).content.decode()
    assert f'href="{at("table", "standings", "csv")}"' in report
    assert f'href="{at("table", "standings", "xlsx")}"' in report
    season = kim.get(at("season")).content.decode()
    assert f'href="{at("download")}"' in season
    assert f'href="{at("season_name")}"' in season


def test_a_season_is_called_otherwise_on_the_site_and_on_its_pages_and_back_again(
    kim: Client,
) -> None:
    Season.objects.filter(slug="autumn").update(name=names()[1])
    before = names()
    answer = rename(kim, "  Autumn league ")
    assert (
        said(answer) == "The season is called Autumn league now. To undo it: Season, Changes."
    )
    assert names() == ("Autumn league", "Autumn league")
    assert kim.get(at("season")).status_code == HTTPStatus.OK
    assert b"Autumn league" in kim.get(at("season")).content
    change = Change.objects.filter(name="season.toml").order_by("-pk")[0]
    kim.post(at("undo"), {"change": f"{change.pk}"})
    assert names() == before


def test_two_names_become_one_and_the_way_back_is_to_name_it_so(kim: Client) -> None:
    on_site, on_pages = names()
    page = kim.get(at("season_name")).content.decode()
    assert f"<bdi>{on_site}</bdi>" in page
    assert f"<bdi>{on_pages}</bdi>" in page
    answer = rename(kim, "Autumn league")
    assert said(answer) == "The season is called Autumn league now. To undo it: name it back."
    assert names() == ("Autumn league", "Autumn league")


def test_taking_back_something_else_leaves_the_name_on_the_site(kim: Client) -> None:
    Season.objects.filter(slug="autumn").update(name="Our own word for it")
    toml = snapshot_of(Season.objects.get(slug="autumn")).texts["season.toml"]
    written_by(Season.objects.get(slug="autumn")).write(
        {"season.toml": toml + b"\n# A note.\n"}
    )
    change = Change.objects.filter(name="season.toml").order_by("-pk")[0]
    kim.post(at("undo"), {"change": f"{change.pk}"})
    assert names()[0] == "Our own word for it"


@pytest.mark.parametrize("typed", ["", "   ", "x" * 121, "Spring"])
def test_no_name_a_long_one_and_one_of_another_season_are_refused_at_the_field(
    kim: Client, typed: str
) -> None:
    a_season("Spring")
    before = names()
    answer = rename(kim, typed)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert list(answer.context["form"].errors) == ["name"]
    assert typed.strip() in unescape(answer.content.decode())
    assert names() == before


def test_a_stale_name_is_refused_and_kept_in_its_field(kim: Client) -> None:
    seen = f"{Season.objects.get(slug='autumn').version}"
    rename(kim, "Autumn league")
    answer = rename(kim, "Autumn cup", version=seen)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert 'value="Autumn cup"' in answer.content.decode()
    assert names() == ("Autumn league", "Autumn league")
