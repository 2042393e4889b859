"""Teams at the desk are put into divisions, blocks and pools, or dealt out within one."""

import re
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from cases.answers import said, words
from cases.desk_season import DeskSeason, at, member, put_season
from cases.people_season import write_people
from cases.stored import a_season, written_by
from wholeball.store.models import Season

pytestmark = pytest.mark.django_db
TEAMS: Final = (
    "team,pool,division,block\nAsh,A,,\nBirch,A,,\nElder,A,,\nCedar,B,,\nDogwood,B,,\n"
)
GOLD: Final = "division\nGold\n"
NO_GAMES: Final = "game,round,date,start,field,home,away\n"
TUESDAY: Final = (
    "block,division,weekday,from,until,places\nTuesday,Gold,tuesday,19:00,22:00,2\n"
)


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    """A season of five teams, a division that none is in, and its block; no game is planned."""
    season = a_season()
    folder = write_people(
        tmp_path / "season", divisions=GOLD, blocks=TUESDAY, teams=TEAMS, timetable=NO_GAMES
    )
    put_season(season, folder)
    return DeskSeason(season=season, people={"coordinator": member(season, "coordinator")})


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def post(client: Client, name: str, **told: str) -> Any:
    return client.post(at(name), {**told, "version": f"{Season.objects.get().version}"})


def rows(desk: DeskSeason) -> list[str]:
    return desk.texts()["teams.csv"].decode().splitlines()[1:]


def test_a_season_without_divisions_asks_for_a_pool_alone(
    desk: DeskSeason, kim: Client
) -> None:
    for name in ("blocks.csv", "divisions.csv"):
        head = desk.texts()[name].splitlines(keepends=True)[0]
        written_by(desk.season).write({name: head})
    page = words(kim.get(at("pools")))
    assert 'name="place-1"' not in page
    assert 'name="pool-1"' in page
    assert at("divisions") in page


def test_a_team_is_put_into_a_division_and_a_block_where_pools_are_arranged(
    desk: DeskSeason, kim: Client
) -> None:
    assert '<option value="block:Tuesday">Gold, Tuesday</option>' in words(kim.get(at("pools")))
    chosen = {"place-1": "block:Tuesday", "place-2": "division:Gold", "place-3": "none"}
    answer = post(kim, "move_pools", **chosen)
    assert said(answer) == "2 teams moved. To undo it: Season, Changes."
    assert rows(desk) == [
        "Ash,Gold,,,Gold,Tuesday",
        "Birch,Gold,,,Gold,",
        "Elder,A,,,,",
        "Cedar,B,,,,",
        "Dogwood,B,,,,",
    ]


def test_what_was_chosen_stays_where_it_cannot_be(desk: DeskSeason, kim: Client) -> None:
    before = desk.texts()
    answer = post(kim, "move_pools", **{"place-1": "division:Gold", "pool-1": "B"})
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert "Pool B is of division Gold" in words(answer)
    assert '<option value="division:Gold" selected>' in words(answer)
    assert desk.texts() == before


def test_who_moves_teams_upon_an_older_list_is_told_also_after_a_fault_and_keeps_the_choice(
    desk: DeskSeason, kim: Client
) -> None:
    seen = f"{Season.objects.get().version}"
    chosen = {"place-1": "division:Gold", "pool-1": "Gold"}
    post(kim, "move_pools", **{"place-2": "division:Gold", "pool-2": "Gold"})
    before = desk.texts()
    sent = {**chosen, "pool-1": "B", "version": seen}
    faulty = kim.post(at("move_pools"), sent)
    assert (faulty.status_code, faulty.context["version"]) == (422, seen)
    stale = kim.post(at("move_pools"), {**chosen, "version": seen})
    assert (stale.status_code, desk.texts()) == (422, before)
    assert "It was changed while you worked on it." in words(stale)
    assert '<option value="division:Gold" selected>' in words(stale)
    newest = {**chosen, "version": stale.context["version"]}
    assert kim.post(at("move_pools"), newest).status_code == 302


def test_a_division_that_went_meanwhile_is_told_and_nobody_is_moved(
    desk: DeskSeason, kim: Client
) -> None:
    before = desk.texts()
    answer = post(kim, "move_pools", **{"place-1": "division:Silver"})
    assert answer.status_code == HTTPStatus.CONFLICT
    assert "What was chosen for Ash is not there any more." in words(answer)
    assert desk.texts() == before


def test_the_teams_of_one_division_are_dealt_out_alone(desk: DeskSeason, kim: Client) -> None:
    placed = TEAMS.replace("Cedar,B,", "Cedar,B,Gold").replace("Dogwood,B,", "Dogwood,B,Gold")
    written_by(desk.season).write({"teams.csv": placed.encode()})
    before = desk.texts()
    look = post(kim, "spread_pools", pools="1 division:Gold")
    assert look.status_code == HTTPStatus.OK
    told = re.sub(r"\s+", " ", re.sub("<[^>]*>", " ", words(look)))
    assert "Nothing is changed yet. Gold: 1 pool of 2: these teams would be" in told
    assert "Cedar B Gold A Dogwood B Gold A Move 2 teams" in told
    assert "Ash" not in told
    assert desk.texts() == before
    answer = post(kim, "spread_pools", pools="1 division:Gold", looked="yes")
    assert said(answer) == "2 teams moved. To undo it: Season, Changes."
    assert [row.split(",")[1] for row in rows(desk)] == [
        *["A"] * 3,
        *["Gold A"] * 2,
    ]


def test_teams_that_are_in_one_pool_are_dealt_out_at_once(
    desk: DeskSeason, kim: Client
) -> None:
    one_pool = "team,pool\nAsh,A\nBirch,A\nCedar,A\nDogwood,A\nElder,A\n"
    written_by(desk.season).write({"teams.csv": one_pool.encode()})
    assert "Make the pools" in words(kim.get(at("pools")))
    assert said(post(kim, "spread_pools", pools="2")) == (
        "2 teams moved. To undo it: Season, Changes."
    )
    assert "See who would move" in words(kim.get(at("pools")))
    assert "Make the pools" not in words(kim.get(at("pools")))


def test_teams_of_a_spreadsheet_come_into_their_divisions_and_blocks_whatever_the_capitals(
    desk: DeskSeason, kim: Client
) -> None:
    text = b"Team,Division name,Block\nFir,GOLD,tuesday\nGorse,gold,\nHazel,,\n"
    answer = kim.post(at("take_teams"), {"file": SimpleUploadedFile("teams.csv", text)})
    assert said(answer) == (
        "3 teams came in: teams from “Team”, divisions from “Division name” and blocks from"
        " “Block”."
    )
    assert rows(desk)[5:] == ["Fir,Gold,Gold,Tuesday,,", "Gorse,Gold,Gold,,,", "Hazel,A,,,,"]


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("Fir,Gild,", "“Gild” is no division in the list of divisions."),
        ("Fir,Gold,Monday", "“Monday” is no block in the list of blocks."),
    ],
)
def test_a_division_or_a_block_that_is_not_there_is_told_and_no_team_comes_in(
    desk: DeskSeason, kim: Client, row: str, says: str
) -> None:
    text = f"team,division,block\n{row}\n".encode()
    answer = kim.post(at("take_teams"), {"file": SimpleUploadedFile("teams.csv", text)})
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert says.replace("“", '"').replace("”", '"') in words(answer)
    assert len(rows(desk)) == 5
