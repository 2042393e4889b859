"""The pages of what forfeits cost: what is due and settled, and what leads there."""

import re
from datetime import date
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.test import Client

from cases.answers import said, words
from cases.desk_season import DeskSeason, a_desk, at, days_from
from cases.fee_season import FILES, HEAD
from cases.stored import written_by
from wholeball.store.models import Change, Season

pytestmark = pytest.mark.django_db

PAGE: Final = at("fees")
OF_BIRCH: Final = at("fee", "Birch", "A2")
TOLD: Final = {"what": "paid", "amount": "12,50", "day": "2026-09-20", "why": ""}
WRITTEN: Final = f"{HEAD}2026-09-20,Birch,A2,paid,12.50,\n".encode()
OWES: Final = "owes 20 for game A2 (H 10.5), and its captain may not play until it is settled."


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path, **FILES)


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def version() -> str:
    return f"{Season.objects.get().version}"


def settle(kim: Client, address: str = OF_BIRCH, **told: str) -> Any:
    return kim.post(address, {**TOLD, "version": version(), **told})


def test_the_fees_stand_by_team_with_game_reason_and_what_is_left(kim: Client) -> None:
    page = words(kim.get(PAGE))
    assert "A forfeit costs a fee of <strong>20 in local currency</strong>" in page
    assert (
        "Game A2, Birch v Ash, Thursday 17 September</bdi></strong>: 20 due, 20 left." in page
    )
    assert "For a forfeit by ruling 1 (H 3.5). Birch came half an hour late." in page
    assert f'href="{OF_BIRCH}">Settle it' in page
    assert "<b>60</b> <span>left to pay</span>" in page


def test_a_part_is_written_down_and_told_and_the_rest_is_offered(
    desk: DeskSeason, kim: Client
) -> None:
    answer = settle(kim)
    assert (answer.url, said(answer)) == (
        PAGE,
        "Birch: 12.50 paid for game A2; 7.50 is left. To undo it: Season, Changes.",
    )
    assert desk.texts()["fees.csv"] == WRITTEN
    assert "20 due, 12.50 paid, 7.50 left." in words(kim.get(PAGE))
    offered = kim.get(OF_BIRCH).context["form"]
    assert offered["amount"].value() == "7.50"
    assert said(settle(kim, what="waived", amount="7.5", why="first time")) == (
        "Birch: 7.50 waived for game A2; nothing is left. To undo it: Season, Changes."
    )
    page = words(kim.get(OF_BIRCH))
    assert "20 due, 12.50 paid, 7.50 waived, nothing left." in page
    assert "<form" in page
    assert "Write it down" not in page


def test_the_day_offered_is_today_where_the_fields_are(kim: Client) -> None:
    offered = kim.get(OF_BIRCH).context["form"]["day"].value()
    assert isinstance(offered, date)


@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({"what": "lent"}, "what", "Select a valid choice. lent is not one of the available"),
        ({"amount": ""}, "amount", "There is no amount yet. Write it as 12.50."),
        ({"amount": "0.00"}, "amount", "It is 0. Write what was paid or waived."),
        ({"amount": "1,000"}, "amount", "This is no amount. Write it as 12.50."),
        ({"amount": "-5"}, "amount", "This is no amount. Write it as 12.50."),
        ({"amount": "20.01"}, "amount", "20.01 is more than the 20 that Birch has left to pay"),
        ({"day": ""}, "day", "There is no day yet. Choose one."),
        ({"day": "2026-09-31"}, "day", "This is no day of the calendar."),
        ({"day": "2029-09-30"}, "day", "2029-09-30"),
        ({"what": "waived"}, "why", "A fee is waived for a reason. Write it here."),
    ],
)
def test_what_cannot_be_is_told_beside_its_field_and_what_was_typed_stays(
    desk: DeskSeason, kim: Client, changed: dict[str, str], field: str, says: str
) -> None:
    answer = settle(kim, **changed)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    form = answer.context["form"]
    assert list(form.errors) == [field]
    assert says in form.errors[field][0]
    assert form["amount"].value() == {**TOLD, **changed}["amount"]
    assert "fees.csv" not in desk.texts()


def test_the_whole_fee_is_taken_at_once(desk: DeskSeason, kim: Client) -> None:
    assert settle(kim, amount="20").status_code == HTTPStatus.FOUND
    assert desk.texts()["fees.csv"] == WRITTEN.replace(b"12.50", b"20")


def test_who_looked_at_older_fees_writes_nothing_and_loses_nothing_typed(
    desk: DeskSeason, kim: Client
) -> None:
    stale = version()
    settle(kim)
    answer = settle(kim, version=stale, amount="3")
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    form = answer.context["form"]
    assert "It was changed while you worked on it." in form.errors["__all__"][0]
    assert (form["amount"].value(), answer.context["version"]) == ("3", version())
    assert desk.texts()["fees.csv"] == WRITTEN
    assert settle(kim, version=answer.context["version"], amount="3").url == PAGE


def test_a_wrong_entry_is_taken_out_and_both_changes_can_be_undone(
    desk: DeskSeason, kim: Client
) -> None:
    settle(kim)
    drop: Any = kim.post(at("drop_fee"), {"row": "2", "version": version()})
    assert (drop.url, said(drop)) == (PAGE, "It is taken out. To undo it: Season, Changes.")
    assert desk.texts()["fees.csv"] == HEAD.encode()
    change = Change.objects.order_by("-version")[0]
    assert "The list of fees" in words(kim.get(at("history")))
    kim.post(at("undo"), {"change": f"{change.pk}"})
    assert desk.texts()["fees.csv"] == WRITTEN


def test_an_entry_is_not_taken_out_by_who_looked_at_an_older_list(
    desk: DeskSeason, kim: Client
) -> None:
    settle(kim)
    stale = version()
    settle(kim, amount="1")
    answer = kim.post(at("drop_fee"), {"row": "2", "version": stale})
    assert answer.status_code == HTTPStatus.CONFLICT
    assert desk.texts()["fees.csv"].startswith(WRITTEN)


def test_a_fee_that_is_due_no_more_takes_no_payment_and_what_was_paid_can_go(
    desk: DeskSeason, kim: Client
) -> None:
    settle(kim)
    rulings = desk.texts()["rulings.csv"]
    stands = b"2,2026-09-21,A2,annulled,,H 3.5,The field was closed.\n"
    written_by(desk.season).write({"rulings.csv": rulings + stands})
    assert kim.get(OF_BIRCH).status_code == HTTPStatus.NOT_FOUND
    answer = settle(kim)
    assert answer.status_code == HTTPStatus.CONFLICT
    assert "Game A2 costs Birch nothing." in words(answer)
    page = words(kim.get(PAGE))
    assert "Settled where nothing is due" in page
    assert "12.50 paid on Sunday 20 September." in page
    kim.post(at("drop_fee"), {"row": "2", "version": version()})
    assert "Settled where nothing is due" not in words(kim.get(PAGE))


def test_a_rulebook_without_a_fee_says_so_and_leads_to_the_article(tmp_path: Path) -> None:
    page = words(a_desk(tmp_path).people["coordinator"].get(PAGE))
    assert "The rulebook has no fee for a forfeit: nothing is due." in page
    assert f'href="{at("article", "forfeit.fee")}">To the article' in page


def test_a_season_without_a_forfeit_says_that_nothing_is_due(tmp_path: Path) -> None:
    page = words(a_desk(tmp_path, rules=FILES["rules"]).people["coordinator"].get(PAGE))
    assert "No team has forfeited a game: nothing is due." in page
    assert f'href="{at("results")}">To the results' in page


def test_wherever_a_captain_waits_for_a_fee_a_link_leads_to_the_fees(kim: Client) -> None:
    link = f'href="{PAGE}"'
    today = words(kim.get(at("today"), {"day": "2026-09-22"}))
    assert OWES in today.replace("<bdi>", "").replace("</bdi>", "")
    assert "3 teams with something left to pay" in today
    for name in ("clearances", "suspensions"):
        page = words(kim.get(at(name)))
        assert "Rangi Farrowby</bdi>, captain of <bdi>Birch</bdi></strong>" in page
        assert "The captain of <bdi>Ash</bdi></strong>" in page
        assert (OWES in page, link in page) == (True, True)
    for page in (today, words(kim.get(at("season"))), words(kim.get(at("doubts")))):
        assert link in page


def test_the_team_s_page_leads_to_the_fees_for_the_coordinator_alone(
    desk: DeskSeason, kim: Client
) -> None:
    """A game is to come, whichever day it is."""
    soon = days_from(date.today(), 1)  # noqa: DTZ011 - a day after any zone's day will do
    texts = desk.texts()
    season = re.sub(rb"last_day = .*", f"last_day = {soon}".encode(), texts["season.toml"])
    game = f"A9,9,{soon},19:00,Field 1,Ash,Birch\n".encode()
    captain = texts["rosters.csv"].replace(b"Noor Zephirou,,", b"Noor Zephirou,yes,")
    written_by(desk.season).write(
        {
            "season.toml": season,
            "timetable.csv": texts["timetable.csv"] + game,
            "rosters.csv": captain,
        }
    )
    page = words(kim.get(at("team", "Ash")))
    theirs = words(desk.people["captain"].get(at("team", "Ash")))
    assert "Is the captain of a team that owes a fee." in page
    assert f'href="{PAGE}">To the fees' in page
    assert "See the coordinator." in theirs
    assert "fee" not in theirs.split("<main", 1)[1].lower()


def test_who_has_settled_all_waits_no_more(kim: Client) -> None:
    assert "captain of <bdi>Birch" in words(kim.get(at("clearances")))
    settle(kim, amount="20")
    page = words(kim.get(at("clearances")))
    assert ("captain of <bdi>Birch" in page, "captain of <bdi>Ash" in page) == (False, True)
