"""The night on which a stopped game goes on, at the desk: its crew is named there and leads on."""

from datetime import date
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.test import Client

from cases.answers import said, words
from cases.desk_season import DeskSeason, a_desk, at, days_from, member
from cases.paper_season import author
from cases.stopped_game import STOPPED
from cases.stored import written_by
from wholeball.kernel.identity import GameId
from wholeball.store.models import Change, Season
from wholeball.usecases.enter_game import enter_card, game_to_enter

pytestmark = pytest.mark.django_db
SUNDAY: Final = "2026-09-20"
THURSDAY: Final = "2026-09-17"
CREWS: Final = at("crews", SUNDAY)


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    """A season in which C1 was stopped on Wednesday."""
    made = a_desk(tmp_path)
    enter_card(game_to_enter(written_by(made.season), GameId("C1")), STOPPED, by=author(1))
    return made


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def version() -> str:
    return f"{Season.objects.get().version}"


def keep(kim: Client, night: str = SUNDAY, **posts: str) -> Any:
    told = {name.replace("_", "-"): value for name, value in posts.items()}
    return kim.post(at("crews", night), {"version": version(), **told})


def rows(desk: DeskSeason) -> list[str]:
    return desk.texts()["crews.csv"].decode().splitlines()


def test_the_page_of_a_stopped_game_leads_to_the_crews_of_the_night_it_goes_on(
    kim: Client,
) -> None:
    page = words(kim.get(at("game", "C1")))
    assert "It goes on another night" in page
    assert f'action="{at("goes_on", "C1")}"' in page
    answer: Any = kim.get(at("goes_on", "C1"), {"day": SUNDAY})
    assert (answer.status_code, answer.url) == (HTTPStatus.FOUND, CREWS)
    shown = words(kim.get(CREWS))
    assert "It was stopped; its last night known of is Wednesday 16 September." in shown
    assert "No game is listed for this night" in shown


@pytest.mark.parametrize(
    ("game", "day"),
    [("C1", ""), ("C1", "2026-09-31"), ("C1", "2026-09-16"), ("C1", "soon"), ("A1", SUNDAY)],
)
def test_a_day_on_which_a_game_cannot_go_on_leads_back_and_says_so(
    kim: Client, game: str, day: str
) -> None:
    answer: Any = kim.get(at("goes_on", game), {"day": day})
    assert (answer.url, said(answer)) == (
        at("game", game),
        f"Game {game} does not go on that day. Choose a day after the one it was stopped.",
    )


def test_a_game_that_was_not_stopped_offers_no_other_night(kim: Client) -> None:
    assert "It goes on another night" not in words(kim.get(at("game", "A1")))


def test_only_the_coordinator_is_offered_a_night_for_the_rest(desk: DeskSeason) -> None:
    theirs = member(desk.season, "scorekeeper", person="Di Lund").get(at("game", "C1"))
    assert "It goes on another night" not in words(theirs)


def test_a_crew_of_a_later_night_is_kept_and_shown_on_its_night(
    desk: DeskSeason, kim: Client
) -> None:
    before = rows(desk)
    answer = keep(kim, later_C1_0="Ada Quill")
    assert (answer.url, said(answer)) == (
        at("night", SUNDAY),
        "The crews are kept. To undo it: Season, Changes.",
    )
    assert rows(desk) == [
        "game,role,official,day",
        *(f"{one}," for one in before[1:]),
        f"C1,referee,Ada Quill,{SUNDAY}",
    ]
    page = words(kim.get(at("night", SUNDAY)))
    assert "1 game that was stopped goes on." in page
    assert "its night before was Wednesday 16 September" in page
    assert "referee: <bdi>Ada Quill</bdi>; scorekeeper: <strong>missing</strong>" in page
    assert f'href="{CREWS}"' in page
    assert "packet" not in page
    assert "1 game, 1 that goes on" in words(kim.get(at("nights")))


def test_the_page_of_an_official_leads_to_the_crew_of_a_later_night_to_come(
    kim: Client,
) -> None:
    soon = days_from(date.today(), 2)  # noqa: DTZ011 - a day after any zone's day will do
    keep(kim, soon, later_C1_0="Ada Quill")
    page = words(kim.get(at("official", "Ada Quill")))
    assert "referee of the rest of game <bdi>C1</bdi>" in page
    assert f'href="{at("crews", soon)}">Change the crews' in page


def test_the_first_crew_is_changed_without_that_of_the_later_night(
    desk: DeskSeason, kim: Client
) -> None:
    keep(kim, later_C1_0="Ada Quill")
    keep(kim, "2026-09-16", post_1_0="Bo Tarn")
    assert [one for one in rows(desk) if one.startswith("C1")] == [
        f"C1,referee,Ada Quill,{SUNDAY}",
        "C1,referee,Bo Tarn,",
    ]


def test_the_later_crew_is_taken_out_and_undone_among_the_changes(
    desk: DeskSeason, kim: Client
) -> None:
    keep(kim, later_C1_0="Ada Quill")
    named = rows(desk)
    answer = keep(kim)
    assert answer.url == at("nights")
    assert kim.get(at("night", SUNDAY)).status_code == HTTPStatus.NOT_FOUND
    change = Change.objects.order_by("-version")[0]
    kim.post(at("undo"), {"change": f"{change.pk}"})
    assert rows(desk) == named


def test_on_a_night_with_games_both_stand_on_one_page(desk: DeskSeason, kim: Client) -> None:
    answer = keep(kim, THURSDAY, post_1_0="Cy Imbray", later_C1_1="Di Lund")
    assert answer.url == at("night", THURSDAY)
    assert [one for one in rows(desk) if THURSDAY in one] == [
        f"C1,scorekeeper,Di Lund,{THURSDAY}"
    ]
    page = words(kim.get(at("night", THURSDAY)))
    assert ("2 games from 19:00." in page, "1 game that was stopped goes on." in page) == (
        True,
        True,
    )


def test_somebody_with_two_roles_is_told_and_what_was_chosen_stays(
    desk: DeskSeason, kim: Client
) -> None:
    before = rows(desk)
    answer = keep(kim, later_C1_0="Ada Quill", later_C1_1="Ada Quill")
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert words(answer).count('<option value="Ada Quill" selected>') == 2
    assert rows(desk) == before


def test_who_chose_upon_older_crews_is_told_and_chooses_no_more_than_once(
    desk: DeskSeason, kim: Client
) -> None:
    stale = version()
    keep(kim, later_C1_0="Ada Quill")
    kept = rows(desk)
    told = {"version": stale, "later-C1-0": "Bo Tarn", "later-C1-1": "Di Lund"}
    answer: Any = kim.post(CREWS, told)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    page = words(answer)
    assert "It was changed while you worked on it." in page
    assert ('"Bo Tarn" selected' in page, '"Di Lund" selected' in page) == (True, True)
    assert rows(desk) == kept
    assert keep(kim, later_C1_0="Bo Tarn", later_C1_1="Di Lund").url == at("night", SUNDAY)


def test_a_post_that_was_emptied_stays_empty_where_another_is_refused(kim: Client) -> None:
    keep(kim, THURSDAY, post_1_0="Cy Imbray", post_2_0="Ada Quill")
    answer = keep(kim, THURSDAY, post_1_0="", post_2_0="Bo Tarn", post_2_1="Bo Tarn")
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert 'Cy Imbray" selected' not in words(answer)


def test_another_game_that_is_stopped_meanwhile_takes_no_crew_of_the_first(
    desk: DeskSeason, kim: Client
) -> None:
    seen = version()
    enter_card(game_to_enter(written_by(desk.season), GameId("A2")), STOPPED, by=author(2))
    kim.post(CREWS, {"version": seen, "later-C1-0": "Ada Quill"})
    assert [one for one in rows(desk) if SUNDAY in one] == [f"C1,referee,Ada Quill,{SUNDAY}"]


def test_whoever_works_the_later_night_sees_it_among_their_nights(
    desk: DeskSeason, kim: Client
) -> None:
    keep(kim, later_C1_0="Ada Quill")
    client = desk.people["official"]
    assert f'href="{at("night", SUNDAY)}"' in words(client.get(at("nights")))
    assert client.get(at("game", "C1")).status_code == HTTPStatus.OK
    page = words(client.get(at("night", SUNDAY)))
    assert "Name the crews" not in page
    stranger = desk.people["scorekeeper"]
    assert stranger.get(at("night", SUNDAY)).status_code == HTTPStatus.NOT_FOUND


def test_today_leads_to_the_game_that_waits_and_then_to_its_night(kim: Client) -> None:
    page = words(kim.get(at("today"), {"day": "2026-09-18"}))
    assert f'href="{at("game", "C1")}">Name the night' in page
    keep(kim, later_C1_0="Ada Quill")
    page = words(kim.get(at("today"), {"day": SUNDAY}))
    assert "1 game that was stopped goes on." in page
    assert "No game today." not in page
    assert f'href="{CREWS}">See the night' in page
