"""Captains, players and officials read their next games on their own page, and lead on from it."""

import re
from datetime import UTC, datetime

import pytest
from django.test import Client
from django.utils import timezone

from cases.noticeboard_season import NOTICES, ROOT, change, public_season, seat, text
from cases.stored import an_account
from wholeball.store.models import Season
from wholeball.usecases.own_games import LastGame, NextGame, OwnTeam
from wholeball.usecases.own_season import OwnSeason, own_season

pytestmark = pytest.mark.django_db
TEAM = "Library Fines"
OWN = "/me/harrow-fen/autumn/"
BEFORE = "2026-10-13T12:00"
"""Early on the day of W53; written_by writes later than the first day of the season."""


def at(moment: str) -> datetime:
    return datetime.fromisoformat(moment).replace(tzinfo=UTC)


def told(season: Season, role: str, moment: str = BEFORE, **of: str) -> OwnSeason:
    account = an_account(f"{role} {moment}")
    seat(account, season, role, **of)
    return own_season(account, "harrow-fen", "autumn", now=at(moment), root=ROOT)


def of_captain(season: Season, moment: str = BEFORE) -> OwnTeam:
    (team,) = told(season, "captain", moment, team=TEAM, person="k-adaeze").games
    return team


def signed_in(season: Season, role: str, **of: str) -> Client:
    account = an_account(role)
    seat(account, season, role, **of)
    client = Client()
    client.force_login(account)
    return client


def without_result(season: Season, *games: str) -> None:
    lines = text(season, "results.csv").splitlines(keepends=True)
    kept = [one for one in lines if one.partition(",")[0] not in games]
    change(season, results_csv="".join(kept))


def test_a_captain_reads_the_games_to_come_with_place_and_opponent_and_the_last_results() -> (
    None
):
    season = public_season()
    without_result(season, "W53")
    team = of_captain(season)
    assert team.team == TEAM
    assert team.next == (
        NextGame(
            game="W53",
            when="Tuesday 13 October",
            at="19:30",
            field="Lower Meadow 1",
            against="Late Submissions",
            word="on",
            says="on",
        ),
        NextGame(
            game="P4",
            when="Tuesday 20 October",
            at="19:30",
            field="Lower Meadow 2",
            against="Peer Reviewers",
            word="on",
            says="on",
            note="play-off",
        ),
    )
    assert team.last == (
        LastGame(
            game="W41",
            when="Tuesday 6 October",
            how="won against",
            against="Corner Office Hours",
            score="2\N{EN DASH}0",
            href="",
        ),
        LastGame(
            game="W33",
            when="Tuesday 29 September",
            how="level with",
            against="Extra Thyme",
            score="1\N{EN DASH}1",
            href="",
        ),
        LastGame(
            game="W22",
            when="Tuesday 22 September",
            how="won against",
            against="Nutmeg Theory",
            score="2\N{EN DASH}1",
            href="",
        ),
    )


def test_a_game_of_today_stands_until_midnight_of_the_league_and_not_after() -> None:
    season = public_season()
    without_result(season, "W53")
    assert [one.game for one in of_captain(season, "2026-10-14T04:59").next] == ["W53", "P4"]
    assert [one.game for one in of_captain(season, "2026-10-14T05:00").next] == ["P4"]


def test_a_night_that_is_called_off_and_one_that_waits_for_word_say_so() -> None:
    notices = f"{NOTICES}2026-10-13,,,later,16:30,\n2026-10-20,,,off,,The ground is wet.\n"
    season = public_season(notices_csv=notices)
    without_result(season, "W53")
    assert [(one.word, one.says) for one in of_captain(season).next] == [
        ("later", "next word at 16:30"),
        ("off", "off"),
    ]


def test_a_game_that_was_moved_says_where_it_was_until_it_is_back_there() -> None:
    season = public_season()
    without_result(season, "W53")
    was = text(season, "timetable.csv")
    row = "P4,6,2026-10-20,19:30,Lower Meadow 2"
    change(season, timetable_csv=was.replace(row, "P4,6,2026-10-27,20:30,Lower Meadow 1"))
    moved = of_captain(season).next[1]
    assert (moved.word, moved.says, moved.was) == (
        "moved",
        "moved",
        "Tuesday 20 October, 19:30, Lower Meadow 2",
    )
    assert (moved.when, moved.at, moved.field) == (
        "Tuesday 27 October",
        "20:30",
        "Lower Meadow 1",
    )
    change(season, timetable_csv=was)
    back = of_captain(season, "2026-10-13T13:00").next[1]
    assert (back.word, back.was) == ("on", "")


def test_a_player_reads_the_games_of_the_team_and_an_official_their_own_with_the_role() -> None:
    season = public_season(
        crews_csv="game,role,official\nW51,lead,Tova Quillmere\nP4,trail,Tova Quillmere\n",
        officials_csv="official\nTova Quillmere\n",
    )
    player = told(season, "player", team=TEAM, person="k-hoku")
    assert [one.team for one in player.games] == [TEAM]
    official = told(season, "official", person="Tova Quillmere")
    assert official.games == ()
    assert [
        (one.night, one.at, one.sides, one.role, one.word)
        for one in official.hours.games
        if not one.is_over
    ] == [
        (
            "Tuesday 13 October 2026",
            "18:30",
            "Nutmeg Theory v Corner Office Hours",
            "lead",
            "on",
        ),
        ("Tuesday 20 October 2026", "19:30", "Peer Reviewers v Library Fines", "trail", "on"),
    ]


def test_the_page_leads_to_team_standings_calendar_and_house_rules(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    season = public_season()
    without_result(season, "W53")
    monkeypatch.setattr(timezone, "now", lambda: at(BEFORE))
    client = signed_in(season, "captain", team=TEAM, person="k-adaeze")
    page = client.get(OWN).content.decode()
    for href in ("teams/Library%20Fines/", "standings/1/", "calendar/", "rules/", ""):
        assert f'href="{ROOT}{href}"' in page
        assert client.get(f"{ROOT}{href}").status_code == 200
    assert "against</span> <bdi>Late Submissions</bdi>" in page
    assert "You have no game to come" not in page


def test_a_team_without_a_game_to_come_and_without_a_result_says_so() -> None:
    empty = "game,round,date,start,field,home,away,stage\n"
    season = public_season(timetable_csv=empty, crews_csv="game,role,official\n")
    change(season, results_csv=text(season, "results.csv").splitlines()[0] + "\n")
    client = signed_in(season, "captain", team=TEAM, person="k-adaeze")
    page = client.get(OWN).content.decode()
    assert "No game is to come." in page
    assert "No result yet." in page
    links = re.findall(rf'href="({ROOT}[^"]*)"', page)
    assert links
    assert {client.get(one).status_code for one in links} == {200}


def test_home_leads_members_to_a_season_that_is_not_public_yet_and_nobody_else() -> None:
    season = public_season()
    season.is_public = False
    season.save()
    client = signed_in(season, "captain", team=TEAM, person="k-adaeze")
    mine = client.get("/")
    assert f'href="{ROOT}"'.encode() in mine.content
    assert f'href="{OWN}"'.encode() in mine.content
    assert "private" in mine.headers["Cache-Control"]
    for other in (Client(), _stranger()):
        page = other.get("/").content
        assert b"No season is public yet." in page
        assert b"Autumn" not in page


def test_home_lists_a_public_season_once_and_leads_who_has_a_part_to_it() -> None:
    season = public_season()
    client = signed_in(season, "captain", team=TEAM, person="k-adaeze")
    page = client.get("/").content.decode()
    assert page.count(f'href="{ROOT}"') == 1
    assert page.count(f'href="{OWN}"') == 1
    assert OWN not in Client().get("/").content.decode()


def _stranger() -> Client:
    client = Client()
    client.force_login(an_account("A Stranger"))
    return client
