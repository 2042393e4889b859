"""Searches: asked at the desk, run in a process of their own, kept apart, stopped and given up."""

import json
import os
import subprocess
import sys
import time
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta

import pytest
from django.test import Client
from pytest_django.fixtures import Settings

from cases.board_season import tonight
from cases.desk_season import at
from cases.stored import NOW
from wholeball.desk.tasks import search as run
from wholeball.files.timetable_edit import listed_games
from wholeball.store import searches
from wholeball.store.models import Account, Draft, Search, Season
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.run_search import CHILD, program

pytestmark = pytest.mark.django_db
FIRST = tonight().date()


def asked(client: Client, kind: str, seconds: int = 5, **more: str) -> Search:
    answer = client.post(at("tasks"), {"kind": kind, "seconds": seconds, **more})
    assert answer.status_code == 302
    found = Search.objects.order_by("-pk")[0]
    assert found.state == "waiting"
    run.func(found.pk)
    found.refresh_from_db()
    return found


def timetable(season: Season) -> str:
    now = Season.objects.get(pk=season.pk)
    return snapshot_of(now).texts["timetable.csv"].decode()


def page(client: Client, name: str, *args: object) -> str:
    return " ".join(client.get(at(name, *args)).content.decode().split())


def test_a_plan_is_found_apart_and_becomes_a_draft_when_it_is_taken(
    kim: Client, season: Season
) -> None:
    before = timetable(season)
    found = asked(kim, "plan")
    assert (found.state, found.found.get("refused")) == ("done", None)
    assert (timetable(season), Draft.objects.count()) == (before, 0)
    assert "Take it into your draft" in page(kim, "task", found.pk)
    kim.post(at("take_task", found.pk), {"step": 0})
    assert Draft.objects.get().text == found.found["text"]
    assert timetable(season) == before


def test_a_repair_leaves_the_lost_field_and_closes_it_with_the_draft(
    kim: Client,
) -> None:
    night = FIRST + timedelta(days=7)
    found = asked(kim, "repair", night=f"{night}", field="North 1")
    assert found.found["is_least"] is True
    assert f"{night},19:00,North 1" not in found.found["text"]
    assert f"4,2,{night}," in found.found["text"]
    assert found.found["lost"] == [["North 1", "", f"{night}", "", "", "", "lost"]]
    taken = kim.post(at("take_task", found.pk), {"step": 0})
    assert taken.headers["Location"] == (
        f"{at('calendar')}?week={night - timedelta(days=night.weekday())}"
    )
    assert Draft.objects.get().lost == found.found["lost"]


def test_a_repair_of_nothing_lost_keeps_to_what_was_edited(kim: Client, season: Season) -> None:
    from cases.stored import written_by  # noqa: PLC0415 - for this case alone

    assert asked(kim, "repair").found["moved"] == 0
    night = FIRST + timedelta(days=7)
    off = f"field,site,date,last_date,from,until,why\nNorth 1,,{night},,,,a match\n"
    written_by(season).write({"closures.csv": off.encode()})
    found = asked(kim, "repair")
    assert (found.found["moved"], found.found["is_least"]) == (1, True)
    assert f"{night},19:00,North 1" not in found.found["text"]


def test_a_plan_that_is_taken_puts_the_draft_before_one_step_back(
    kim: Client,
) -> None:
    place = f"{FIRST}|20:00|North 1"
    kim.post(at("move"), {"game": "1", "place": place, "step": 0})
    mine = Draft.objects.get().text
    found = asked(kim, "plan")
    kim.post(at("take_task", found.pk), {"step": 1})
    kim.post(at("step_back"), {"step": 2})
    assert Draft.objects.get().text == mine


def test_a_search_that_is_stopped_before_its_turn_says_so_and_offers_it_once(
    kim: Client, season: Season
) -> None:
    kim.post(at("tasks"), {"kind": "plan", "seconds": 5})
    number = Search.objects.get(season=season).pk
    assert "It waits for its turn." in page(kim, "task", number)
    kim.post(at("stop_task", number))
    stopped = page(kim, "task", number)
    assert "It ends as soon as its turn comes." in stopped
    assert at("stop_task", number) not in stopped


def test_what_speaks_against_a_plan_is_told_in_words(kim: Client) -> None:
    found = asked(kim, "explain")
    assert (found.state, found.found["reasons"]) == ("done", [])
    assert "Nothing that can be counted speaks against one." in page(kim, "task", found.pk)


def test_a_season_without_rules_is_told_why_nothing_was_found(
    kim: Client, season: Season
) -> None:
    from cases.stored import written_by  # noqa: PLC0415 - for this case alone

    written_by(season).write({}, gone=["planning.toml"])
    found = asked(kim, "plan")
    assert found.state == "failed"
    assert "There is no season&#x27;s plan" in page(kim, "task", found.pk)


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"kind": "guess"}, "Select a valid choice."),
        ({"kind": "plan", "seconds": "0"}, "greater than or equal to 1"),
        ({"kind": "plan", "seconds": "3601"}, "less than or equal to 3600"),
        ({"kind": "repair", "team": "Nobody"}, "Select a valid choice."),
    ],
)
def test_a_search_that_makes_no_sense_is_refused_beside_its_field(
    kim: Client, more: dict[str, str], says: str
) -> None:
    answer = kim.post(at("tasks"), {"seconds": "5", **more})
    assert (answer.status_code, Search.objects.count()) == (422, 0)
    assert says in answer.content.decode()


def test_a_search_that_a_gone_worker_left_is_given_up_after_a_minute(season: Season) -> None:
    account = Account.objects.create_user("kim@harrowfen.example")
    kept = {"season": season, "account": account, "kind": "plan", "version": 1}
    Search.objects.create(state="running", made_at=NOW, beat=NOW, **kept)
    assert searches.give_up_left(NOW + timedelta(seconds=60)) == 0
    assert searches.give_up_left(NOW + timedelta(seconds=61)) == 1
    left = Search.objects.get()
    assert (left.state, left.found["refused"]) == (
        "failed",
        ["The site stopped while this ran. Start it again."],
    )


def test_a_silent_search_says_so_and_can_be_thrown_away(kim: Client, season: Season) -> None:
    account = Account.objects.order_by("pk")[0]
    old = datetime.now(UTC) - timedelta(minutes=5)
    kept = {"season": season, "account": account, "kind": "plan", "version": 1}
    left = Search.objects.create(state="running", made_at=old, beat=old, **kept)
    assert "Nothing was heard of it since" in page(kim, "task", left.pk)
    kim.post(at("forget_task", left.pk))
    assert Search.objects.count() == 0


def test_progress_is_shown_with_the_room_left_and_the_time(kim: Client, season: Season) -> None:
    account = Account.objects.order_by("pk")[0]
    now = datetime.now(UTC)
    kept = {"season": season, "account": account, "kind": "plan", "version": 1}
    told = {"best": 40, "bound": 30.0, "seconds": 15.0, "left": 45.0}
    going = Search.objects.create(state="running", made_at=now, beat=now, **kept, **told)
    shown = page(kim, "task", going.pk)
    assert 'value="25"' in shown
    assert "Wishes cost 40; at most 25 % could be gained" in shown
    assert "at most 45 seconds" in shown


def test_a_repair_under_way_tells_of_moves_since_its_figures_are_no_cost(
    kim: Client, season: Season
) -> None:
    account = Account.objects.order_by("pk")[0]
    now = datetime.now(UTC)
    kept = {"season": season, "account": account, "kind": "repair", "version": 1}
    going = Search.objects.create(
        state="running", made_at=now, beat=now, best=11_012, bound=11_000.0, **kept
    )
    shown = page(kim, "task", going.pk)
    assert "A timetable. Perhaps fewer games can move" in shown
    assert "11012" not in shown


def test_the_searching_process_never_loads_what_opens_a_database() -> None:
    code = (
        "import sys, wholeball.usecases.search_child as child;"
        "print(sorted({'django', 'sqlite3', 'psycopg'} & {*sys.modules}))"
    )
    done = subprocess.run(  # noqa: S603 - our own program
        [sys.executable, "-c", code], env={}, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


@pytest.mark.skipif(not hasattr(os, "SCHED_IDLE"), reason="this system has no idle priority")
@pytest.mark.parametrize("searches", ["idle", "shared"])
def test_the_searching_process_works_only_while_nobody_else_wants_to_or_in_its_turn(
    settings: Settings, searches: str
) -> None:
    settings.SEARCHES = searches
    done = subprocess.run(  # noqa: S603 - our own program
        program("cases.tells_its_priority"),
        env={"PYTHONPATH": "tests"},
        capture_output=True,
        text=True,
        check=True,
    )
    policy = os.SCHED_IDLE if searches == "idle" else os.sched_getscheduler(0)
    assert int(done.stdout) == policy


def test_a_search_that_is_stopped_keeps_the_best_so_far(season: Season) -> None:
    texts = snapshot_of(Season.objects.get(pk=season.pk)).texts
    child = _child(texts, seconds=600)
    assert child.stdin is not None
    assert child.stdout is not None
    lines = _lines_until_best(child)
    began = time.monotonic()
    child.stdin.close()
    last = [*lines, *map(json.loads, child.stdout)][-1]
    child.wait(60)
    child.stdout.close()
    assert "timetable" not in last.get("refused", "")
    assert last["found"]["text"].startswith("game,round,date,start,field,home,away")
    assert time.monotonic() - began < 60


def _child(texts: Mapping[str, bytes], *, seconds: int) -> "subprocess.Popen[str]":
    from base64 import b64encode  # noqa: PLC0415 - for this case alone

    child = subprocess.Popen(  # noqa: S603 - our own program
        program(CHILD),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        env={},
        text=True,
    )
    asked = {
        "kind": "plan",
        "seconds": seconds,
        "place": "Autumn",
        "now": datetime.now(UTC).isoformat(),
        "texts": {name: b64encode(data).decode() for name, data in texts.items()},
    }
    assert child.stdin is not None
    child.stdin.write(json.dumps(asked) + "\n")
    child.stdin.flush()
    return child


def _lines_until_best(child: "subprocess.Popen[str]") -> list[dict[str, object]]:
    assert child.stdout is not None
    found = []
    for line in child.stdout:
        found.append(json.loads(line))
        if found[-1].get("best") is not None or "found" in found[-1]:
            break
    return found


def test_a_plan_of_other_games_is_held_to_its_own_and_published(
    kim: Client, season: Season
) -> None:
    found = asked(kim, "plan")
    kim.post(at("take_task", found.pk), {"step": 0})
    assert kim.get(at("calendar")).context["breaks"] == 0
    told = {one.who: one.body for one in kim.get(at("publish")).context["letters"]}
    before = listed_games(timetable(season).encode())
    after = listed_games(found.found["text"].encode())
    for game, one in before.items():
        if after[game].sides != one.sides:
            assert (
                f"Game {game} against {one.away} is not played."
                in told[f"Captain of {one.home}"]
            )
            new = after[game]
            assert f"Game {game} against {new.away} is new:" in told[f"Captain of {new.home}"]
    answer = kim.post(at("publish"), {"step": 1}, follow=True)
    assert "The timetable is published" in answer.content.decode()
    assert timetable(season) == found.found["text"]
