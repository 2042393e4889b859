"""A report of an incident waits on the coordinator's pages until it is read, and on no others."""

from pathlib import Path

import pytest
from django.test import Client
from django.urls import reverse
from hypothesis import given
from hypothesis import strategies as st

from cases.desk_season import GAME, WHERE, DeskSeason, a_desk, at, member
from cases.kept_texts import KeptTexts
from wholeball.files.incident_reports import IncidentReport, new_report
from wholeball.kernel.identity import GameId
from wholeball.usecases.unread_reports import reading_of, unread_reports

pytestmark = pytest.mark.django_db
NIGHT = "2026-09-15"
WAITS = "report not read"


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path)


def write(desk: DeskSeason, role: str, says: str, game: str = GAME) -> None:
    answer = desk.people[role].post(at("report_incident", game), {"says": says})
    assert answer.status_code == 302


def waiting(client: Client) -> list[tuple[str, str, str]]:
    today = client.get(at("today"), {"day": "2026-09-16"}).context["today"]
    return [
        (str(one.says), one.cure, one.of) for one in today.to_settle if one.where == "reports"
    ]


def places(client: Client) -> dict[str, bool]:
    """Tell on which pages a report is named that waits to be read."""
    pages = {name: (name, NIGHT if name == "night" else GAME) for name in ("night", "certify")}
    return {
        name: WAITS in client.get(at(*address)).content.decode()
        for name, address in pages.items()
    }


def test_a_report_waits_until_the_coordinator_has_opened_the_game(desk: DeskSeason) -> None:
    kim = desk.people["coordinator"]
    assert (waiting(kim), places(kim)) == ([], {"night": False, "certify": False})
    write(desk, "official", "A punch.")
    about = "Tuesday 15 September, game A1, Ash v Birch:"
    assert waiting(kim) == [
        (f"{about} 1 report of an incident you have not read.", "Read it", GAME)
    ]
    assert places(kim) == {"night": True, "certify": True}
    page = kim.get(at("today"), {"day": "2026-09-16"}).content.decode()
    assert f'href="{at("game", GAME)}#reports"' in page
    assert "A punch." not in page
    kim.get(at("game", GAME))
    assert (waiting(kim), places(kim)) == ([], {"night": False, "certify": False})
    write(desk, "scorekeeper", "A kick.")
    write(desk, "official", "One more thing.")
    assert waiting(kim) == [
        (f"{about} 2 reports of an incident you have not read.", "Read them", GAME)
    ]


def test_what_one_coordinator_has_read_waits_for_the_other(desk: DeskSeason) -> None:
    write(desk, "official", "A punch.")
    desk.people["coordinator"].get(at("game", GAME))
    lee = member(desk.season, "coordinator", person="Lee")
    assert len(waiting(lee)) == 1


@pytest.mark.parametrize("role", ["official", "scorekeeper", "supervisor"])
def test_nobody_else_sees_that_a_report_was_written(desk: DeskSeason, role: str) -> None:
    client = desk.people[role]
    addresses = [at("nights"), at("night", NIGHT), at("game", GAME)]
    if role == "supervisor":
        addresses.append(at("certify", GAME))
    write(desk, "official" if role != "official" else "scorekeeper", "A punch.")
    for address in addresses:
        page = client.get(address).content.decode()
        own = role == "supervisor"  # of this season, who has the name of its referee
        assert (WAITS in page, "A punch." in page) == (False, own and address.endswith("/A1/"))


def test_the_audit_is_not_asked_where_no_report_was_written(
    desk: DeskSeason, django_assert_max_num_queries: object
) -> None:
    kim = desk.people["coordinator"]
    waiting(kim)
    with django_assert_max_num_queries(15) as seen:  # type: ignore[operator]
        waiting(kim)
    assert not any("auditrow" in one["sql"] for one in seen.captured_queries)


GAMES = st.dictionaries(st.sampled_from(["A1", "A11", "final 1", "a"]), st.integers(1, 3))


@given(written=GAMES, read=GAMES)
def test_what_is_unread_is_what_was_written_less_what_was_shown(
    written: dict[str, int], read: dict[str, int]
) -> None:
    reports = [
        IncidentReport(game=GameId(game), number=nth, by="Ada", at="then", says="It.")
        for game, many in written.items()
        for nth in range(1, many + 1)
    ]
    record = KeptTexts(place="here", texts=dict(map(new_report, reports)))
    noted = [
        reading_of(some, GameId(game)) for game, many in read.items() for some in range(many)
    ]
    noted += [reading_of(many, GameId(game)) for game, many in read.items()]
    left = {game: many - read.get(game, 0) for game, many in written.items()}
    expected = {game: many for game, many in left.items() if many > 0}
    assert dict(unread_reports(record, noted)) == expected


def says_of_the_night(client: Client) -> str:
    page = client.get(at("night", NIGHT)).content.decode()
    return page.split("A game opens on its own page: ")[1].split("</p>")[0]


def test_the_night_says_what_each_role_can_do_there(desk: DeskSeason) -> None:
    certify = "type in the scorecard there, and certify."
    assert {role: says_of_the_night(desk.people[role]) for role in ROLES} == {
        "coordinator": certify,
        "supervisor": certify,
        "scorekeeper": "type in the scorecard there.",
        "official": "see there what is recorded of it, and write a report of an incident.",
    }


ROLES = ("coordinator", "supervisor", "scorekeeper", "official")


def test_officials_are_led_to_the_games_they_officiate(desk: DeskSeason) -> None:
    own = f"{reverse('noticeboard:own_season', args=WHERE)}#hours"
    for name, more in (("nights", ()), ("night", (NIGHT,))):
        pages = {role: desk.people[role].get(at(name, *more)) for role in ROLES}
        led = [role for role, page in pages.items() if f'href="{own}"' in page.content.decode()]
        assert led == ["official"]
    page = desk.people["official"].get(own.split("#", maxsplit=1)[0]).content.decode()
    assert 'id="hours"' in page
