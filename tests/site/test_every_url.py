"""Every address of the desk, for every role, for what is theirs and what is not.

The table below says who may; an address that it does not know fails the test.
"""

import re
from http import HTTPStatus
from pathlib import Path
from typing import Final, NamedTuple

import pytest
from django.db import connection
from django.test import Client
from django.urls import get_resolver, reverse

from cases.addresses import names_in
from cases.desk_season import DeskSeason, a_desk, member
from cases.fee_season import FILES as FEES
from cases.play_off_season import PLAN
from cases.sign_up_season import FILES as SIGN_UPS
from cases.stored import NOW, a_season, written_by
from wholeball.desk import urls
from wholeball.store.models import Account, AuditRow, Occasion, Search, Season

pytestmark = pytest.mark.django_db


class Route(NamedTuple):
    """Who may, by which method, and what names it takes: their own, and another's."""

    roles: str
    method: str
    own: tuple[str, ...] = ()
    other: tuple[str, ...] = ()


_STAFF: Final = "coordinator supervisor official scorekeeper"
_ENTERS: Final = "coordinator supervisor scorekeeper"
_GAME: Final = (("A1",), ("C1",))
_NIGHT: Final = (("2026-09-15",), ("2026-09-16",))
_TEAM: Final = (("Ash",), ("Cedar",))
TABLE: Final[dict[str, Route]] = {
    "door": Route(f"{_STAFF} captain", "GET"),
    "today": Route("coordinator", "GET"),
    "doubts": Route("coordinator", "GET"),
    "season": Route("coordinator", "GET"),
    "noticeboard": Route("coordinator", "POST"),
    "season_name": Route("coordinator", "GET POST"),
    "download": Route("coordinator", "GET"),
    "divisions": Route("coordinator", "GET"),
    "add_division": Route("coordinator", "POST"),
    "drop_division": Route("coordinator", "POST"),
    "division": Route("coordinator", "GET POST", ("one",), ()),
    "add_block": Route("coordinator", "POST"),
    "drop_block": Route("coordinator", "POST"),
    "block_of_division": Route("coordinator", "GET POST", ("Tuesday",), ()),
    "sign_ups": Route("coordinator", "GET"),
    "sign_up": Route("coordinator", "GET POST", ("Tuesday", "Coots"), ()),
    "drop_sign_up": Route("coordinator", "POST"),
    "alone": Route("coordinator", "GET POST", ("Tuesday", "lone-1"), ()),
    "drop_alone": Route("coordinator", "POST"),
    "sites": Route("coordinator", "GET"),
    "add_site": Route("coordinator", "GET POST"),
    "drop_site": Route("coordinator", "POST"),
    "site": Route("coordinator", "GET POST", ("Weir",), ()),
    "play_offs": Route("coordinator", "GET"),
    "take_bracket": Route("coordinator", "GET POST"),
    "add_play_off": Route("coordinator", "POST"),
    "drop_play_off": Route("coordinator", "POST"),
    "play_off": Route("coordinator", "GET POST", ("P1",), ()),
    "pools": Route("coordinator", "GET"),
    "spread_pools": Route("coordinator", "POST"),
    "move_pools": Route("coordinator", "POST"),
    "take_teams": Route("coordinator", "POST"),
    "times": Route("coordinator", "GET"),
    "add_time": Route("coordinator", "POST"),
    "drop_time": Route("coordinator", "POST"),
    "days_off": Route("coordinator", "GET POST"),
    "drop_day_off": Route("coordinator", "POST"),
    "absences": Route("coordinator", "GET POST"),
    "drop_absence": Route("coordinator", "POST"),
    "rules": Route("coordinator", "GET"),
    "weigh_rule": Route("coordinator", "POST"),
    "drop_rule": Route("coordinator", "POST"),
    "new_rule": Route("coordinator", "GET POST", ("rest_days",), ()),
    "set_days": Route("coordinator", "POST"),
    "set_amount": Route("coordinator", "POST"),
    "rosters": Route("coordinator", "GET"),
    "check_rosters": Route("coordinator", "POST"),
    "add_rosters": Route("coordinator", "POST"),
    "team": Route("coordinator captain", "GET", *_TEAM),
    "team_name": Route("coordinator", "GET POST", ("Ash",), ()),
    "drop_team": Route("coordinator", "POST", ("Ash",), ()),
    "check_roster": Route("coordinator captain", "POST", *_TEAM),
    "add_player": Route("coordinator captain", "GET POST", *_TEAM),
    "player": Route("coordinator captain", "GET POST", ("Ash", "1"), ("Cedar", "1")),
    "drop_player": Route("coordinator captain", "POST", ("Ash", "1"), ("Cedar", "1")),
    "add_roster": Route("coordinator captain", "POST", *_TEAM),
    "clearances": Route("coordinator", "GET"),
    "block": Route("coordinator", "POST"),
    "lift": Route("coordinator", "POST"),
    "fees": Route("coordinator", "GET"),
    "fee": Route("coordinator", "GET POST", ("Birch", "A2"), ()),
    "drop_fee": Route("coordinator", "POST"),
    "history": Route("coordinator", "GET"),
    "undo": Route("coordinator", "POST"),
    "suspensions": Route("coordinator", "GET"),
    "decide": Route("coordinator", "GET POST"),
    "nights": Route(_STAFF, "GET"),
    "suspensions_sheet": Route("coordinator supervisor", "GET"),
    "night": Route(_STAFF, "GET", *_NIGHT),
    "crews": Route("coordinator", "GET POST", ("2026-09-15",), ()),
    "officials": Route("coordinator", "POST", ("2026-09-15",), ()),
    "officials_list": Route("coordinator", "GET POST"),
    "official": Route("coordinator", "GET POST", ("Ada Quill",), ()),
    "drop_official": Route("coordinator", "POST", ("Ada Quill",), ()),
    "packet": Route("coordinator supervisor", "GET", *_NIGHT),
    "scorecards": Route("coordinator supervisor", "GET", *_NIGHT),
    "game": Route(_STAFF, "GET", *_GAME),
    "scorecard": Route(_ENTERS, "GET POST", *_GAME),
    "step": Route(_ENTERS, "POST", *_GAME),
    "questions": Route("coordinator supervisor", "GET", *_GAME),
    "answer": Route("coordinator supervisor", "POST", *_GAME),
    "report_incident": Route(_STAFF, "POST", *_GAME),
    "goes_on": Route("coordinator", "GET", ("A1",), ()),
    "certify": Route("coordinator supervisor", "GET POST", *_GAME),
    "reopen": Route("coordinator", "GET POST", *_GAME),
    "award": Route("coordinator", "GET POST", *_GAME),
    "calendar": Route("coordinator", "GET"),
    "move": Route("coordinator", "POST"),
    "step_back": Route("coordinator", "POST"),
    "throw_away": Route("coordinator", "POST"),
    "newest": Route("coordinator", "POST"),
    "publish": Route("coordinator", "GET POST"),
    "call_off": Route("coordinator", "GET POST"),
    "take_back": Route("coordinator", "GET POST", ("1",), ()),
    "messages": Route("coordinator", "GET"),
    "message": Route("coordinator", "GET", ("1",), ()),
    "send_again": Route("coordinator", "POST", ("1",), ()),
    "tasks": Route("coordinator", "GET POST"),
    "task": Route("coordinator", "GET", ("1",), ()),
    "stop_task": Route("coordinator", "POST", ("1",), ()),
    "take_task": Route("coordinator", "POST", ("1",), ()),
    "forget_task": Route("coordinator", "POST", ("1",), ()),
    "rulebook": Route("coordinator", "GET"),
    "article": Route("coordinator", "GET POST", ("mercy",), ()),
    "booklet": Route(_STAFF, "GET"),
    "edition": Route("coordinator", "GET"),
    "rulebook_back": Route("coordinator", "POST"),
    "standings": Route(_STAFF, "GET"),
    "results": Route("coordinator supervisor", "GET"),
    "bracket": Route("coordinator", "GET"),
    "draw": Route("coordinator", "POST"),
    "lots": Route("coordinator", "GET POST"),
    "hold_draw": Route("coordinator", "POST", ("seeds",), ()),
    "ratings": Route("coordinator", "GET"),
    "report": Route("coordinator", "GET"),
    "table": Route("coordinator", "GET", ("results", "csv"), ()),
}
"""Every address of a season at the desk."""
WHERE: Final = ("harrow-fen", "autumn")
FINE: Final = frozenset({200, 302, 400, 409, 422})
"""What somebody is answered who may: a page, a step on, or what is wrong with what was sent."""
SAFE: Final = [name for name, one in TABLE.items() if "GET" in one.method]
UNSAFE: Final = [name for name, one in TABLE.items() if "POST" in one.method]
CHANGES_ONLY: Final = [name for name, one in TABLE.items() if one.method == "POST"]


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    made = a_desk(tmp_path, sites="site\nWeir\n", **SIGN_UPS, **FEES)
    written_by(made.season).write({"planning.toml": PLAN.encode()})
    put_told(made.season)
    made.people["stranger"] = member(a_season("Spring"), "coordinator", person="Elsewhere")
    return made


def put_told(season: Season) -> None:
    """Put in what was told once, and a search that found a timetable, each with the key 1."""
    what = {"night": "2026-09-16", "site": "", "field": "", "next_word": "", "says": ""}
    Occasion.objects.create(
        pk=1,
        season=season,
        kind="called_off",
        says="Off",
        at=NOW,
        what={**what, "state": "off"},
    )
    Search.objects.create(
        pk=1,
        season=season,
        account=Account.objects.order_by("pk")[0],
        kind="plan",
        version=1,
        state="done",
        made_at=NOW,
        beat=NOW,
        found={"text": "", "total": 0, "bound": 0},
    )


def at(name: str, args: tuple[str, ...], where: tuple[str, str] = WHERE) -> str:
    return reverse(f"desk:{name}", args=(*where, *args))


def test_the_table_knows_every_address_of_the_desk_and_no_other() -> None:
    assert sorted(names_in(urls.urlpatterns)) == sorted([*TABLE, "home"])
    assert "desk" in get_resolver().namespace_dict


def plain(page: bytes) -> bytes:
    """Return a page without the token of its form, which is another each time."""
    return re.sub(rb'csrfmiddlewaretoken" value="[^"]*"', b"", page)


def statuses(desk: DeskSeason, url: str, method: str) -> dict[str, int]:
    """Return what each role is answered; the public has no account."""
    people = {**desk.people, "public": Client()}
    return {role: _asked(client, url, method) for role, client in people.items()}


def _asked(client: Client, url: str, method: str) -> int:
    return client.get(url).status_code if method == "GET" else client.post(url).status_code


def who_may(found: dict[str, int]) -> set[str]:
    """Return who was let in; the public is sent to sign in, whatever is there or not."""
    assert found.pop("public") == HTTPStatus.FOUND
    assert {code for code in found.values() if code not in FINE} <= {HTTPStatus.NOT_FOUND}
    return {role for role, code in found.items() if code in FINE}


@pytest.mark.parametrize("name", TABLE)
def test_an_address_opens_to_who_may_and_is_missing_to_all_others(
    desk: DeskSeason, name: str
) -> None:
    route = TABLE[name]
    for method in route.method.split():
        assert who_may(statuses(desk, at(name, route.own), method)) == set(route.roles.split())


@pytest.mark.parametrize("name", [name for name, one in TABLE.items() if one.other])
def test_what_is_anothers_is_missing_to_all_but_the_coordinator(
    desk: DeskSeason, name: str
) -> None:
    route = TABLE[name]
    for method in route.method.split():
        assert who_may(statuses(desk, at(name, route.other), method)) == {"coordinator"}


@pytest.mark.parametrize("name", [name for name, one in TABLE.items() if one.other])
def test_what_is_anothers_looks_like_what_does_not_exist(desk: DeskSeason, name: str) -> None:
    route = TABLE[name]
    first = "2026-02-30" if "2026" in route.own[0] else "Nowhere"
    nowhere = (first, *route.own[1:])
    for method in route.method.split():
        official, captain = desk.people["official"], desk.people["captain"]
        for client in (official, captain):
            does = client.get if method == "GET" else client.post
            theirs, missing = does(at(name, route.other)), does(at(name, nowhere))
            assert (theirs.status_code, missing.status_code) == (404, 404)
            assert plain(theirs.content) == plain(missing.content)


@pytest.mark.parametrize("where", [("harrow-fen", "winter"), ("elsewhere", "autumn")])
def test_a_season_that_does_not_exist_is_missing_like_one_of_others(
    desk: DeskSeason, where: tuple[str, str]
) -> None:
    desk.people["stranger"].get(at("today", ()))  # shows once what signing in has to say
    missing = desk.people["stranger"].get(at("today", (), where))
    theirs = desk.people["stranger"].get(at("today", ()))
    assert (missing.status_code, theirs.status_code) == (404, 404)
    assert plain(missing.content) == plain(theirs.content)


@pytest.mark.parametrize("name", UNSAFE)
def test_a_change_without_the_token_is_refused_and_changes_nothing(
    desk: DeskSeason, name: str
) -> None:
    before = desk.texts()
    strict = Client(enforce_csrf_checks=True)
    strict.cookies = desk.people["coordinator"].cookies
    answer = strict.post(at(name, TABLE[name].own), {"way": "undo", "person": "k-noor"})
    assert (answer.status_code, desk.texts()) == (HTTPStatus.FORBIDDEN, before)


@pytest.mark.parametrize("name", CHANGES_ONLY)
def test_a_link_to_a_change_changes_nothing(desk: DeskSeason, name: str) -> None:
    answer = desk.people["coordinator"].get(at(name, TABLE[name].own))
    assert answer.status_code == HTTPStatus.METHOD_NOT_ALLOWED
    assert "Nothing was sent" in answer.content.decode()


def contents() -> dict[str, list[str]]:
    """Return every row of every table, but for sessions and the audit, which reading adds to."""
    left_out = {"django_session", AuditRow._meta.db_table}
    found = {}
    with connection.cursor() as cursor:
        for table in connection.introspection.table_names(cursor):
            if table not in left_out:
                cursor.execute(f'SELECT * FROM "{table}"')  # noqa: S608 - a table of our own
                found[table] = sorted(map(repr, cursor.fetchall()))
    return found


@pytest.mark.parametrize("name", SAFE)
def test_looking_leaves_the_database_equal(desk: DeskSeason, name: str) -> None:
    desk.people["coordinator"].get("/desk/")
    before = contents()
    for role in ("coordinator", "supervisor", "captain"):
        desk.people[role].get(at(name, TABLE[name].own))
    assert contents() == before


def test_a_change_that_is_anothers_is_noted(desk: DeskSeason) -> None:
    before = Season.objects.get(pk=desk.season.pk).version
    desk.people["captain"].post(at("add_roster", ("Cedar",)))
    row = AuditRow.objects.order_by("-number")[0]
    assert (row.did, row.what) == ("tried", f"autumn: {at('add_roster', ('Cedar',))}")
    assert Season.objects.get(pk=desk.season.pk).version == before
