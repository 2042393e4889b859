"""A captain reads who of the own team may not play next, and no more than to see the coordinator."""

import re
from datetime import UTC, datetime

import pytest
from django.test import Client
from django.utils import timezone

from cases.noticeboard_season import DISCIPLINE, public_season, seat
from cases.stored import an_account
from wholeball.store.models import AuditRow, Season

pytestmark = pytest.mark.django_db
OURS = "/me/harrow-fen/autumn/team/Library%20Fines/"
THEIRS = "/me/harrow-fen/autumn/team/Peer%20Reviewers/"
ROW = re.compile(r'<tr><td class="tick">(\d+)</td>(.*?)</tr>', re.DOTALL)


@pytest.fixture(autouse=True)
def _on_the_day_after_the_rulings(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(timezone, "now", lambda: datetime(2026, 10, 15, 15, tzinfo=UTC))


def captain(season: Season, team: str, person: str) -> Client:
    account = an_account(f"Captain of {team}")
    seat(account, season, "captain", team=team, person=person)
    client = Client()
    client.force_login(account)
    return client


def rows(client: Client, address: str) -> dict[str, str]:
    """Return what stands in the row of each number."""
    answer = client.get(address)
    assert answer.status_code == 200
    return dict(ROW.findall(answer.content.decode()))


def test_a_suspended_player_is_marked_and_neither_reason_nor_days_are_told() -> None:
    season = public_season(discipline_csv=DISCIPLINE)
    mine = rows(captain(season, "Library Fines", "k-adaeze"), OURS)
    assert "may not play" in mine["10"]
    assert "See the coordinator." in mine["10"]
    assert "<svg" in mine["10"]
    for private in (
        "suspend",
        "Said something",
        "games left",
        "more game",
        "H 11.4",
        "meeting",
    ):
        assert private not in mine["10"]
    for number in ("7", "4"):
        assert "may not play" not in mine[number]


def test_one_who_is_blocked_at_the_gate_reads_like_one_who_is_suspended() -> None:
    season = public_season(
        discipline_csv=DISCIPLINE, not_cleared_csv="person,since\nk-ondine,2026-10-12\n"
    )
    mine = rows(captain(season, "Library Fines", "k-adaeze"), OURS)
    told = {number: re.sub(r"<bdi>.*?</bdi>", "", said) for number, said in mine.items()}
    assert told["4"] == told["10"]
    assert "may not play" in told["4"]


def test_the_captain_of_the_opponents_reads_nothing_of_it_and_the_read_is_noted() -> None:
    season = public_season(discipline_csv=DISCIPLINE)
    other = captain(season, "Peer Reviewers", "k-vashti")
    assert other.get(OURS).status_code == 404
    assert "may not play" in rows(other, THEIRS)["9"]
    assert b"Lindqvar" not in other.get(THEIRS).content
    assert b"may not play" not in other.get("/harrow-fen/autumn/teams/Library%20Fines/").content
    assert {one.what for one in AuditRow.objects.filter(did="read")} == {
        "autumn: read roster of Peer Reviewers"
    }


def test_who_may_play_but_for_a_count_of_games_is_to_be_looked_at() -> None:
    season = public_season()
    page = captain(season, "Library Fines", "k-adaeze").get(OURS).content.decode()
    assert "may not play" not in page
    assert page.count("to look at") == 3
