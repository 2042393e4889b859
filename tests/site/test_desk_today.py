"""Today shows what is to settle, and each line leads to its cure."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from django.test import Client

from cases.desk_season import a_desk, at
from cases.people_season import write_people
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.store.models import Account, Search, Season
from wholeball.store.searches import SILENT, begin_search
from wholeball.usecases.show_today import Today, today_of

pytestmark = pytest.mark.django_db


def seen(client: Client, day: str) -> tuple[Today, str]:
    page = client.get(at("today"), {"day": day})
    return page.context["today"], page.content.decode()


def lines(today: Today) -> list[tuple[str, str, str, str]]:
    return [(one.word, str(one.says), one.where, one.of) for one in today.to_settle]


def test_the_first_night_asks_for_crews_players_and_a_certified_result(tmp_path: Path) -> None:
    desk = a_desk(tmp_path)
    today, page = seen(desk.people["coordinator"], "2026-09-16")
    assert lines(today) == [
        (
            "missing",
            "Cedar has 1 player who may play for 19:00; a side starts with 7 or more.",
            "team",
            "Cedar",
        ),
        (
            "missing",
            "Dogwood has 2 players who may play for 19:00; a side starts with 7 or more.",
            "team",
            "Dogwood",
        ),
        (
            "not certified",
            "Tuesday 15 September, game A1, Ash v Birch: the result is not certified.",
            "certify",
            "A1",
        ),
    ]
    for line in today.to_settle:
        assert f'href="{at(line.where, line.of)}"' in page


def test_a_game_without_a_crew_names_the_roles_that_nobody_has(tmp_path: Path) -> None:
    desk = a_desk(tmp_path)
    today, page = seen(desk.people["coordinator"], "2026-09-17")
    assert ("missing", "Game A2, 19:00, Field 1 has no scorekeeper.", "crews", "A2") in lines(
        today
    )
    assert at("night", "2026-09-17") in page


def test_the_day_of_a_complete_crew_asks_for_none_and_the_day_after_for_a_result(
    tmp_path: Path,
) -> None:
    folder = write_people(tmp_path / "season")
    read = read_folder(FolderRecord(folder))
    words = [
        [
            (one.word, one.of)
            for one in today_of(read, day).to_settle
            if one.where == "scorecard"
        ]
        for day in (date(2026, 9, 15), date(2026, 9, 16))
    ]
    assert words == [[], [("no result", "A1")]]


def test_who_is_not_cleared_is_counted_and_never_named_with_a_reason(tmp_path: Path) -> None:
    blocks = "person,since,until\nk-noor,2026-09-10,\nk-umaru,2026-09-10,2026-09-14\n"
    desk = a_desk(tmp_path, not_cleared=blocks)
    today, page = seen(desk.people["coordinator"], "2026-09-30")
    assert today.not_cleared == 1
    assert ("not cleared", "1 player is not cleared to play.", "clearances", "") in lines(today)
    assert "Noor" not in page


def test_a_day_without_games_or_cares_says_so_and_leads_on(tmp_path: Path) -> None:
    desk = a_desk(
        tmp_path,
        timetable="game,round,date,start,field,home,away\n"
        "A1,1,2026-09-15,19:00,Field 1,Ash,Birch\n",
        crews="game,role,official\n",
    )
    today, page = seen(desk.people["coordinator"], "2026-09-14")
    assert (today.games, [one.where for one in today.to_settle]) == ((), ["certify"])
    assert "The next night is Tuesday 15 September." in page


@pytest.mark.parametrize("day", ["2026-13-01", "yesterday", "1" * 5000])
def test_a_day_that_is_none_is_missing(tmp_path: Path, day: str) -> None:
    client = a_desk(tmp_path).people["coordinator"]
    assert client.get(at("today"), {"day": day}).status_code == 404


def test_somebody_with_one_season_is_led_to_their_first_page(tmp_path: Path) -> None:
    desk = a_desk(tmp_path)
    leads = {
        role: client.get("/desk/").headers.get("Location", "")
        for role, client in desk.people.items()
    }
    assert leads == {
        "coordinator": at("today"),
        "supervisor": at("nights"),
        "official": at("nights"),
        "scorekeeper": at("nights"),
        "captain": at("team", "Ash"),
        "player": "",
    }
    assert "No season has work for you at its desk." in (
        desk.people["player"].get("/desk/").content.decode()
    )


def search_in(season: Season, kind: str, *, state: str, beat: datetime) -> int:
    account = Account.objects.order_by("pk")[0]
    search = begin_search(season, account, kind=kind, asked={}, base="", at=beat)
    Search.objects.filter(pk=search.pk).update(state=state)
    return search.pk


def test_tasks_under_way_are_those_of_this_season_and_each_leads_to_its_page(
    tmp_path: Path,
) -> None:
    desk, now = a_desk(tmp_path), datetime.now(UTC)
    beside = Season.objects.create(
        organisation=desk.season.organisation, slug="spring", name="Spring"
    )
    search_in(beside, "plan", state="running", beat=now)
    search_in(desk.season, "helps", state="done", beat=now)
    search_in(desk.season, "explain", state="running", beat=now - SILENT - timedelta(seconds=9))
    client = desk.people["coordinator"]
    where = at("today")
    assert client.get(where).context["tasks"] == []
    waits = search_in(desk.season, "repair", state="waiting", beat=now)
    runs = search_in(desk.season, "plan", state="running", beat=now)
    page = client.get(where)
    assert page.context["tasks"] == [(waits, "A repair"), (runs, "A plan of the season")]
    for number in (waits, runs):
        assert f'href="{at("task", number)}"' in page.content.decode()
