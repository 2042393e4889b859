"""What is called off is closed to plans until it is on again, and its games find other places."""

from datetime import datetime, time, timedelta
from pathlib import Path

import pytest
from django.test import Client

from cases.board_season import a_board, tonight
from cases.desk_officials import version
from cases.desk_season import at
from cases.stored import written_by
from wholeball.desk.tasks import search as run
from wholeball.files.folder_record import FolderRecord
from wholeball.league.notice import Notice
from wholeball.store.models import Occasion, Search, Season
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.call_off import say_word

pytestmark = pytest.mark.django_db
FIRST = tonight().date()
NIGHT = FIRST + timedelta(days=7)
HEADER = "field,site,date,last_date,from,until,why"
OFF = {
    "night": f"{NIGHT}",
    "place": "site:North Lea",
    "state": "off",
    "next_word": "",
    "says": "Standing water on the pitch.",
    "sure": "yes",
}


def closures(season: Season) -> list[str]:
    now = Season.objects.get(pk=season.pk)
    return snapshot_of(now).texts.get("closures.csv", b"").decode().splitlines()


def call_off(client: Client, **more: str) -> Occasion:
    assert client.post(at("call_off"), {**OFF, "version": version(), **more}).status_code == 302
    return Occasion.objects.order_by("-pk")[0]


def searched(client: Client, kind: str, **more: str) -> Search:
    client.post(at("tasks"), {"kind": kind, "seconds": "5", **more})
    found = Search.objects.order_by("-pk")[0]
    run.func(found.pk)
    found.refresh_from_db()
    assert found.state == "done", found.found
    return found


def test_a_site_that_is_off_is_closed_and_undo_opens_it(kim: Client, season: Season) -> None:
    occasion = call_off(kim)
    assert closures(season) == [HEADER, f"North 1,,{NIGHT},,,,called off"]
    kim.post(at("take_back", occasion.pk))
    assert closures(season) == [HEADER]


def test_a_field_that_was_closed_for_another_reason_stays_closed(
    kim: Client, season: Season
) -> None:
    row = f"North 1,,{NIGHT},,,,a fair"
    written_by(season).write({"closures.csv": f"{HEADER}\n{row}\n".encode()})
    occasion = call_off(kim, place="all")
    off = [f"{field} 1,,{NIGHT},,,,called off" for field in ("South", "West")]
    assert closures(season) == [HEADER, row, *off]
    kim.post(at("take_back", occasion.pk))
    assert closures(season) == [HEADER, row]


@pytest.mark.parametrize(("state", "next_word"), [("on", ""), ("later", "16:30")])
def test_another_word_opens_what_it_is_about_and_no_more(
    kim: Client, season: Season, state: str, next_word: str
) -> None:
    call_off(kim, place="all")
    call_off(kim, state=state, next_word=next_word, says="")
    off = [f"{field} 1,,{NIGHT},,,,called off" for field in ("South", "West")]
    assert closures(season) == [HEADER, *off]


def test_a_place_whose_next_word_is_to_come_is_not_closed(kim: Client, season: Season) -> None:
    call_off(kim, state="later", next_word="16:30")
    assert closures(season) == []


@pytest.mark.parametrize(
    ("clock", "row"),
    [
        (time(18, 0), "North 1,,{night},,,,called off"),
        (time(18, 1), "North 1,,{night},,19:00,,called off"),
        (time(21, 0), "North 1,,{night},,21:00,,called off"),
    ],
)
def test_a_start_that_has_begun_keeps_its_place(tmp_path: Path, clock: time, row: str) -> None:
    record = FolderRecord(a_board(tmp_path / "season"))
    now = datetime.combine(NIGHT, clock, tonight().tzinfo)
    say_word(record, [Notice(night=NIGHT, state="off", field="North 1")], now=now)
    said = record.read("closures.csv", 10_000).decode().splitlines()
    assert said == [HEADER, row.format(night=NIGHT)]


def test_after_the_last_start_of_a_night_there_is_nothing_left_to_close(
    tmp_path: Path,
) -> None:
    record = FolderRecord(a_board(tmp_path / "season"))
    now = datetime.combine(NIGHT, time(21, 1), tonight().tzinfo)
    say_word(record, [Notice(night=NIGHT, state="off")], now=now)
    assert not record.has("closures.csv")


def test_the_page_leads_to_a_repair_of_what_was_lost(kim: Client) -> None:
    occasion = call_off(kim)
    address = kim.get(at("message", occasion.pk)).context["repair"]
    assert address == f"{at('tasks')}?kind=repair&night={NIGHT}&site=North+Lea"
    form = kim.get(address).context["form"]
    asked = {name: form[name].value() for name in ("kind", "night", "site", "field")}
    assert asked == {
        "kind": "repair",
        "night": f"{NIGHT}",
        "site": "North Lea",
        "field": None,
    }


def test_what_was_taken_back_leads_to_no_repair(kim: Client) -> None:
    occasion = call_off(kim)
    kim.post(at("take_back", occasion.pk))
    assert kim.get(at("message", occasion.pk)).context["repair"] == ""


def test_a_repair_moves_the_lost_game_alone_and_closes_nothing_twice(kim: Client) -> None:
    call_off(kim)
    found = searched(kim, "repair", night=f"{NIGHT}", site="North Lea")
    assert (found.found["moved"], found.found["is_least"]) == (1, True)
    assert found.found["lost"] == []
    assert f"4,2,{NIGHT},19:00,North 1" not in found.found["text"]
    assert f"5,2,{NIGHT},19:00,South 1,Birch,Elm" in found.found["text"]
    assert f"6,2,{NIGHT},19:00,West 1,Dogwood,Fir" in found.found["text"]


FULL = "\n".join(
    (
        "game,round,date,start,field,home,away,stage",
        f"1,1,{NIGHT},18:00,North 1,Ash,Birch,",
        f"2,1,{NIGHT},18:00,South 1,Cedar,Dogwood,",
        f"3,1,{NIGHT},18:00,West 1,Elm,Fir,",
        f"4,2,{NIGHT},19:00,North 1,Ash,Cedar,",
        f"5,2,{NIGHT},19:00,South 1,Birch,Elm,",
        f"6,2,{NIGHT},19:00,West 1,Dogwood,Fir,",
        f"7,3,{NIGHT},20:00,North 1,Ash,Dogwood,",
        f"8,3,{NIGHT},20:00,West 1,Birch,Cedar,",
        f"9,4,{NIGHT},21:00,North 1,Ash,Elm,",
        f"10,4,{NIGHT},21:00,South 1,Birch,Fir,",
        f"11,4,{NIGHT},21:00,West 1,Cedar,Dogwood,",
    )
)
"""A night with one place left: South 1 at 20:00."""
PLANNING = "schema = 1\nturnover_minutes = 10\n"
PLAYED = "game,round,date,home,away,home_goals,away_goals\n" + "".join(
    f"{game},{round_},{NIGHT},{home},{away},2,1\n"
    for game, round_, home, away in (
        ("1", 1, "Ash", "Birch"),
        ("4", 2, "Ash", "Cedar"),
        ("9", 4, "Ash", "Elm"),
    )
)


@pytest.mark.parametrize(
    ("place", "lost", "closes"),
    [
        ("field:North 1", {"night": f"{NIGHT}", "field": "North 1"}, []),
        ("site:North Lea", {"night": f"{NIGHT}", "site": "North Lea"}, []),
        ("site:North Lea", {"site": "North Lea"}, [f"{FIRST}"]),
        ("field:North 1", {"field": "North 1"}, [f"{FIRST}"]),
        ("field:North 1", {}, []),
    ],
)
def test_a_repair_finds_the_free_field_beside_games_that_have_results(
    kim: Client, season: Season, place: str, lost: dict[str, str], closes: list[str]
) -> None:
    """The North has four games that night, of which one is still to be played."""
    texts = {"timetable.csv": FULL, "results.csv": PLAYED, "planning.toml": PLANNING}
    written_by(season).write({name: text.encode() for name, text in texts.items()})
    call_off(kim, place=place)
    found = searched(kim, "repair", **lost)
    before, after = FULL.splitlines(), found.found["text"].splitlines()
    assert (found.found["moved"], found.found["is_least"]) == (1, True)
    assert [one[2] for one in found.found["lost"]] == closes
    moved = [line.split(",")[:5] for line in set(after) - set(before)]
    assert [(one[0], *one[2:]) for one in moved] == [("7", f"{NIGHT}", "20:00", "South 1")]


def test_once_its_games_have_other_places_the_page_says_so_and_leads_to_no_repair(
    kim: Client, season: Season
) -> None:
    occasion = call_off(kim)
    page = " ".join(kim.get(at("message", occasion.pk)).content.decode().split())
    assert "1 game has no other place yet." in page
    rows = snapshot_of(Season.objects.get(pk=season.pk)).texts["timetable.csv"].decode()
    moved = rows.replace(f"4,2,{NIGHT},19:00,North 1", f"4,2,{NIGHT},20:00,South 1")
    assert moved != rows
    written_by(season).write({"timetable.csv": moved.encode()})
    answer = kim.get(at("message", occasion.pk))
    assert (
        "Every game that was there has another place, or a result." in answer.content.decode()
    )
    assert answer.context["repair"] == ""


def test_the_next_plan_does_not_use_what_is_off(kim: Client) -> None:
    call_off(kim)
    text = searched(kim, "plan").found["text"]
    on_night = [line for line in text.splitlines() if f",{NIGHT}," in line]
    assert len(on_night) == 3
    assert not any(",North 1," in line for line in on_night)
