"""Tests how a season comes from a list of teams to a plan: pools, fields, times, amounts."""

from html import unescape
from http import HTTPStatus

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from cases.setting_up import (
    NAMES,
    SEASON,
    TIME,
    at_version,
    begun,
    listed,
    pools,
    post,
    record,
    said,
    steps,
    text,
)
from cases.stored import NOW
from wholeball.files.archive import MOST_PACKED
from wholeball.files.folder import read_folder
from wholeball.store.models import Account, AuditRow, Season
from wholeball.store.record import DatabaseRecord
from wholeball.store.writing import Writer

pytestmark = pytest.mark.django_db


@pytest.fixture
def coordinator(client: Client) -> Client:
    return begun(client)


def test_teams_are_dealt_out_in_the_order_of_the_list(coordinator: Client) -> None:
    shown = coordinator.get(f"{SEASON}pools/").context["shown"]
    assert tuple((one.pools, one.says) for one in shown.spreads) == (
        (1, "1 pool of 9"),
        (2, "2 pools of 4 to 5"),
        (3, "3 pools of 3"),
        (4, "4 pools of 2 to 3"),
    )
    answer = post(coordinator, "pools/spread", **at_version(pools="2"))
    assert said(answer)[-1] == "4 teams moved. To undo it: Season, Changes."
    assert pools() == dict(zip(NAMES, "ABABABABA", strict=True))


@pytest.mark.parametrize("many", ["0", "5", "two", ""])
def test_pools_of_fewer_than_two_teams_are_refused(coordinator: Client, many: str) -> None:
    answer = post(coordinator, "pools/spread", **at_version(pools=many))
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert set(pools().values()) == {"A"}


def test_one_team_is_moved_and_all_others_stay(coordinator: Client) -> None:
    post(coordinator, "pools/move", **at_version(**{"pool-2": "C", "pool-1": "A"}))
    assert pools() == {**dict.fromkeys(NAMES, "A"), "Bay": "C"}


def test_a_pool_that_was_not_offered_moves_nobody(coordinator: Client) -> None:
    answer = post(coordinator, "pools/move", **at_version(**{"pool-2": "=1+1"}))
    assert said(answer)[-1] == "Every team is in that pool already."
    assert set(pools().values()) == {"A"}


def test_who_looked_at_an_older_list_of_teams_is_told_and_moves_nobody(
    coordinator: Client,
) -> None:
    old = at_version(pools="3", looked="yes")
    post(coordinator, "pools/spread", **at_version(pools="2"))
    before = pools()
    answer = post(coordinator, "pools/spread", **old)
    assert answer.status_code == HTTPStatus.CONFLICT
    assert pools() == before


def test_pools_stay_once_a_game_was_played(coordinator: Client) -> None:
    record_of = DatabaseRecord(
        Season.objects.get(), Writer(account=Account.objects.get(), at=NOW)
    )
    record_of.write(
        {
            "results.csv": b"game,round,home,away,home_goals,away_goals,how,by\n"
            b"1,1,Ash,Bay,2,1,,\n"
        }
    )
    answer = post(coordinator, "pools/spread", **at_version(pools="2"))
    assert "every team stays in its pool" in answer.content.decode()
    assert set(pools().values()) == {"A"}
    assert list(steps(coordinator)) == []


def test_more_teams_come_in_beside_those_that_there_are(coordinator: Client) -> None:
    answer = post(coordinator, "pools/take", file=listed("Juniper", "ash"))
    assert said(answer)[-1] == "1 team came in; 1 stood there already: teams from “team”."
    assert list(pools()) == [*NAMES, "Juniper"]


def test_a_list_with_a_fault_is_refused_whole(coordinator: Client) -> None:
    answer = post(coordinator, "pools/take", file=listed("Juniper", "=cmd()"))
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert list(pools()) == [*NAMES]


def test_a_list_of_one_byte_too_many_is_refused_before_it_is_read(coordinator: Client) -> None:
    given = SimpleUploadedFile("teams.csv", b"t" * (MOST_PACKED + 1))
    answer = post(coordinator, "pools/take", file=given)
    assert "Choose one of at most 10 MB." in answer.content.decode()


def test_a_time_on_two_fields_makes_places_as_long_as_the_rulebook_says(
    coordinator: Client,
) -> None:
    answer = post(coordinator, "times/add", **TIME)
    assert said(answer)[-1] == "Meadow 1 and Meadow 2: the time is added."
    assert text("slots.csv").splitlines()[1:] == [
        "Meadow 1,monday,,,,18:00,21:00,,,",
        "Meadow 2,monday,,,,18:00,21:00,,,",
    ]
    shown = coordinator.get(f"{SEASON}times/").context["shown"]
    # Two halves of 24 minutes, 4 between them and 10 of turnover: preset "eight".
    assert shown.minutes == 24 + 4 + 24 + 10
    assert [f"{at:%H:%M}" for at in shown.rows[0].starts] == ["18:00", "19:02"]
    # Nine teams meet once: 9 * 8 / 2; two starts on two fields of twelve Mondays.
    assert (shown.room.games, shown.room.places, shown.room.nights) == (36, 48, 12)
    assert shown.room.reasons == ()


def test_starts_may_be_further_apart_than_a_game_needs_and_no_nearer(
    coordinator: Client,
) -> None:
    refused = post(coordinator, "times/add", **{**TIME, "minutes": "61"})
    assert refused.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert "a game with its turnover needs 62." in unescape(refused.content.decode())
    post(coordinator, "times/add", **{**TIME, "minutes": "90", "fields_named": "Meadow 1"})
    shown = coordinator.get(f"{SEASON}times/").context["shown"]
    assert [f"{at:%H:%M}" for at in shown.rows[0].starts] == ["18:00", "19:30"]


@pytest.mark.parametrize(
    ("told", "says"),
    [
        ({"closes": "18:00"}, "Until is 18:00, and the row begins at 18:00."),
        ({"closes": "19:01"}, "A game with its turnover needs 62 minutes"),
        ({"fields_named": ", ,"}, "0 fields are named."),
        ({"opens": "noon"}, "This is no time of the day. Write it as 18:00."),
        ({"weekday": "someday"}, "someday"),
        ({"first": "2026-01-01"}, "2026-01-01"),
    ],
)
def test_a_time_that_cannot_be_is_told_and_nothing_is_kept(
    coordinator: Client, told: dict[str, str], says: str
) -> None:
    answer = post(coordinator, "times/add", **{**TIME, **told})
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert says in unescape(answer.content.decode())
    assert read_folder(record()).planning.slots == ()


def test_a_time_that_overlaps_another_on_its_field_is_refused(coordinator: Client) -> None:
    post(coordinator, "times/add", **TIME)
    late = {**TIME, "closes": "22:00"}
    answer = post(coordinator, "times/add", **{**late, "opens": "20:03"})
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert "Let one end before the other begins." in answer.content.decode()
    ends = "20:04"  # a game from 19:02 on, and 62 minutes
    answer = post(coordinator, "times/add", **{**late, "opens": ends})
    assert answer.status_code == HTTPStatus.FOUND


def test_a_field_named_like_a_formula_is_kept_as_text(coordinator: Client) -> None:
    post(coordinator, "times/add", **{**TIME, "fields_named": "=1+1"})
    assert text("slots.csv").splitlines()[1:] == ["'=1+1,monday,,,,18:00,21:00,,,"]
    assert read_folder(record()).planning.slots[0].field == "=1+1"


def test_a_time_is_taken_out_by_who_saw_it(coordinator: Client) -> None:
    post(coordinator, "times/add", **TIME)
    stale = at_version(row="2")
    post(coordinator, "times/take-out", **at_version(row="2"))
    assert text("slots.csv").splitlines()[1:] == ["Meadow 2,monday,,,,18:00,21:00,,,"]
    assert post(coordinator, "times/take-out", **stale).status_code == HTTPStatus.CONFLICT
    assert len(text("slots.csv").splitlines()) == 2


@pytest.mark.parametrize(
    ("kind", "many", "games"), [("meetings", "1", 36), ("games_each", "4", 18)]
)
def test_how_much_each_plays_is_counted_out(
    coordinator: Client, kind: str, many: str, games: int
) -> None:
    post(coordinator, "times/add", **TIME)
    before = text("planning.toml")
    post(coordinator, "times/amount", **at_version(kind=kind, many=many))
    shown = coordinator.get(f"{SEASON}times/").context["shown"]
    assert shown.room.games == games
    assert f"\n{kind} = {many}\n" in text("planning.toml")
    kept = [one for one in before.splitlines() if one not in ("meetings = 1", "")]
    assert set(kept) <= set(text("planning.toml").splitlines())


def test_too_few_places_are_told_before_anything_is_searched(coordinator: Client) -> None:
    post(coordinator, "times/add", **{**TIME, "fields_named": "Meadow 1"})
    page = coordinator.get(f"{SEASON}times/")
    assert page.context["shown"].room.reasons == (
        "36 games need 36 places, and there are 24: 12 too few.",
    )
    assert "Next: plan the timetable" not in page.content.decode()


def test_today_leads_from_the_teams_to_the_timetable(coordinator: Client) -> None:
    without = ("rosters", "may wait", "9 teams without a roster.", False)
    assert list(steps(coordinator)) == [
        ("pools", "done", "9 teams in 1 pool.", False),
        ("times", "to do", "No field and no time to play yet.", True),
        ("plan", "to do", "No timetable yet.", False),
        without,
    ]
    post(coordinator, "times/add", **TIME)
    assert list(steps(coordinator)) == [
        ("pools", "done", "9 teams in 1 pool.", False),
        ("times", "done", "48 places for games on 2 fields.", False),
        ("plan", "to do", "No timetable yet.", True),
        without,
    ]


@pytest.mark.parametrize("fields", ["Meadow 1", "Meadow 1, Meadow 2"])
def test_places_that_days_off_take_are_counted_nowhere(
    coordinator: Client, fields: str
) -> None:
    """24 places are too few for a plan, and 48 are enough; a day off takes two a field."""
    post(coordinator, "times/add", **{**TIME, "fields_named": fields})
    many = len(fields.split(", "))
    held = text("planning.toml")
    record_of = DatabaseRecord(
        Season.objects.get(), Writer(account=Account.objects.get(), at=NOW)
    )
    record_of.write(
        {
            "closures.csv": b"date,why\n2027-02-15,Holiday\n",
            "planning.toml": f"spare_nights = [2027-04-05]\n{held}".encode(),
        }
    )
    shown = coordinator.get(f"{SEASON}times/").context["shown"]
    assert (shown.room.places, shown.room.nights) == (20 * many, 10)
    told = {place: says for place, _, says, _ in steps(coordinator)}
    assert told["times"] == f"{20 * many} places for games on {many} field{'s'[: many - 1]}."


def test_more_days_are_a_cure_where_there_is_no_plan(coordinator: Client) -> None:
    post(coordinator, "times/add", **{**TIME, "fields_named": "Meadow 1"})
    page = coordinator.get(f"{SEASON}times/").content.decode()
    assert 'Cure: give <a href="#days">the season more days</a>' in page
    assert 'id="days"' in page


@pytest.mark.parametrize("page", ["calendar/", "calendar/tasks/"])
def test_a_calendar_without_a_time_leads_to_where_one_is_given(
    coordinator: Client, page: str
) -> None:
    shown = coordinator.get(f"/desk/meadow/autumn/{page}")
    assert shown.status_code == HTTPStatus.OK
    assert f'<a class="button main" href="{SEASON}times/">Say where and when</a>' in (
        shown.content.decode()
    )


def test_the_noticeboard_is_opened_and_closed_by_its_coordinator(coordinator: Client) -> None:
    public = "/meadow/autumn/"
    assert Client().get(public).status_code == HTTPStatus.NOT_FOUND
    assert coordinator.get(public).status_code == HTTPStatus.OK
    post(coordinator, "noticeboard", public="yes")
    assert Client().get(public).status_code == HTTPStatus.OK
    assert (AuditRow.objects.latest("number").did, Season.objects.get().is_public) == (
        "opened",
        True,
    )
    assert post(coordinator, "noticeboard", public="no").status_code == HTTPStatus.FOUND
    assert Client().get(public).status_code == HTTPStatus.NOT_FOUND
    assert post(coordinator, "noticeboard", public="?").status_code == HTTPStatus.BAD_REQUEST


def test_the_house_rules_are_handed_out_as_a_booklet(coordinator: Client) -> None:
    answer = coordinator.get("/desk/meadow/autumn/rulebook/booklet.pdf?paper=us-letter")
    assert (answer.headers["Content-Type"], answer.content[:5]) == ("application/pdf", b"%PDF-")


def test_a_timetable_leads_on_to_its_first_night_and_the_crews_of_it(
    coordinator: Client,
) -> None:
    kept = DatabaseRecord(Season.objects.get(), Writer(account=Account.objects.get(), at=NOW))
    rows = "game,round,date,start,field,home,away\n1,1,2027-01-18,18:00,Meadow 1,Ash,Bay\n"
    kept.write({"timetable.csv": rows.encode()})
    assert list(steps(coordinator))[2:] == [
        ("plan", "done", "1 game in the timetable.", False),
        ("night", "next", "The first night is Monday 18 January.", False),
        ("crews", "may wait", "2 posts of its crews to fill.", False),
        ("rosters", "may wait", "9 teams without a roster.", False),
    ]
