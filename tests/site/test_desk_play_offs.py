"""The pages on which a coordinator plans the play-offs: the bracket's games, and single ones."""

import re
from html import unescape
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.test import Client

from cases.answers import said
from cases.desk_season import HERE, member, put_season
from cases.planned_season import PLANNING, SLOTS_HEAD
from cases.play_off_season import APART, LEVELS, rulebook, six_teams
from cases.stored import a_season
from wholeball.store.models import Season
from wholeball.store.snapshot import snapshot_of

pytestmark = pytest.mark.django_db

PAGE: Final = f"{HERE}season/play-offs/"
TAKE: Final = f"{PAGE}bracket/"
SLOTS: Final = f"{SLOTS_HEAD}Meadow 1,monday,,,2027-01-25,18:00,21:00,,,\n"
NEW: Final = {"game": "P9", "round": "9", "home": "seed 1", "away": "seed 2"}


class Told:
    """A season at the desk of a coordinator."""

    def __init__(self, folder: Path, **changed: str) -> None:
        season = a_season()
        put_season(season, six_teams(folder, **{"slots_csv": SLOTS, **changed}).path)
        self.client: Client = member(season, "coordinator")

    @property
    def version(self) -> str:
        return f"{Season.objects.get().version}"

    @property
    def planning(self) -> str:
        return snapshot_of(Season.objects.get()).texts["planning.toml"].decode()

    def get(self, address: str = PAGE) -> str:
        page = self.client.get(address)
        assert page.status_code == HTTPStatus.OK
        return words(page)

    def post(self, address: str, **told: str) -> Any:
        return self.client.post(address, {"version": self.version, **told})

    def take(self, *rounds: int) -> Any:
        told = {f"round_{at}": f"{number}" for at, number in enumerate(rounds, start=1)}
        return self.post(TAKE, **told)


def words(page: Any) -> str:
    """Return what people read on a page, on one line."""
    body = page.content.decode().split("<main", 1)[1]
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]*>", " ", body)))


@pytest.fixture
def desk(tmp_path: Path) -> Told:
    return Told(tmp_path / "season")


def test_an_empty_page_leads_to_the_games_of_the_bracket(desk: Told) -> None:
    page = desk.get()
    assert "6 of 6 teams go on. Seeds 1 and 2 have nobody to meet in the first round." in page
    assert "None yet. Take the bracket's games above, or add single ones below." in page
    assert f'href="{TAKE}"' in desk.client.get(PAGE).content.decode()


def test_what_comes_is_shown_before_it_is_kept(desk: Told) -> None:
    page = desk.get(TAKE)
    assert "Nothing is written yet." in page
    assert "P3 : Seed 1 – winner of P1" in page  # noqa: RUF001
    assert "the league has 5 rounds. Those of the play-offs come after it." in page
    form = desk.client.get(TAKE).context["form"]
    assert [(one.label, one.initial) for one in form] == [
        ("1st round of the play-offs: P1 and P2", 6),
        ("2nd round of the play-offs: P3 and P4", 7),
        ("3rd round of the play-offs: P5", 8),
    ]
    assert desk.planning == PLANNING


def test_the_games_are_taken_in_one_step_stand_under_changes_and_are_taken_back(
    desk: Told,
) -> None:
    answer = desk.take(6, 7, 9)
    assert said(answer) == "The plan has 5 play-off games. To undo it: Season, Changes."
    assert desk.planning.startswith(PLANNING)
    page = desk.get()
    assert "The plan has just these games." in page
    assert "Round 9 no place yet P5 , final: Winner of P3 – winner of P4" in page  # noqa: RUF001
    assert "0 of 12 places are as long." in page
    assert "5 games have no place yet, and 0 places are long enough: 5 too few." in page
    assert (
        f'href="{HERE}season/times/?minutes=72#add"' in desk.client.get(PAGE).content.decode()
    )
    change = re.search(
        r'name="change" value="(\d+)"', desk.client.get(f"{HERE}changes/").content.decode()
    )
    assert change is not None
    desk.client.post(f"{HERE}changes/undo/", {"change": change[1]})
    assert desk.planning == PLANNING


@pytest.mark.parametrize(
    ("rounds", "faulty"),
    [
        (("6", "6", "7"), {"round_2": "It is not after 6. Write a later round."}),
        (
            ("", "0", "100"),
            {
                "round_1": "There is no number yet. Write a whole number from 1 to 99.",
                "round_2": "It is less than 1. Write a whole number from 1 to 99.",
                "round_3": "It is more than 99. Write a whole number from 1 to 99.",
            },
        ),
        (
            ("six", "7", "8"),
            {"round_1": "This is no whole number. Write a whole number from 1 to 99."},
        ),
    ],
)
def test_rounds_that_cannot_be_are_told_at_their_fields_and_stay_typed(
    desk: Told, rounds: tuple[str, ...], faulty: dict[str, str]
) -> None:
    told = {f"round_{at}": number for at, number in enumerate(rounds, start=1)}
    answer = desk.post(TAKE, **told)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    form = answer.context["form"]
    assert {name: form.errors[name][0] for name in form.errors} == faulty
    assert [one.value() for one in form] == [*rounds]
    assert desk.planning == PLANNING


def test_where_nobody_plays_off_the_page_says_so_and_leads_to_the_article(
    tmp_path: Path,
) -> None:
    desk = Told(tmp_path / "season", rulebook_toml=rulebook("none"))
    assert "The rulebook has no play-offs: nobody goes on after the league." in desk.get()
    assert (
        f'href="{HERE}rulebook/articles/play_offs/"' in desk.client.get(PAGE).content.decode()
    )
    assert "There is no bracket to take games of." in desk.get(TAKE)
    answer = desk.post(TAKE)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert desk.planning == PLANNING


def test_without_teams_the_page_leads_to_them(tmp_path: Path) -> None:
    desk = Told(tmp_path / "season", teams_csv="team,pool\n")
    assert "No team is in this season yet, so nobody can go on." in desk.get()


def test_brackets_of_divisions_are_taken_together_and_stand_apart(tmp_path: Path) -> None:
    desk = Told(tmp_path / "season", teams_csv=APART, divisions_csv=LEVELS)
    assert "Open: 3 of 3 teams go on." in desk.get().replace(" :", ":")
    desk.take(6, 7)
    page = desk.get()
    assert "Open Round 6 no place yet P1.1 : Seed 2 – Seed 3" in page  # noqa: RUF001
    assert "Mixed Round 6 no place yet P2.1 : Seed 2 – Seed 3" in page  # noqa: RUF001
    assert 'home = "seed 2 of Open"' in desk.planning
    best = {"game": "Best", "round": "9", "home": "winner of P1.2", "away": "winner of P2.2"}
    desk.post(f"{PAGE}add/", **best)
    assert "Others Round 9 no place yet Best : Winner of P1.2 – winner of P2.2" in desk.get()  # noqa: RUF001
    hint = desk.client.get(PAGE).context["form"].fields["home"].help_text
    assert hint == "A seed names its division: seed 1 of Open, winner of P1 or loser of P1."


def test_a_game_is_added_changed_and_taken_out_by_hand(desk: Told) -> None:
    answer = desk.post(f"{PAGE}add/", **NEW)
    assert said(answer) == "Game P9 is added. To undo it: Season, Changes."
    assert "The bracket has no such game." in desk.get()
    page = desk.client.get(f"{PAGE}change/P9/")
    assert [one.value() for one in page.context["form"]] == ["P9", 9, "seed 1", "seed 2"]
    changed = desk.post(f"{PAGE}change/P9/", **{**NEW, "game": "P7", "home": "Seed 3"})
    assert said(changed) == (
        "P7: it was P9, wherever it is named. To undo it: Season, Changes."
    )
    assert 'game = "P7"\nround = 9\nhome = "seed 3"\naway = "seed 2"\n' in desk.planning
    gone = desk.post(f"{PAGE}take-out/", game="P7")
    assert said(gone) == "Game P7 is taken out. To undo it: Season, Changes."
    assert desk.planning.strip() == PLANNING.strip()
    assert desk.client.get(f"{PAGE}change/P7/").status_code == HTTPStatus.NOT_FOUND


@pytest.mark.parametrize(
    ("told", "faulty"),
    [
        (
            {"game": "", "round": "", "home": "", "away": ""},
            {
                "game": "There is no name yet. Write one, such as P1.",
                "round": "There is no number yet. Write a whole number from 1 to 99.",
                "home": "There is no side yet. Write seed 1, winner of P1 or loser of P1.",
                "away": "There is no side yet. Write seed 1, winner of P1 or loser of P1.",
            },
        ),
        (
            {"home": "the best", "away": "seed 0"},
            {
                "home": "“the best” is no side. Write seed 1, winner of P1 or loser of P1.",
                "away": "“seed 0” is no side. Write seed 1, winner of P1 or loser of P1.",
            },
        ),
        (
            {"game": "P1", "home": "winner of P8", "away": "seed 4"},
            {
                "game": "Game P1 stands twice among the play-offs. Take one out.",
                "home": "Winner of P8 is a side of P1, and there is no such game before it. "
                "Use one of: P1, P2, P4. Earlier games come first.",
                "away": "Seed 4 plays in P1 and in P1. A side plays one game; mend one of them.",
            },
        ),
        (
            {"away": "loser of P9"},
            {"away": "P9 would bring itself a side. Name an earlier game."},
        ),
        (
            {"game": "P/9"},
            {
                "game": "The game 'P/9' cannot name a file. Name games by letters of A to Z, "
                "digits, spaces, and the signs . _ -"
            },
        ),
    ],
)
@pytest.mark.parametrize("at", ["add/", "change/P5/"])
def test_what_cannot_be_is_told_beside_its_field_and_nothing_is_kept(
    desk: Told, told: dict[str, str], faulty: dict[str, str], at: str
) -> None:
    desk.take(6, 7, 8)
    before = desk.planning
    new = {"game": "P9", "round": "9", "home": "seed 7", "away": "seed 8", **told}
    answer = desk.post(f"{PAGE}{at}", **new)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    form = answer.context["form"]
    assert {name: form.errors[name][0] for name in form.errors} == faulty
    assert {name: form[name].value() for name in new} == new
    assert desk.planning == before


def test_a_game_that_others_wait_for_is_not_taken_out(desk: Told) -> None:
    desk.take(6, 7, 8)
    answer = desk.post(f"{PAGE}take-out/", game="P1")
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert "P3 waits for P1. Nothing was changed." in words(answer)


def test_who_looked_at_older_play_offs_is_told_and_loses_nothing(desk: Told) -> None:
    old = desk.version
    desk.take(6, 7, 8)
    now = desk.planning
    new = {**NEW, "home": "seed 7", "away": "seed 8"}
    for address, told in (
        (f"{PAGE}add/", new),
        (f"{PAGE}change/P5/", new),
        (TAKE, {"round_1": "10", "round_2": "11", "round_3": "12"}),
    ):
        answer = desk.client.post(address, {**told, "version": old})
        assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
        assert "It was changed while you worked on it." in words(answer)
        form = answer.context["form"]
        assert {name: form[name].value() for name in told} == told
        assert answer.context["version"] == desk.version
    dropped = desk.client.post(f"{PAGE}take-out/", {"game": "P5", "version": old})
    assert dropped.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert desk.planning == now


def test_a_form_with_other_fields_is_refused(desk: Told) -> None:
    assert desk.post(TAKE, round_7="1").status_code == HTTPStatus.BAD_REQUEST
    assert (
        desk.post(f"{PAGE}add/", **NEW, stage="play_off").status_code == HTTPStatus.BAD_REQUEST
    )
    assert desk.client.get(f"{PAGE}?page=2").status_code == HTTPStatus.BAD_REQUEST


def test_the_page_is_found_where_a_coordinator_looks_for_it(desk: Told) -> None:
    for page in ("season/", "season/times/", "season/rules/", "bracket/"):
        assert f'href="{PAGE}"' in desk.client.get(f"{HERE}{page}").content.decode()


TIME: Final = {
    "fields_named": "Meadow 1, Meadow 2",
    "weekday": "monday",
    "opens": "18:00",
    "closes": "21:36",
    "minutes": "72",
    "first": "2027-02-01",
    "last": "",
}


def test_places_of_their_own_length_are_asked_for_and_added(desk: Told) -> None:
    desk.take(6, 7, 8)
    asked = desk.client.get(f"{HERE}season/times/?minutes=72")
    assert asked.context["form"]["minutes"].value() == 72
    assert "a play-off game 72" in words(asked)
    assert "A play-off game needs a time of its own, with 72 minutes" in words(asked)
    short = desk.client.post(f"{HERE}season/times/add/", {**TIME, "minutes": "40"})
    (says,) = short.context["form"].errors["minutes"]
    assert says.startswith("A slot has 40 minutes; a game with its turnover needs 55.")
    added = desk.client.post(f"{HERE}season/times/add/", TIME)
    assert added.status_code == HTTPStatus.FOUND
    page = desk.get()
    assert "12 of 24 places are as long." in page
    assert "There is one for each of the 5 games without a place." in page
    assert "Next: plan the timetable" in page


@pytest.mark.parametrize("minutes", ["x", "-1", "1.5"])
def test_minutes_of_an_address_are_a_whole_number(desk: Told, minutes: str) -> None:
    page = desk.client.get(f"{HERE}season/times/", {"minutes": minutes})
    assert page.status_code == HTTPStatus.BAD_REQUEST
