"""Sites and emergency pages at the desk: written down, renamed, taken out, and taken back."""

from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.test import Client

from cases.answers import said, words
from cases.desk_officials import version
from cases.desk_season import DeskSeason, a_desk, at, member
from cases.desk_sites import EMPTY, NIGHT, WEIR, post, texts
from cases.stored import NOW, written_by
from wholeball.store.models import Account, Change, Occasion, Search, Season
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.show_sites import show_sites

pytestmark = pytest.mark.django_db
HEAD: Final = "site,address,gate,gate_opener,aed,calls,meets,shelter\n"
NORTH: Final = {"site": "North Lea", **EMPTY, "fields_here": ["North 1"]}
OFF: Final = {
    "night": f"{NIGHT}",
    "place": "site:North Lea",
    "state": "off",
    "next_word": "",
    "says": "Standing water.",
    "sure": "yes",
}


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    """A season whose games are on Field 1, without a site or a list of fields."""
    return a_desk(tmp_path)


def close(season: Season, site: str) -> None:
    """Close a site for a day, as files can."""
    rows = f"field,site,date,why\n,{site},{NIGHT},fair\n"
    written_by(season).write({"closures.csv": rows.encode()})


def undo(client: Client, file: str) -> str:
    change = Change.objects.filter(name=file).latest("version")
    return said(client.post(at("undo"), {"change": f"{change.pk}"}))


def test_a_season_without_a_site_says_what_to_do_and_which_fields_wait(
    desk: DeskSeason,
) -> None:
    kim = desk.people["coordinator"]
    page = words(kim.get(at("sites")))
    assert "No site yet. So no place can be called off alone" in page
    assert 'says "not written down" everywhere. Add each place where you play.' in page
    assert "This field belongs to no site yet: <bdi>Field 1</bdi>." in page
    assert "Cure: add a site and tick what is there." in page
    assert at("sites") in words(kim.get(at("season")))


def test_a_site_that_is_added_has_its_field_and_all_of_its_page(desk: DeskSeason) -> None:
    kim = desk.people["coordinator"]
    answer = post(kim, "add_site", {**WEIR, "fields_here": ["Field 1"]})
    assert said(answer) == "Weir is added. To undo it: Season, Changes."
    found = texts(desk.season)
    assert found["sites.csv"] == (
        f"{HEAD}Weir,1 Weir Lane,East gate,Kim,Porch,the supervisor,the trail official,"
        '"Gym, by the west door"\n'
    )
    assert found["fields.csv"] == "field,site\nField 1,Weir\n"
    page = words(kim.get(at("sites")))
    assert "Emergency page: 7 of 7 written." in page
    assert "Not written down" not in page
    assert "all written" in page


def test_a_page_lists_in_words_what_nobody_wrote_down(desk: DeskSeason) -> None:
    kim = desk.people["coordinator"]
    post(kim, "add_site", {**WEIR, "aed": "", "calls": " ", "fields_here": []})
    page = words(kim.get(at("sites")))
    assert "Emergency page: 5 of 7 written. Not written down: AED, Calls." in page
    assert "not all written" in page
    assert "<strong><bdi>Weir</bdi></strong>: no field yet" in page
    assert "Cure: change a site and tick what is there, or add a site." in page


def test_fields_of_a_first_site_are_taken_back_and_the_site_stays(
    desk: DeskSeason,
) -> None:
    kim = desk.people["coordinator"]
    post(kim, "add_site", {**WEIR, "fields_here": ["Field 1"]})
    undo(kim, "fields.csv")
    assert texts(desk.season)["fields.csv"] == "field,site\n"
    assert "Weir" in texts(desk.season)["sites.csv"]


def test_a_site_and_its_fields_go_back_in_one_step(desk: DeskSeason) -> None:
    kim = desk.people["coordinator"]
    post(kim, "add_site", {**WEIR, "fields_here": ["Field 1"]})
    says = undo(kim, "sites.csv")
    assert "sites.csv" in says
    assert "fields.csv" in says
    assert texts(desk.season)["sites.csv"] == HEAD
    assert texts(desk.season)["fields.csv"] == "field,site\n"
    assert show_sites(snapshot_of(Season.objects.get())).loose == ("Field 1",)


def test_what_was_typed_is_kept_and_the_fault_stands_at_its_field(
    season: Season, kim: Client
) -> None:
    before = texts(season)
    told = {**WEIR, "site": "north lea", "fields_here": ["North 1"]}
    answer = post(kim, "add_site", told)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    says = "There is a site of that name: North Lea."
    assert answer.context["form"].errors == {
        "site": [f"{says} Give this one another name, or change that one."]
    }
    page = words(answer)
    assert "1 Weir Lane" in page
    assert 'value="North 1"' in page
    assert page.count("checked") == 1
    assert texts(season) == before


@pytest.mark.parametrize(
    ("told", "field", "says"),
    [
        ({"site": ""}, "site", "There is no name yet. Write one."),
        ({"site": "W" * 81}, "site", "at most 80 characters"),
        ({"calls": "c" * 201}, "calls", "at most 200 characters"),
        ({"aed": "a\u202eb"}, "aed", "which nobody can see"),
        (
            {"fields_here": ["Field 9"]},
            "fields_here",
            "Field 9 is no field of the season any more. Tick those that are there now.",
        ),
    ],
)
def test_a_site_that_cannot_be_is_told_beside_its_field(
    season: Season, kim: Client, told: dict[str, Any], field: str, says: str
) -> None:
    before = texts(season)
    answer = post(kim, "add_site", {**WEIR, "fields_here": [], **told})
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert list(answer.context["form"].errors) == [field]
    assert says in answer.context["form"].errors[field][0]
    assert texts(season) == before


def test_the_longest_name_and_text_are_taken(season: Season, kim: Client) -> None:
    told = {**WEIR, "site": "W" * 80, "calls": "c" * 200, "fields_here": []}
    assert said(post(kim, "add_site", told)).startswith("WWW")
    assert "c" * 200 in texts(season)["sites.csv"]


@pytest.mark.parametrize(
    "typed", ["=1+1", "<script>alert(1)</script>", "Hut\r\nsecond floor", "\"a\", 'b'"]
)
def test_what_is_typed_comes_back_as_typed(season: Season, kim: Client, typed: str) -> None:
    post(kim, "site", {**NORTH, "aed": typed}, "North Lea")
    kept = typed.replace("\r\n", "\n")
    page = kim.get(at("site", "North Lea"))
    assert page.context["form"].initial["aed"] == kept
    assert "<script>alert" not in page.content.decode()
    assert show_sites(snapshot_of(Season.objects.get())).sites[0].told.aed == kept
    assert ",=1+1" not in texts(season)["sites.csv"]


def test_a_field_that_is_ticked_at_another_site_moves_and_that_is_said(
    season: Season, kim: Client
) -> None:
    form = words(kim.get(at("site", "North Lea")))
    assert "South 1 (at South Lea now: ticked, it moves here)" in form
    told = {**NORTH, "fields_here": ["South 1", "West 1"]}
    assert said(post(kim, "site", told, "North Lea")) == (
        "North Lea: the change is kept. Moved here: South 1 from South Lea and West 1 from"
        " West Lea. At no site now: North 1. To undo it: Season, Changes."
    )
    assert texts(season)["fields.csv"] == (
        "field,site\nNorth 1,\nSouth 1,North Lea\nWest 1,North Lea\n"
    )
    before = "field,site\nNorth 1,North Lea\nSouth 1,South Lea\nWest 1,West Lea\n"
    undo(kim, "fields.csv")
    assert texts(season)["fields.csv"] == before


def test_a_site_is_called_otherwise_wherever_it_is_named(season: Season, kim: Client) -> None:
    close(season, "North Lea")
    kim.post(at("call_off"), {**OFF, "version": version()})
    told = {**NORTH, "site": "Lea/1 %", "aed": "Porch"}
    assert said(post(kim, "site", told, "North Lea")) == (
        "Lea/1 %: it was North Lea, wherever it is named. To undo it: Season, Changes."
    )
    found = texts(season)
    assert found["fields.csv"].splitlines()[1] == "North 1,Lea/1 %"
    assert f"{NIGHT},Lea/1 %,,off" in found["notices.csv"]
    assert ",Lea/1 %," in found["closures.csv"]
    assert not any("North Lea" in text for text in found.values())
    assert Occasion.objects.get().what["site"] == "Lea/1 %"
    assert kim.get(at("site", "Lea/1 %")).status_code == HTTPStatus.OK
    assert kim.get(at("site", "North Lea")).status_code == HTTPStatus.NOT_FOUND


def test_a_call_off_is_taken_back_although_its_site_is_called_otherwise_since(
    season: Season, kim: Client
) -> None:
    kim.post(at("call_off"), {**OFF, "version": version()})
    occasion = Occasion.objects.get()
    post(kim, "site", {**NORTH, "site": "Lea"}, "North Lea")
    page = kim.get(at("take_back", occasion.pk))
    assert page.context["word"].public == "Tonight is on: 3 games, the first at 19:00."
    kim.post(at("take_back", occasion.pk))
    assert texts(season)["notices.csv"].splitlines()[-1] == f"{NIGHT},Lea,,on,,"


@pytest.mark.parametrize("file", ["sites.csv", "fields.csv", "closures.csv", "notices.csv"])
def test_another_name_is_taken_back_in_every_file_at_once(
    season: Season, kim: Client, file: str
) -> None:
    close(season, "North Lea")
    kim.post(at("call_off"), {**OFF, "version": version()})
    before = texts(season)
    post(kim, "site", {**NORTH, "site": "Lea"}, "North Lea")
    assert texts(season) != before
    undo(kim, file)
    assert texts(season) == before
    assert Occasion.objects.get().what["site"] == "North Lea"


def test_a_public_word_is_still_not_taken_back_among_changes(
    season: Season, kim: Client
) -> None:
    kim.post(at("call_off"), {**OFF, "version": version()})
    before = texts(season)
    assert undo(kim, "notices.csv").startswith("Nothing was taken back. A word on a night")
    assert texts(season) == before


def test_a_search_that_waits_follows_the_name_and_one_that_is_done_keeps_its_words(
    season: Season, kim: Client
) -> None:
    for state in ("waiting", "done"):
        Search.objects.create(
            season=season,
            account=Account.objects.order_by("pk")[0],
            kind="repair",
            asked={"seconds": 5, "happened": {"night": f"{NIGHT}", "site": "North Lea"}},
            version=1,
            state=state,
            made_at=NOW,
            beat=NOW,
        )
    post(kim, "site", {**NORTH, "site": "Lea"}, "North Lea")
    asked = {one.state: one.asked["happened"]["site"] for one in Search.objects.all()}
    assert asked == {"waiting": "Lea", "done": "North Lea"}


def test_who_changes_what_another_changed_meanwhile_is_told_and_keeps_what_was_typed(
    season: Season, kim: Client
) -> None:
    old = f"{Season.objects.get().version}"
    lee = member(season, "coordinator", person="Lee")
    post(lee, "site", {**NORTH, "aed": "theirs"}, "North Lea")
    mine = {**NORTH, "aed": "mine", "fields_here": ["South 1"], "version": old}
    answer = post(kim, "site", mine, "North Lea")
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert "It was changed while you worked on it." in words(answer)
    assert "theirs" in words(answer)
    assert "mine</textarea>" in words(answer)
    assert answer.context["form"]["fields_here"].value() == ["South 1"]
    assert words(answer).count("checked") == 1
    assert "theirs" in texts(season)["sites.csv"]
    post(kim, "site", {**mine, "version": answer.context["version"]}, "North Lea")
    assert "mine" in texts(season)["sites.csv"]


def test_who_adds_a_site_with_a_field_that_another_moved_meanwhile_is_told(
    season: Season, kim: Client
) -> None:
    old = f"{Season.objects.get().version}"
    lee = member(season, "coordinator", person="Lee")
    post(lee, "site", {**NORTH, "fields_here": ["North 1", "West 1"]}, "North Lea")
    before = texts(season)
    told = {**WEIR, "fields_here": ["West 1"], "version": old}
    answer = post(kim, "add_site", told)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert "It was changed while you worked on it." in words(answer)
    assert texts(season) == before
    post(kim, "add_site", {**told, "version": answer.context["version"]})
    assert "West 1,Weir" in texts(season)["fields.csv"]


def test_a_site_goes_once_nothing_names_it_and_comes_back_by_changes(
    season: Season, kim: Client
) -> None:
    before = texts(season)
    answer = post(kim, "drop_site", {"site": "West Lea"})
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert str(answer.context["refused"]) == (
        "West Lea has 1 field (West 1). Nothing was changed."
        " Change the site and untick its fields, or tick them at another site."
    )
    assert texts(season) == before
    post(kim, "site", {**NORTH, "fields_here": ["North 1", "West 1"]}, "North Lea")
    stale = f"{Season.objects.get().version}"
    says = said(post(kim, "drop_site", {"site": "West Lea"}))
    assert says == "West Lea is taken out. To undo it: Season, Changes."
    assert texts(season)["sites.csv"] == "site\nNorth Lea\nSouth Lea\n"
    again = kim.post(at("drop_site"), {"site": "West Lea", "version": stale})
    assert again.context["refused"].says == "This site is not there any more."
    undo(kim, "sites.csv")
    assert texts(season)["sites.csv"] == before["sites.csv"]


def test_what_is_gone_is_missing_to_look_at_and_told_to_who_changes_it(kim: Client) -> None:
    assert kim.get(at("site", "Nowhere")).status_code == HTTPStatus.NOT_FOUND
    answer = post(kim, "site", {**NORTH, "site": "Elsewhere"}, "Nowhere")
    assert "This site is not there any more." in words(answer)


def test_the_page_says_what_comes_first_and_keeps_no_emergency_number(kim: Client) -> None:
    for page in (kim.get(at("sites")), kim.get(at("add_site"))):
        assert "not medical or weather advice" in words(page)
        assert "what your own emergency action plan says" in words(page)
    form = words(kim.get(at("add_site")))
    assert "The emergency number itself is never kept here" in form
    assert "Call the emergency number first. Then the supervisor." in form
    assert "Trees, tents, dugouts are no shelter." in form
