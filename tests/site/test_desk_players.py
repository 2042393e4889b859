"""One player is added, corrected and taken out by hand, and what games recorded stays theirs."""

from html import unescape
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.contrib.messages import get_messages
from django.test import Client

from cases.desk_season import CREW, DeskSeason, a_desk, at, member
from cases.people_season import RULES
from cases.stored import NOW, written_by
from wholeball.files.folder import read_folder
from wholeball.files.student_ids import IdKey
from wholeball.kernel.identity import TeamId
from wholeball.league.player import Player
from wholeball.store.models import AuditRow, Change, Invitation, Membership, Season
from wholeball.store.snapshot import snapshot_of

pytestmark = pytest.mark.django_db
ID: Final = "20261234"
KEY: Final = "a key that these tests alone have"


@pytest.fixture(autouse=True)
def _key(settings: Any) -> None:
    settings.ID_KEY = KEY


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    """A season in which game A1 of Ash and Birch is recorded: 4 and 7 of Ash appeared."""
    return a_desk(tmp_path)


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def version() -> str:
    return f"{Season.objects.get().version}"


def roster(team: str) -> list[Player]:
    return list(read_folder(snapshot_of(Season.objects.get())).rosters.get(TeamId(team), ()))


def add(client: Client, team: str = "Ash", **sent: str) -> Any:
    told = {"student_id": ID, "name": "Ida Brackwell", "number": "51", "version": version()}
    return client.post(at("add_player", team), {**told, **sent})


def correct(client: Client, team: str, place: int, was: str, **sent: str) -> Any:
    told = {"name": was, "number": "", "was": was, "version": version()}
    return client.post(at("player", team, place), {**told, **sent})


def drop(client: Client, team: str, place: int, was: str) -> Any:
    return client.post(at("drop_player", team, place), {"was": was, "version": version()})


def said(answer: Any) -> list[str]:
    return [str(one) for one in get_messages(answer.wsgi_request)]


def errors(answer: Any) -> dict[str, list[str]]:
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    return dict(answer.context["form"].errors)


def undo(kim: Client) -> None:
    last = Change.objects.filter(name="rosters.csv").order_by("-pk")[0]
    answer = kim.post(at("undo"), {"change": f"{last.pk}"})
    assert answer.status_code == HTTPStatus.FOUND


def test_one_player_is_added_and_of_the_id_only_a_code_and_its_end_are_kept(
    desk: DeskSeason, kim: Client
) -> None:
    had = roster("Ash")
    answer = add(kim, captain="on")
    told = "Ida Brackwell is on the roster of Ash. To undo it: Season, Changes."
    assert told in said(answer)
    *before, new = roster("Ash")
    assert before == had
    assert (new.name, new.number, new.is_captain) == ("Ida Brackwell", 51, True)
    assert (new.person, new.id_end) == (IdKey(KEY.encode()).code_of(ID), "234")
    assert new.added is not None
    kept = b"".join(desk.texts().values())
    assert ID.encode() not in kept
    assert not any(ID in f"{one.what}{one.did}" for one in AuditRow.objects.all())
    undo(kim)
    assert roster("Ash") == had


def test_a_refused_form_keeps_what_was_typed_but_for_the_student_id(kim: Client) -> None:
    answer = add(kim, number="7")
    assert errors(answer) == {
        "number": [
            (
                "Number 7 of Ash stands on the roster already. Give another number, or leave it "
                "empty."
            )
        ]
    }
    shown = unescape(answer.content.decode())
    assert 'value="Ida Brackwell"' in shown
    assert ID not in shown


@pytest.mark.parametrize("typed", ["", "1.2E+07", "x" * 41, "no id!"])
def test_what_is_no_student_id_is_refused_at_its_field_and_not_repeated(
    kim: Client, typed: str
) -> None:
    answer = add(kim, student_id=typed)
    assert list(errors(answer)) == ["student_id"]
    assert not typed or typed not in unescape(answer.content.decode())


def test_an_id_that_stands_on_the_roster_is_refused(kim: Client) -> None:
    add(kim)
    answer = add(kim, name="Ida B.", number="52")
    assert errors(answer) == {
        "student_id": ["This id is on the roster of Ash already. Correct that player instead."]
    }


def test_one_who_is_on_as_many_rosters_as_the_rulebook_allows_is_refused(kim: Client) -> None:
    add(kim)
    (told,) = errors(add(kim, "Elder"))["student_id"]
    assert '"Ida Brackwell" is on the roster of Ash (since ' in told
    assert "Take the person off the other roster first." in told


def test_the_last_free_place_is_taken_and_the_one_after_it_refused(tmp_path: Path) -> None:
    full = RULES.replace('ref = "H 3.1"\n', 'ref = "H 3.1"\nmaximum = 12\n', 1) + CREW
    eleven = "".join(f"Ash,{number},Player {number},p-{number}\n" for number in range(1, 12))
    rosters = f"team,number,name,person\n{eleven}"
    kim = a_desk(tmp_path, rules=full, rosters=rosters).people["coordinator"]
    assert add(kim).status_code == HTTPStatus.FOUND
    answer = add(kim, student_id="20261235", name="Wil Sandry", number="52")
    assert errors(answer)["student_id"] == [
        (
            "Ash would have 13 players; its roster is full with 12. The rulebook allows 12 (H 3.1); "
            "take some off."
        )
    ]
    assert len(roster("Ash")) == 12


def test_name_number_and_captain_are_corrected_and_the_captain_before_is_it_no_more(
    kim: Client,
) -> None:
    correct(kim, "Elder", 1, "Ondine Havenko", number="14", captain="on")
    answer = correct(
        kim, "Elder", 2, "Tadeo Merrowby", name="Tadéo Merrowby", number="17", captain="on"
    )
    assert said(answer)[-1] == (
        "Tadéo Merrowby is corrected. Ondine Havenko is captain no more."
        " To undo it: Season, Changes."
    )
    assert [(one.name, one.number, one.is_captain, one.person) for one in roster("Elder")] == [
        ("Ondine Havenko", 14, False, "k-ondine"),
        ("Tadéo Merrowby", 17, True, "k-tadeo"),
    ]
    undo(kim)
    assert [(one.name, one.number, one.is_captain) for one in roster("Elder")] == [
        ("Ondine Havenko", 14, True),
        ("Tadeo Merrowby", 16, False),
    ]


def test_a_number_that_another_wears_is_refused_at_its_field(kim: Client) -> None:
    answer = correct(kim, "Elder", 2, "Tadeo Merrowby", number="14")
    assert errors(answer) == {
        "number": [
            "Ondine Havenko wears number 14 already. Give another number, or leave it empty."
        ]
    }
    assert 'value="14"' in answer.content.decode()


def test_a_name_with_a_long_number_is_refused_at_its_field(kim: Client) -> None:
    answer = correct(kim, "Elder", 2, "Tadeo Merrowby", name="Tadeo 20261234", number="16")
    assert list(errors(answer)) == ["name"]


def test_who_is_known_by_name_alone_is_called_so_everywhere_and_keeps_the_sign_in(
    desk: DeskSeason, kim: Client
) -> None:
    old, new = "Dogwood: Bodil Lindqvar", "Dogwood: Bodil Lindqvist"
    written_by(desk.season).write(
        {"people.csv": f"person,shown\n{old.upper()},full\n".encode()}
    )
    member(desk.season, "player", team="Dogwood", person=old)
    Invitation.objects.create(
        organisation=desk.season.organisation,
        role="player",
        season=desk.season,
        team="Dogwood",
        person=old,
        digest="i",
        expires_at=NOW,
    )
    answer = correct(kim, "Dogwood", 1, "Bodil Lindqvar", name="Bodil Lindqvist")
    assert (
        said(answer)[-1] == "Bodil Lindqvist is corrected. To undo it: correct the name back."
    )
    assert desk.texts()["people.csv"] == f"person,shown\n{new},full\n".encode()
    assert Membership.objects.filter(person=new).count() == 1
    assert Invitation.objects.filter(person=new).count() == 1


def test_a_number_by_which_a_game_knows_somebody_stays(kim: Client) -> None:
    before = roster("Ash")
    answer = correct(kim, "Ash", 2, "Umaru Kealohana", number="8")
    assert "What was recorded of game A1 knows Umaru Kealohana" in errors(answer)["__all__"][0]
    assert roster("Ash") == before


def test_a_name_of_somebody_with_a_code_is_corrected_after_a_game(kim: Client) -> None:
    correct(kim, "Ash", 2, "Umaru Kealohana", name="Umaru Kealoha", number="7")
    assert roster("Ash")[1].name == "Umaru Kealoha"


def test_who_appeared_is_not_taken_out_and_the_page_says_so_with_the_cure(kim: Client) -> None:
    before = roster("Ash")
    page = kim.get(at("player", "Ash", 2)).content.decode()
    assert "is recorded in game <bdi>A1</bdi>" in page
    assert at("drop_player", "Ash", 2) not in page
    answer = drop(kim, "Ash", 2, "Umaru Kealohana")
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert answer.context["refused"].code == "recorded"
    assert roster("Ash") == before


def test_who_never_appeared_is_taken_out_and_put_back(kim: Client) -> None:
    before = roster("Elder")
    answer = drop(kim, "Elder", 2, "Tadeo Merrowby")
    assert said(answer)[-1] == "Tadeo Merrowby is off the roster. To undo it: Season, Changes."
    assert roster("Elder") == before[:1]
    undo(kim)
    assert roster("Elder") == before


def test_who_is_named_elsewhere_by_team_and_name_stays_and_a_captain_is_not_told_where(
    desk: DeskSeason, kim: Client
) -> None:
    blocked = "person,since\nElder: Tadeo Merrowby,2026-09-01\n"
    written_by(desk.season).write({"not_cleared.csv": blocked.encode()})
    told = drop(kim, "Elder", 2, "Tadeo Merrowby").context["refused"]
    assert "not_cleared.csv" in told.says
    captain = member(desk.season, "captain", team="Elder", person="k-ondine")
    answer = drop(captain, "Elder", 2, "Tadeo Merrowby")
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    told = answer.context["refused"]
    assert told.says == "Something is kept of Tadeo Merrowby by team and name."
    assert told.fix == "Nothing was changed. See the coordinator."


def test_a_player_who_moved_on_the_roster_meanwhile_is_not_mixed_up(kim: Client) -> None:
    add(kim, "Elder")
    drop(kim, "Elder", 2, "Tadeo Merrowby")
    before = roster("Elder")
    for answer in (
        correct(kim, "Elder", 2, "Tadeo Merrowby", number="18"),
        drop(kim, "Elder", 2, "Tadeo Merrowby"),
    ):
        assert answer.headers["Location"] == at("team", "Elder")
        assert "does not stand there any more" in said(answer)[-1]
    assert roster("Elder") == before


def test_a_stale_form_is_refused_and_keeps_what_was_typed(kim: Client) -> None:
    seen = version()
    correct(kim, "Elder", 2, "Tadeo Merrowby", number="20")
    answer = correct(kim, "Elder", 2, "Tadeo Merrowby", number="21", version=seen)
    assert "__all__" in errors(answer)
    assert 'value="21"' in answer.content.decode()
    assert roster("Elder")[1].number == 20


def test_a_captain_changes_the_own_roster_and_no_other(desk: DeskSeason) -> None:
    captain = desk.people["captain"]
    assert add(captain).status_code == HTTPStatus.FOUND
    assert roster("Ash")[-1].name == "Ida Brackwell"
    for answer in (
        add(captain, "Birch"),
        captain.get(at("player", "Birch", 1)),
        correct(captain, "Birch", 1, "Ondine Havenko", number="99"),
        drop(captain, "Birch", 1, "Ondine Havenko"),
    ):
        assert answer.status_code == HTTPStatus.NOT_FOUND


def test_after_the_lock_a_captain_is_refused_with_the_date_and_the_coordinator_is_not(
    tmp_path: Path,
) -> None:
    locked = (
        RULES.replace('additions_until = "always"', 'additions_until = "second_game"') + CREW
    )
    desk = a_desk(tmp_path, rules=locked)
    captain, kim = desk.people["captain"], desk.people["coordinator"]
    before = roster("Ash")
    page = captain.get(at("team", "Ash")).content.decode()
    assert "was the last day on which captains change a roster" in page
    assert at("add_player", "Ash") not in page
    assert at("player", "Ash", 1) not in page
    for answer in (
        captain.get(at("add_player", "Ash")),
        add(captain),
        correct(captain, "Ash", 1, "Noor Zephirou", number="4", captain="on"),
        drop(captain, "Ash", 1, "Noor Zephirou"),
    ):
        assert answer.status_code == HTTPStatus.CONFLICT
        assert b"Thursday 17 September was the last day" in answer.content
    assert roster("Ash") == before
    assert add(kim).status_code == HTTPStatus.FOUND


def test_the_roster_leads_to_each_player_and_to_one_more(kim: Client) -> None:
    page = kim.get(at("team", "Ash")).content.decode()
    for one in (at("player", "Ash", 1), at("player", "Ash", 2), at("add_player", "Ash")):
        assert f'href="{one}"' in page
        assert kim.get(one).status_code == HTTPStatus.OK
    assert kim.get(at("player", "Ash", 3)).status_code == HTTPStatus.NOT_FOUND
