"""What is taken back goes back whole, or is refused with its cure; nothing that counts is lost."""

from datetime import UTC, datetime, timedelta
from itertools import combinations
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from cases.board_season import TEAMS, a_board, tonight
from cases.desk_officials import version
from cases.desk_season import GAME, DeskSeason, a_desk, at, member, put_season
from cases.play_off_season import rulebook
from cases.stored import a_season, written_by
from wholeball.store.models import Change, Occasion, Season
from wholeball.store.snapshot import snapshot_of

pytestmark = pytest.mark.django_db
FIRST = tonight().date()
REPORT = f"reports/{GAME}.1.toml"
CREWS_HEAD = "game,role,official\n"
PLAN = b"game,round,date,start,field,stage,home,away\n"
OTHER = b"student_id,name,number,captain\n00765432,Ben Tolland,10,no\n"
LIST = b"student_id,name,number,captain\n00123456,Ada Marrow,9,no\n"


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path)


@pytest.fixture
def coordinator(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def texts(season: Season) -> dict[str, bytes]:
    return dict(snapshot_of(Season.objects.get(pk=season.pk)).texts)


def latest(season: Season, name: str) -> int:
    found = Change.objects.filter(season=season, name=name).order_by("-version").first()
    assert found is not None
    return found.pk


def back(client: Client, season: Season, name: str) -> str:
    """Take the latest change of a file back, and return the page that answers."""
    page = client.post(at("undo"), {"change": latest(season, name)}, follow=True)
    assert page.status_code == 200
    return page.content.decode()


def test_a_report_has_no_button_and_stays_when_it_is_asked_for(
    desk: DeskSeason, coordinator: Client
) -> None:
    desk.people["official"].post(at("report_incident", GAME), {"says": "A punch."})
    before, number = desk.texts(), latest(desk.season, REPORT)
    page = coordinator.get(at("history")).content.decode()
    assert f'name="change" value="{number}"' not in page
    assert "A report stays as it was written." in page
    assert f"A report about game {GAME}" in page
    assert "A report stays as it was written." in back(coordinator, desk.season, REPORT)
    assert desk.texts() == before
    assert "A punch." in coordinator.get(at("game", GAME)).content.decode()


def test_a_report_that_was_emptied_breaks_no_page_and_can_be_brought_back(
    desk: DeskSeason, coordinator: Client
) -> None:
    official = desk.people["official"]
    official.post(at("report_incident", GAME), {"says": "A punch."})
    written_by(desk.season).write({REPORT: b""})
    for client in (coordinator, official):
        page = client.get(at("game", GAME))
        assert (page.status_code, page.context["reports"]) == (200, ())
    official.post(at("report_incident", GAME), {"says": "A kick."})
    assert b"A kick." in desk.texts()[f"reports/{GAME}.2.toml"]
    back(coordinator, desk.season, REPORT)
    reports = official.get(at("game", GAME)).context["reports"]
    assert [one.says for one in reports] == ["A punch.", "A kick."]


def added(client: Client, data: bytes) -> str:
    looked = client.post(
        at("check_roster", "Dogwood"), {"list": SimpleUploadedFile("list.csv", data)}
    )
    assert looked.status_code == 200
    held = {"held": looked.context["held"]}
    return client.post(at("add_roster", "Dogwood"), held, follow=True).content.decode()


def test_the_check_of_the_key_stays_and_the_rosters_alone_go_back(
    desk: DeskSeason, coordinator: Client
) -> None:
    added(coordinator, LIST)
    number = latest(desk.season, "id-key-check.txt")
    before = desk.texts()
    page = coordinator.get(at("history")).content.decode()
    assert f'name="change" value="{number}"' not in page
    says = back(coordinator, desk.season, "id-key-check.txt")
    assert "Take back the rosters that came with it instead." in says
    assert desk.texts() == before
    back(coordinator, desk.season, "rosters.csv")
    assert "1 added to Dogwood" in added(coordinator, LIST)


def test_a_check_of_the_key_that_was_emptied_is_brought_back(
    desk: DeskSeason, coordinator: Client
) -> None:
    added(coordinator, LIST)
    check = desk.texts()["id-key-check.txt"]
    written_by(desk.season).write({"id-key-check.txt": b""})
    back(coordinator, desk.season, "id-key-check.txt")
    assert desk.texts()["id-key-check.txt"] == check


def test_an_empty_check_of_the_key_keeps_no_list_out(
    desk: DeskSeason, coordinator: Client
) -> None:
    added(coordinator, LIST)
    check = desk.texts()["id-key-check.txt"]
    written_by(desk.season).write({"id-key-check.txt": b""})
    assert "1 added to Dogwood" in added(coordinator, OTHER)
    assert desk.texts()["id-key-check.txt"] == check


def test_times_with_games_in_them_are_not_taken_away(kim: Client, season: Season) -> None:
    before = texts(season)
    says = back(kim, season, "slots.csv")
    assert "games of the timetable are played at fields and times that would be gone" in says
    assert "Take back the timetable first, or move those games to other places." in says
    assert texts(season) == before


def test_times_without_games_go_back_and_the_taking_back_does_too(
    kim: Client, season: Season
) -> None:
    before = texts(season)["slots.csv"]
    far = FIRST + timedelta(days=6)
    row = {
        "fields_named": "North 1",
        "weekday": f"{far:%A}".lower(),
        "opens": "06:00",
        "closes": "08:00",
        "minutes": "",
        "first": "",
        "last": "",
    }
    assert kim.post(at("add_time"), row).status_code == 302
    after = texts(season)["slots.csv"]
    assert after != before
    assert "Taken back" in back(kim, season, "slots.csv")
    rows = [row.rstrip(b",") for row in texts(season)["slots.csv"].splitlines()[1:]]
    assert rows == before.splitlines()[1:]
    back(kim, season, "slots.csv")
    assert texts(season)["slots.csv"] == after


@pytest.mark.parametrize("name", ["closures.csv", "notices.csv"])
def test_what_was_called_off_goes_back_whole_by_its_own_correction(
    kim: Client, season: Season, name: str
) -> None:
    off = {"night": f"{FIRST}", "place": "all", "state": "off", "next_word": "", "says": ""}
    kim.post(at("call_off"), {**off, "version": version(), "sure": "yes"})
    before, occasion = texts(season), Occasion.objects.get()
    assert b"called off" in before["closures.csv"]
    page = kim.post(at("undo"), {"change": latest(season, name)}, follow=True)
    assert page.redirect_chain == [(at("message", occasion.pk), 302)]
    assert at("take_back", occasion.pk) in page.content.decode()
    assert texts(season) == before
    kim.post(at("take_back", occasion.pk))
    assert b"called off" not in texts(season)["closures.csv"]


def game(side: str) -> str:
    """Return the row of a play-off game in a fortnight, of the best but two or so."""
    return f"P1,9,{FIRST + timedelta(days=14)},19:00,North 1,play_off,{side},seed 6\n"


def drawn(tmp_path: Path, *more: str) -> tuple[Client, Season]:
    """Return a coordinator and a season of six teams whose bracket is drawn, with more games."""
    made = a_season()
    won = enumerate(combinations(TEAMS, 2), start=1)
    results = "game,round,home,away,home_goals,away_goals\n" + "".join(
        f"R{nth},1,{one},{other},1,0\n" for nth, (one, other) in won
    )
    games = {
        "results_csv": results,
        "timetable_csv": PLAN.decode() + "".join(more),
        "crews_csv": CREWS_HEAD,
    }
    put_season(made, a_board(tmp_path / "drawn", rulebook_toml=rulebook("all"), **games))
    kim = member(made, "coordinator", person="Kim")
    page = kim.post(at("draw"), {"version": version()}, follow=True)
    assert "The bracket is drawn. Later results do not move it." in page.content.decode()
    return kim, made


def test_a_draw_goes_back_until_a_game_is_planned_by_it(tmp_path: Path) -> None:
    kim, season = drawn(tmp_path)
    page, draw = kim.get(at("bracket")).content.decode(), texts(season)["bracket.csv"]
    assert "Until a game is planned by it, it can be taken back under" in page
    assert "Taken back" in back(kim, season, "bracket.csv")
    page = kim.get(at("bracket")).content.decode()
    assert ("Draw the bracket" in page, "it can be taken back under Changes" in page) == (
        True,
        True,
    )
    record = written_by(season)
    record.write({"timetable.csv": PLAN + game("seed 3").encode()})
    assert (
        "Once made it stays: games are planned by seeds already."
        in kim.get(at("bracket")).content.decode()
    )
    back(kim, season, "bracket.csv")
    assert texts(season)["bracket.csv"] == draw


@pytest.mark.parametrize("side", ["seed 3", "Cedar"])
def test_a_draw_stays_once_a_game_is_planned_by_it(tmp_path: Path, side: str) -> None:
    kim, season = drawn(tmp_path, game(side))
    before = texts(season)
    says = back(kim, season, "bracket.csv")
    assert "1 game is planned or played by this draw: P1." in says
    assert texts(season) == before
    page = kim.get(at("bracket")).content.decode()
    assert "The draw stays: 1 game is planned or played by it." in page


def put_changes(season: Season, many: int) -> None:
    Change.objects.filter(season=season).delete()
    for nth in range(many):
        Change.objects.create(
            season=season,
            version=1_000 + nth,
            name=f"note-{nth}.txt",
            at=datetime(2026, 9, 17, tzinfo=UTC),
            place=0,
            gone=[],
            came=["x\n"],
        )


@pytest.mark.parametrize(
    ("many", "pages"), [(25, [25]), (26, [25, 1]), (51, [25, 25, 1]), (0, [0])]
)
def test_every_change_is_on_one_page_and_links_lead_from_page_to_page(
    kim: Client, season: Season, many: int, pages: list[int]
) -> None:
    put_changes(season, many)
    named: list[str] = []
    for number, on_it in enumerate(pages, start=1):
        page = kim.get(at("history"), {"page": number})
        text, shown = page.content.decode(), page.context["changes"]
        assert len(shown) == on_it
        named += [one.change.name for one in shown]
        assert (f'rel="next" href="?page={number + 1}"' in text) is (number < len(pages))
        assert (f'rel="prev" href="?page={number - 1}"' in text) is (number > 1)
    assert named == [f"note-{nth}.txt" for nth in reversed(range(many))]
    for beyond in (0, len(pages) + 1):
        assert kim.get(at("history"), {"page": beyond}).status_code == 404


def test_an_older_page_asks_the_database_no_more_than_a_newer_one(
    kim: Client, season: Season
) -> None:
    put_changes(season, 3)
    kim.get(at("history"))
    with CaptureQueriesContext(connection) as few:
        kim.get(at("history"))
    put_changes(season, 80)
    with CaptureQueriesContext(connection) as many:
        kim.get(at("history"), {"page": 3})
    assert len(many) == len(few)
