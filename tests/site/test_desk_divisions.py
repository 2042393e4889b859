"""Divisions and blocks at the desk: added, changed, taken out; nothing typed or done is lost."""

from collections.abc import Mapping
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.test import Client
from django.urls import reverse

from cases.answers import said, words
from cases.desk_season import DeskSeason, a_desk, member
from cases.stored import written_by
from wholeball.store.models import Change, Season

pytestmark = pytest.mark.django_db
WHERE: Final = ("harrow-fen", "autumn")
GOLD: Final = {"division": "Gold", "kind": "open", "level": "", "league": ""}
TUESDAY: Final = {
    "block": "Tuesday",
    "division": "Gold",
    "weekday": "tuesday",
    "opens": "19:00",
    "closes": "22:00",
    "places": "2",
}
DIVISIONS: Final = "division,league,level,kind\n"
TEAMS: Final = (
    "team,pool,division,block\nAsh,A,,\nBirch,A,,\nElder,A,,\nCedar,B,,\nDogwood,B,,\n"
)
PLACED: Final = (
    TEAMS.replace("Ash,A,,", "Ash,A,Gold,Tuesday")
    .replace("Birch,A,,", "Birch,A,,Tuesday")
    .replace("Elder,A,,", "Elder,A,Gold,")
)
"""Three teams of division Gold, two of them in its block."""
BLOCKS: Final = "block,division,weekday,from,until,places\n"


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    """A season of five teams without a division, nor a file of blocks."""
    return a_desk(tmp_path, divisions=DIVISIONS, teams=TEAMS)


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def at(name: str, *more: str) -> str:
    return reverse(f"desk:{name}", args=(*WHERE, *more))


def post(client: Client, name: str, told: Mapping[str, str], *more: str) -> Any:
    return client.post(at(name, *more), dict(told))


def at_version(told: Mapping[str, str]) -> dict[str, str]:
    return {**told, "version": f"{Season.objects.get().version}"}


def text(desk: DeskSeason, name: str) -> str:
    return desk.texts()[name].decode()


def test_a_season_without_a_division_says_what_to_do(kim: Client) -> None:
    page = words(kim.get(at("divisions")))
    assert "No division yet: all teams of the season may meet." in page
    assert "Add a block" not in page
    assert at("divisions") in words(kim.get(at("season")))


def test_a_division_and_its_block_are_added(desk: DeskSeason, kim: Client) -> None:
    answer = post(kim, "add_division", {**GOLD, "kind": "mixed", "league": "=1+1"})
    assert said(answer) == "Division Gold is added. To undo it: Season, Changes."
    answer = post(kim, "add_block", TUESDAY)
    assert said(answer) == "Block Tuesday is added. To undo it: Season, Changes."
    assert text(desk, "divisions.csv") == "division,league,level,kind\nGold,'=1+1,,mixed\n"
    assert text(desk, "blocks.csv") == f"{BLOCKS}Tuesday,Gold,tuesday,19:00,22:00,2\n"
    page = words(kim.get(at("divisions")))
    assert "every Tuesday, 19:00 to 22:00" in page
    assert "0 teams for 2 places." in page


def test_what_is_wrong_stands_beside_its_field_and_what_was_typed_is_kept(
    desk: DeskSeason, kim: Client
) -> None:
    post(kim, "add_division", GOLD)
    before = desk.texts()
    answer = post(kim, "add_division", {**GOLD, "division": "gOLD", "level": "a level"})
    form = answer.context["form"]
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    says = "There is a division of that name: Gold."
    assert form.errors == {
        "division": [f"{says} Give this one another name, or change that one."]
    }
    assert 'value="a level"' in words(answer)
    assert desk.texts() == before


@pytest.mark.parametrize(
    ("told", "field", "says"),
    [
        (
            {"closes": "19:00"},
            "closes",
            "The block begins at 19:00. It ends later on the same day.",
        ),
        ({"places": "0"}, "places", "greater than or equal to 1"),
        ({"places": "100"}, "places", "less than or equal to 99"),
        ({"block": ""}, "block", "There is no name yet. Write one."),
        ({"opens": "7pm"}, "opens", "This is no time of the day. Write it as 19:00."),
        ({"division": "Silver"}, "division", "Silver"),
        ({"weekday": "someday"}, "weekday", "someday"),
    ],
)
def test_a_block_that_cannot_be_is_told_beside_its_field(
    desk: DeskSeason, kim: Client, told: dict[str, str], field: str, says: str
) -> None:
    post(kim, "add_division", GOLD)
    before = desk.texts()
    answer = post(kim, "add_block", {**TUESDAY, **told})
    errors = answer.context["block_form"].errors
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert list(errors) == [field]
    assert says in errors[field][0]
    assert desk.texts() == before


def test_a_block_of_a_minute_with_a_place_is_taken(desk: DeskSeason, kim: Client) -> None:
    post(kim, "add_division", GOLD)
    post(kim, "add_block", {**TUESDAY, "closes": "19:01", "places": "1"})
    post(kim, "add_block", {**TUESDAY, "block": "Late", "places": "99"})
    assert text(desk, "blocks.csv") == (
        f"{BLOCKS}Tuesday,Gold,tuesday,19:00,19:01,1\nLate,Gold,tuesday,19:00,22:00,99\n"
    )


def test_a_division_is_called_otherwise_wherever_it_is_named(
    desk: DeskSeason, kim: Client
) -> None:
    post(kim, "add_division", GOLD)
    post(kim, "add_block", TUESDAY)
    written_by(desk.season).write({"teams.csv": PLACED.encode()})
    page = kim.get(at("division", "Gold"))
    assert page.context["form"].initial == GOLD
    told = at_version({**GOLD, "division": "First/1 %", "level": "B"})
    answer = post(kim, "division", told, "Gold")
    assert said(answer) == (
        "First/1 %: it was Gold, wherever it is named. To undo it: Season, Changes."
    )
    assert text(desk, "divisions.csv") == "division,league,level,kind\nFirst/1 %,,B,open\n"
    assert text(desk, "blocks.csv") == f"{BLOCKS}Tuesday,First/1 %,tuesday,19:00,22:00,2\n"
    assert text(desk, "teams.csv") == PLACED.replace("Gold", "First/1 %")
    assert kim.get(at("division", "First/1 %")).status_code == HTTPStatus.OK
    assert kim.get(at("division", "Gold")).status_code == HTTPStatus.NOT_FOUND


def test_a_block_is_changed_and_its_teams_follow(desk: DeskSeason, kim: Client) -> None:
    post(kim, "add_division", GOLD)
    post(kim, "add_block", TUESDAY)
    written_by(desk.season).write({"teams.csv": PLACED.encode()})
    told = at_version({**TUESDAY, "block": "Wednesday", "weekday": "wednesday", "places": "1"})
    post(kim, "block_of_division", told, "Tuesday")
    assert text(desk, "blocks.csv") == f"{BLOCKS}Wednesday,Gold,wednesday,19:00,22:00,1\n"
    assert text(desk, "teams.csv") == PLACED.replace("Tuesday", "Wednesday")
    page = words(kim.get(at("divisions")))
    assert "2 teams for 1 place." in page
    assert "Give 1 team another block, or change the places." in page


def test_who_changes_what_another_changed_meanwhile_is_told_and_keeps_what_was_typed(
    desk: DeskSeason, kim: Client
) -> None:
    post(kim, "add_division", GOLD)
    old = at_version({**GOLD, "level": "mine"})
    lee = member(desk.season, "coordinator", person="Lee")
    post(lee, "division", at_version({**GOLD, "level": "theirs"}), "Gold")
    answer = post(kim, "division", old, "Gold")
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert "It was changed while you worked on it." in words(answer)
    assert "theirs" in words(answer)
    assert 'value="mine"' in words(answer)
    assert "theirs" in text(desk, "divisions.csv")
    again = {**old, "version": answer.context["version"]}
    post(kim, "division", again, "Gold")
    assert text(desk, "divisions.csv").splitlines()[1:] == ["Gold,,mine,open"]


def test_a_fault_of_what_was_typed_does_not_hide_what_another_changed(
    desk: DeskSeason, kim: Client
) -> None:
    post(kim, "add_division", GOLD)
    old = at_version({**GOLD, "division": ""})
    lee = member(desk.season, "coordinator", person="Lee")
    post(lee, "division", at_version({**GOLD, "level": "theirs"}), "Gold")
    answer = post(kim, "division", old, "Gold")
    assert answer.context["version"] == old["version"]


def test_what_has_teams_or_blocks_is_not_taken_out_and_the_cure_is_told(
    desk: DeskSeason, kim: Client
) -> None:
    post(kim, "add_division", GOLD)
    post(kim, "add_block", TUESDAY)
    written_by(desk.season).write({"teams.csv": PLACED.encode()})
    before = desk.texts()
    answer = post(kim, "drop_division", at_version({"division": "Gold"}))
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert (
        answer.context["refused"].says
        == "Division Gold has 3 teams (Ash, Birch and Elder) and 1 block (Tuesday)."
    )
    assert answer.context["refused"].fix == (
        "Nothing was changed. Put its teams into another division under Teams and pools first."
        " Take its blocks out first."
    )
    answer = post(kim, "drop_block", at_version({"block": "Tuesday"}))
    assert answer.context["refused"].says == "Block Tuesday has 2 teams (Ash and Birch)."
    assert desk.texts() == before


def test_what_nothing_names_is_taken_out_and_comes_back_by_changes(
    desk: DeskSeason, kim: Client
) -> None:
    post(kim, "add_division", GOLD)
    post(kim, "add_block", TUESDAY)
    stale = at_version({"block": "Tuesday"})
    answer = post(kim, "drop_block", stale)
    assert said(answer) == "The block is taken out. To undo it: Season, Changes."
    assert text(desk, "blocks.csv") == BLOCKS
    again = post(kim, "drop_block", stale)
    assert again.context["refused"].says == "This block is not there any more."
    post(kim, "drop_division", at_version({"division": "Gold"}))
    assert text(desk, "divisions.csv") == "division,league,level,kind\n"
    for file in ("divisions.csv", "blocks.csv"):
        change = Change.objects.filter(name=file).latest("version")
        post(kim, "undo", {"change": f"{change.pk}"})
    assert text(desk, "divisions.csv").splitlines()[1:] == ["Gold,,,open"]
    assert text(desk, "blocks.csv").splitlines()[1:] == ["Tuesday,Gold,tuesday,19:00,22:00,2"]


def test_what_is_gone_is_missing_to_look_at_and_told_to_who_changes_it(kim: Client) -> None:
    for name in ("division", "block_of_division"):
        assert kim.get(at(name, "Nowhere")).status_code == HTTPStatus.NOT_FOUND
    answer = post(kim, "division", at_version(GOLD), "Nowhere")
    assert "This division is not there any more." in words(answer)


@pytest.mark.parametrize("file", ["divisions.csv", "blocks.csv", "teams.csv"])
def test_another_name_is_taken_back_in_every_file_at_once(
    desk: DeskSeason, kim: Client, file: str
) -> None:
    post(kim, "add_division", GOLD)
    post(kim, "add_block", TUESDAY)
    written_by(desk.season).write({"teams.csv": PLACED.encode()})
    before = desk.texts()
    post(kim, "division", at_version({**GOLD, "division": "First"}), "Gold")
    assert desk.texts() != before
    change = Change.objects.filter(name=file).latest("version")
    answer = post(kim, "undo", {"change": f"{change.pk}"})
    told = said(answer)
    assert all(name in told for name in ("divisions.csv", "blocks.csv", "teams.csv"))
    assert desk.texts() == before


def test_a_change_that_stands_alone_is_taken_back_alone(desk: DeskSeason, kim: Client) -> None:
    levels = DIVISIONS + "Gold,,A,open\n"
    written_by(desk.season).write(
        {
            "divisions.csv": levels.encode(),
            "teams.csv": TEAMS.replace("Ash,A", "Ash,B").encode(),
        }
    )
    change = Change.objects.filter(name="teams.csv").latest("version")
    post(kim, "undo", {"change": f"{change.pk}"})
    assert text(desk, "teams.csv") == TEAMS
    assert text(desk, "divisions.csv") == levels
