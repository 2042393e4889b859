"""Standings, results, ratings, brackets and downloads at the desk say what the folder says."""

import csv
import io
import re
from pathlib import Path

import pytest
from django.test import Client
from openpyxl import load_workbook

from cases.desk_season import DeskSeason, a_desk, at, member, put_season
from cases.people_season import write_people
from cases.stored import a_season
from wholeball.store.models import AuditRow, Season

pytestmark = pytest.mark.django_db
RESULTS = (
    "game,round,home,away,home_goals,away_goals\nA3,3,Ash,Elder,1,0\nA4,4,Elder,Birch,2,0\n"
)


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path, results=RESULTS)


@pytest.fixture
def coordinator(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def test_standings_lead_nobody_to_a_game_that_they_may_not_open(desk: DeskSeason) -> None:
    found = {}
    for role in ("coordinator", "official"):
        page = desk.people[role].get(at("standings")).content.decode()
        found[role] = set(re.findall(rf'href="({at("game", "x")[:-2]}[^"]+)"', page))
        answers = [desk.people[role].get(one).status_code for one in found[role]]
        assert answers == [200] * len(found[role])
    assert found["coordinator"] > found["official"]


def test_standings_have_their_figures_and_one_heading(coordinator: Client) -> None:
    page = coordinator.get(at("standings")).content.decode()
    assert page.count("<h1>") == 1
    assert page.count("<!doctype html>") == 1
    rows = [part.split("</tr>")[0] for part in page.split('<td class="place">')[1:]]
    told = [
        (row.split("<bdi>")[1].split("<")[0], row.split('points">')[1].split("<")[0])
        for row in rows
    ]
    assert told == [("Ash", "6"), ("Elder", "3"), ("Birch", "0")]


@pytest.mark.parametrize(
    ("rows", "shown"),
    [
        ([], "A"),
        (["C8,3,Cedar,Dogwood,1,0"], "B"),
        (["C8,3,Cedar,Dogwood,1,0", "A4,4,Elder,Birch,2,0"], "A"),
    ],
)
def test_standings_open_on_the_first_pool_that_has_a_result(
    tmp_path: Path, rows: list[str], shown: str
) -> None:
    season = a_season()
    results = "\n".join(("game,round,home,away,home_goals,away_goals", *rows, ""))
    put_season(season, write_people(tmp_path / "season", results=results))
    client = member(season, "coordinator")
    found = client.get(at("standings")).context["shown"]
    assert [one.name for one in found.pools if one.is_shown] == [shown]
    asked = {"pool": "AB".index(shown) + 1}
    assert found == client.get(at("standings"), asked).context["shown"]


@pytest.mark.parametrize(
    ("asked", "status"),
    [
        ({"pool": "2"}, 200),
        ({"pool": "3"}, 404),
        ({"pool": "0"}, 404),
        ({"round": "4"}, 200),
        ({"round": "9"}, 404),
        ({"round": "-1"}, 400),
        ({"round": "four"}, 400),
        ({"sort": "points"}, 400),
    ],
)
def test_only_pools_and_rounds_that_there_are_can_be_asked_for(
    coordinator: Client, asked: dict[str, str], status: int
) -> None:
    assert coordinator.get(at("standings"), asked).status_code == status


def test_a_pool_without_results_leads_to_the_nights(coordinator: Client) -> None:
    page = coordinator.get(at("standings"), {"pool": "2"}).content.decode()
    assert "No game of this pool has a result yet." in page
    assert f'href="{at("nights")}"' in page


def test_results_are_handed_out_as_csv_and_as_a_workbook(coordinator: Client) -> None:
    text = coordinator.get(at("table", "results", "csv")).content.decode("utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(text)))
    assert [(one["game"], one["home_goals"], one["away_goals"]) for one in rows] == [
        ("A1", "3", "2"),
        ("A3", "1", "0"),
        ("A4", "2", "0"),
    ]
    answer = coordinator.get(at("table", "results", "xlsx"))
    assert answer.headers["Content-Disposition"] == 'attachment; filename="results.xlsx"'
    sheet = load_workbook(io.BytesIO(answer.content)).active
    assert sheet is not None
    assert [row[0] for row in sheet.iter_rows(values_only=True)] == ["game", "A1", "A3", "A4"]


@pytest.mark.parametrize(("name", "kind"), [("results", "pdf"), ("people", "csv")])
def test_a_table_that_there_is_not_is_missing(
    coordinator: Client, name: str, kind: str
) -> None:
    assert coordinator.get(at("table", name, kind)).status_code == 404


def test_the_report_names_nobody(coordinator: Client) -> None:
    page = coordinator.get(at("report")).content.decode()
    assert ("The season in numbers." in page, "Zephirou" in page) == (True, False)


def test_ratings_are_for_the_coordinator_and_their_reading_is_noted(
    desk: DeskSeason, coordinator: Client
) -> None:
    page = coordinator.get(at("ratings")).content.decode()
    assert "For the coordinator alone." in page
    assert AuditRow.objects.filter(did="saw", what="autumn: ratings").count() == 1
    assert desk.people["supervisor"].get(at("ratings")).status_code == 404


def test_a_draw_that_cannot_be_made_says_why_and_writes_nothing(
    desk: DeskSeason, coordinator: Client
) -> None:
    before = desk.texts()
    version = str(Season.objects.get(pk=desk.season.pk).version)
    page = coordinator.post(at("draw"), {"version": version}, follow=True)
    assert desk.texts() == before
    assert [str(one) for one in page.context["messages"]][-1] == (
        "The rulebook has no play-offs to draw a bracket of. Say who goes on in [play_offs] qualify."
    )
