"""Feeds follow RFC 5545, keep to the clocks of the league, and tell calendars what changed.

The oracles are icalendar's reader, dateutil's reader of VTIMEZONE, and the zoneinfo database.
"""

import io
import re
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from dateutil import tz  # type: ignore[import-untyped] # ships no types
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from icalendar import Calendar, Event

from cases.noticeboard_season import NOTICES, change, public_season, still_to_play, text
from cases.stored import NOW, an_account
from wholeball.store.feeds import BYTES, make_token
from wholeball.store.models import FeedToken, Season
from wholeball.usecases.feed_zone import zone

pytestmark = pytest.mark.django_db
CHANGE = date(2026, 11, 1)
"""In 2026 clocks in Chicago go back on the first Sunday of November."""


def subscribed(season: Season, kind: str, subject: str) -> Callable[[], Calendar]:
    token = make_token(season, kind, subject, account=None, at=NOW)

    def fetched() -> Calendar:
        answer = Client().get(f"/feeds/{token}.ics")
        assert answer.status_code == 200
        return Calendar.from_ical(answer.content)

    return fetched


def events(calendar: Calendar) -> dict[str, Event]:
    return {
        re.sub(r"^Game (\S+?)(,.*)?$", r"\1", str(one["description"])): one
        for one in calendar.events
    }


def part(event: Event, name: str) -> Any:
    return event[name]


def told(event: Event) -> tuple[str, str, int]:
    return str(event["uid"]), str(event["status"]), int(part(event, "sequence"))


def test_a_feed_of_a_team_has_its_games_and_no_other() -> None:
    season = public_season()
    found = events(subscribed(season, "team", "Library Fines")())
    listed = text(season, "timetable.csv").splitlines()[1:]
    assert sorted(found) == sorted(
        row.split(",")[0] for row in listed if "Library Fines" in row
    )
    one = found["W12"]
    assert part(one, "dtstart").dt == datetime(
        2026, 9, 15, 18, 30, tzinfo=ZoneInfo("America/Chicago")
    )
    assert part(one, "dtstart").params["TZID"] == "America/Chicago"
    assert str(one["summary"]) == "The Overlapping Seminars v Library Fines"
    assert str(one["location"]) == "Lower Meadow 2"
    assert told(one)[1:] == ("CONFIRMED", 0)


def test_feeds_of_a_field_and_of_an_official_have_theirs_and_name_nobody() -> None:
    season = public_season()
    field = events(subscribed(season, "field", "Lower Meadow 1")())
    assert {str(one["location"]) for one in field.values()} == {"Lower Meadow 1"}
    token = make_token(season, "official", "Tova Quillmere", account=None, at=NOW)
    answer = Client().get(f"/feeds/{token}.ics")
    assert sorted(events(Calendar.from_ical(answer.content))) == ["F53", "W51"]
    assert b"as lead" in answer.content
    for private in (b"Tova", b"Quillmere", b"Abernwy", b"Havenko"):
        assert private not in answer.content


@pytest.mark.parametrize(
    "name", ["America/Chicago", "Europe/Dublin", "Australia/Lord_Howe", "Asia/Kolkata"]
)
def test_a_described_zone_has_the_clocks_of_the_database_at_every_hour(name: str) -> None:
    described = Calendar()
    described.add("prodid", "-//Wholeball//Test//EN")
    described.add("version", "2.0")
    described.add_component(zone(name, date(2026, 1, 1), date(2027, 12, 31)))
    read = tz.tzical(io.StringIO(described.to_ical().decode())).get(name)
    rules = ZoneInfo(name)
    at = datetime(2026, 2, 1, tzinfo=UTC)
    while at < datetime(2027, 12, 1, tzinfo=UTC):
        local = at.astimezone(rules)
        if not local.fold:
            naive = local.replace(tzinfo=None)
            assert naive.replace(tzinfo=read).utcoffset() == local.utcoffset(), local
        at += timedelta(hours=1)


def test_clocks_that_go_from_two_to_three_change_at_two_in_the_file() -> None:
    """RFC 5545, section 3.6.5: the onset is told by the clock that it ends."""
    said = zone("America/New_York", date(2007, 1, 1), date(2007, 12, 1)).to_ical().decode()
    assert "BEGIN:DAYLIGHT\r\nDTSTART:20070311T020000\r\nTZNAME:EDT\r\n" in said
    assert "TZOFFSETFROM:-0500\r\nTZOFFSETTO:-0400" in said
    assert "BEGIN:STANDARD\r\nDTSTART:20071104T020000\r\nTZNAME:EST\r\n" in said


def test_six_in_the_evening_is_six_before_and_after_the_clocks_change() -> None:
    season = public_season()
    rows = (
        "C1,7,2026-10-31,18:00,Lower Meadow 1,Library Fines,Nutmeg Theory,\n"
        "C2,7,2026-11-02,18:00,Lower Meadow 1,Library Fines,Extra Thyme,\n"
    )
    change(season, timetable_csv=text(season, "timetable.csv") + rows)
    found = events(subscribed(season, "team", "Library Fines")())
    before, after = part(found["C1"], "dtstart").dt, part(found["C2"], "dtstart").dt
    assert (before.hour, after.hour) == (18, 18)
    assert before.astimezone(UTC) == datetime(2026, 10, 31, 23, tzinfo=UTC)
    assert after.astimezone(UTC) == datetime(2026, 11, 3, 0, tzinfo=UTC)
    assert before.date() < CHANGE < after.date()


def test_a_moved_game_is_news_of_the_same_game_and_of_no_other() -> None:
    season = public_season()
    feed = subscribed(season, "team", "Library Fines")
    before = events(feed())
    moved = text(season, "timetable.csv").replace(
        "W53,5,2026-10-13,19:30,Lower Meadow 1", "W53,5,2026-10-15,20:00,Lower Meadow 2"
    )
    change(season, timetable_csv=moved)
    after = events(feed())
    assert after.keys() == before.keys()
    for game, event in after.items():
        uid, status, sequence = told(event)
        was_uid, _, was = told(before[game])
        assert (uid, status) == (was_uid, "CONFIRMED")
        assert sequence > was if game == "W53" else sequence == was
    assert part(after["W53"], "dtstart").dt.isoformat() == "2026-10-15T20:00:00-05:00"


def test_a_night_called_off_and_on_again_goes_out_twice_as_an_update() -> None:
    season = public_season(results_csv=still_to_play("2026-10-13"))
    feed = subscribed(season, "team", "Library Fines")
    first = told(events(feed())["W53"])
    off = f"{NOTICES}2026-10-13,North,,off,,\n"
    change(season, notices_csv=off)
    second = told(events(feed())["W53"])
    change(season, notices_csv=f"{off}2026-10-13,North,,on,,\n")
    third = told(events(feed())["W53"])
    assert [one[1] for one in (first, second, third)] == ["CONFIRMED", "CANCELLED", "CONFIRMED"]
    assert first[2] < second[2] < third[2]
    assert first[0] == second[0] == third[0]
    untouched = events(feed())["W41"]
    assert told(untouched)[1:] == ("CONFIRMED", 0)


def test_a_game_that_left_the_timetable_stays_in_the_feed_as_cancelled() -> None:
    season = public_season()
    feed = subscribed(season, "team", "Library Fines")
    before = told(events(feed())["W53"])
    rows = text(season, "timetable.csv").splitlines(keepends=True)
    change(season, timetable_csv="".join(row for row in rows if not row.startswith("W53")))
    results = text(season, "results.csv").splitlines(keepends=True)
    change(season, results_csv="".join(row for row in results if not row.startswith("W53")))
    crews = text(season, "crews.csv")
    assert "W53" not in crews
    gone = events(feed())["W53"]
    assert told(gone)[:2] == (before[0], "CANCELLED")
    assert told(gone)[2] > before[2]
    assert str(gone["summary"]) == "Off: Library Fines v Late Submissions"


def test_an_official_taken_off_a_game_and_a_field_it_left_see_it_cancelled() -> None:
    season = public_season()
    official = subscribed(season, "official", "Tova Quillmere")
    field = subscribed(season, "field", "Lower Meadow 1")
    change(
        season,
        crews_csv="game,role,official\nF53,lead,Tova Quillmere\n",
        timetable_csv=text(season, "timetable.csv").replace(
            "W53,5,2026-10-13,19:30,Lower Meadow 1", "W53,5,2026-10-13,21:30,Lower Meadow 2"
        ),
    )
    mine = events(official())
    assert (told(mine["W51"])[1], told(mine["F53"])[1]) == ("CANCELLED", "CONFIRMED")
    assert told(events(field())["W53"])[1] == "CANCELLED"


def test_names_with_line_ends_commas_and_colons_add_no_line_of_their_own() -> None:
    name = "A;B, C: BEGIN:VEVENT"
    season = public_season()
    for file in ("teams.csv", "timetable.csv", "results.csv", "rosters.csv"):
        key = file.replace(".", "_")
        change(season, **{key: text(season, file).replace("Nutmeg Theory", f'"{name}"')})
    found = subscribed(season, "field", "Lower Meadow 1")()
    games = [one for one in found.walk("VEVENT") if name in str(one["summary"])]
    assert games
    assert len(found.walk("VEVENT")) == len(events(found))


def test_a_token_has_256_bits_and_only_its_hash_is_kept() -> None:
    season = public_season()
    token = make_token(season, "team", "Library Fines", account=an_account(), at=NOW)
    assert BYTES * 8 == 256
    assert len(token) == 43
    row = FeedToken.objects.get()
    assert re.fullmatch("[0-9a-f]{64}", row.digest)
    assert token not in str(vars(row))


def test_unknown_revoked_and_almost_right_tokens_are_the_same_404(client: Client) -> None:
    season = public_season()
    token = make_token(season, "team", "Library Fines", account=None, at=NOW)
    assert client.get(f"/feeds/{token}.ics").status_code == 200
    FeedToken.objects.update(revoked_at=NOW)
    other = token[:-1] + ("A" if token[-1] != "A" else "E")
    answers = [client.get(f"/feeds/{one}.ics") for one in (token, other, "x", "a" * 5_000)]
    assert {one.status_code for one in answers} == {404}
    assert len({one.content for one in answers}) == 1


def test_a_feed_is_looked_up_by_its_hash_in_one_query_of_the_index(client: Client) -> None:
    season = public_season()
    for number in range(50):
        make_token(season, "field", f"Field {number}", account=None, at=NOW)
    with CaptureQueriesContext(connection) as asked:
        client.get("/feeds/nothing.ics")
    found = [one["sql"] for one in asked if "store_feedtoken" in one["sql"]]
    assert len(found) == 1
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute(f"EXPLAIN QUERY PLAN {found[0]}")
            plan = " ".join(str(row) for row in cursor.fetchall())
        assert "USING INDEX" in plan
        assert "SCAN store_feedtoken" not in plan


def test_a_feed_is_never_stored_on_the_way_and_costs_few_queries(client: Client) -> None:
    season = public_season()
    token = make_token(season, "team", "Library Fines", account=None, at=NOW)
    client.get(f"/feeds/{token}.ics")
    with CaptureQueriesContext(connection) as asked:
        answer = client.get(f"/feeds/{token}.ics")
    assert "no-store" in answer.headers["Cache-Control"]
    assert answer.headers["Content-Type"] == "text/calendar; charset=utf-8"
    assert len(asked) <= 4
