"""Officials at the desk: listed, and called otherwise with all that lets them in."""

from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.test import Client

from cases.answers import said, words
from cases.desk_officials import LEFT, SOON, invited, officials_desk, version
from cases.desk_season import OFFICIALS, DeskSeason, at
from cases.stored import NOW, a_season, an_account, written_by
from wholeball.files.folder import read_folder
from wholeball.kernel.days import day_of_season
from wholeball.kernel.identity import GameId
from wholeball.store.feeds import feed_of, history_of, make_token
from wholeball.store.models import Change, FeedToken, Invitation, Membership, Season
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.feed_games import entries_of
from wholeball.usecases.report_incident import report_incident

pytestmark = pytest.mark.django_db
NEW: Final = "Ada & Quill/é"


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return officials_desk(tmp_path)


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def correct(client: Client, official: str, name: str, seen: str = "") -> Any:
    told = {"official": name, "version": seen or version()}
    return client.post(at("official", official), told)


def names(desk: DeskSeason) -> list[str]:
    return [
        one.official
        for one in read_folder(snapshot_of(Season.objects.get(pk=desk.season.pk))).officials
    ]


def test_every_official_is_shown_with_games_sign_in_and_the_posts_nobody_fills(
    desk: DeskSeason, kim: Client
) -> None:
    invited(desk, "Cy Imbray")
    page = kim.get(at("officials_list"))
    rows = page.context["rows"]
    assert [
        (one.official, one.games, one.next and one.next.game, known.addresses, known.invited)
        for one, known in rows
    ] == [
        (
            "Ada Quill",
            2,
            "A3",
            [
                "supervisor.ada.quill@harrowfen.example",
                "official.ada.quill@harrowfen.example",
            ],
            [],
        ),
        ("Bo Tarn", 1, None, ["scorekeeper.bo.tarn@harrowfen.example"], []),
        ("Cy Imbray", 2, None, [], ["cy@harrowfen.example"]),
        ("Di Lund", 1, None, [], []),
        (LEFT, 0, None, [], []),
    ]
    text = words(page)
    assert "1 post of 1 game" in text
    assert f'href="{at("crews", SOON)}"' in text
    assert f"{day_of_season(SOON)}, game" in text
    assert all(
        f'href="{at("official", one.official)}"' in page.content.decode() for one, _ in rows
    )


def test_the_page_is_reached_from_the_season_and_from_the_crews_of_a_night(
    kim: Client,
) -> None:
    for page in (at("season"), at("crews", SOON)):
        assert f'href="{at("officials_list")}"' in words(kim.get(page))


def test_a_season_without_officials_says_what_to_do(desk: DeskSeason, kim: Client) -> None:
    written_by(desk.season).write(
        {"officials.csv": b"official\n", "crews.csv": b"game,role,official\n"}
    )
    text = words(kim.get(at("officials_list")))
    assert "No official is listed in this season yet." in text
    assert "List them, and name them for the crews of each night." in text


def test_officials_are_listed_as_on_the_page_of_crews(desk: DeskSeason, kim: Client) -> None:
    answer = kim.post(at("officials_list"), {"names": "Fay Orrin\r\nada quill\r\n"})
    assert said(answer) == "1 official listed. To undo it: Season, Changes."
    assert answer.headers["Location"] == at("officials_list")
    before = [*OFFICIALS.splitlines()[1:], LEFT]
    assert names(desk) == [*before, "Fay Orrin"]
    change = Change.objects.filter(name="officials.csv").latest("version")
    kim.post(at("undo"), {"change": f"{change.pk}"})
    assert names(desk) == before


@pytest.mark.parametrize(
    ("names", "says"), [("", "0 names were given."), ("N" * 81, "at most 80 characters")]
)
def test_names_that_cannot_be_listed_are_kept_in_the_form(
    desk: DeskSeason, kim: Client, names: str, says: str
) -> None:
    before = desk.texts()
    answer = kim.post(at("officials_list"), {"names": names})
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert says in words(answer)
    assert f">{names}</textarea>" in words(answer)
    assert desk.texts() == before


def test_a_name_is_corrected_and_whoever_has_it_still_works_the_games(
    desk: DeskSeason, kim: Client
) -> None:
    invitation = invited(desk, "Ada Quill")
    other = invited(desk, "Ada Quill", role="captain", team="Ash")
    for kind, subject in (("official", "Ada Quill"), ("official", "Bo Tarn"), ("team", "Ash")):
        FeedToken.objects.create(
            season=desk.season, kind=kind, subject=subject, digest=subject, made_at=NOW
        )
    ada = desk.people["official"]
    assert ada.get(at("game", "A3")).status_code == HTTPStatus.OK
    before = desk.texts()
    answer = correct(kim, "Ada Quill", NEW)
    assert said(answer) == f"Ada Quill is called {NEW} now. To undo it, correct the name back."
    assert answer.headers["Location"] == at("official", NEW)
    assert kim.get(at("official", NEW)).status_code == HTTPStatus.OK
    assert kim.get(at("official", "Ada Quill")).status_code == HTTPStatus.NOT_FOUND
    assert ada.get(at("game", "A3")).status_code == HTTPStatus.OK
    assert ada.get(at("game", "C1")).status_code == HTTPStatus.NOT_FOUND
    after = desk.texts()
    assert {name for name, data in after.items() if data != before[name]} == {
        "crews.csv",
        "officials.csv",
    }
    assert all(
        data.decode().replace(NEW, "Ada Quill") == before[name].decode()
        for name, data in after.items()
        if name in ("crews.csv", "officials.csv")
    )
    assert sorted(Membership.objects.exclude(person="").values_list("role", "person")) == [
        ("official", NEW),
        ("scorekeeper", "Bo Tarn"),
        ("supervisor", NEW),
    ]
    invitation.refresh_from_db()
    other.refresh_from_db()
    assert (invitation.person, other.person) == (NEW, "Ada Quill")
    assert sorted(FeedToken.objects.values_list("kind", "subject")) == [
        ("official", NEW),
        ("official", "Bo Tarn"),
        ("team", "Ash"),
    ]


def test_a_name_of_letters_and_signs_apart_is_kept_as_one(
    desk: DeskSeason, kim: Client
) -> None:
    """Some keyboards send an accent as a sign of its own (Unicode 15, annex 15)."""
    answer = correct(kim, "Di Lund", "Di Lund\u0061\u030a")
    assert answer.headers["Location"] == at("official", "Di Lund\u00e5")
    assert kim.get(answer.headers["Location"]).status_code == HTTPStatus.OK
    assert names(desk)[3] == "Di Lund\u00e5"


def test_a_name_that_is_the_same_writes_nothing(desk: DeskSeason, kim: Client) -> None:
    before, seen = desk.texts(), version()
    assert correct(kim, "Di Lund", "Di Lund ").status_code == HTTPStatus.FOUND
    assert (desk.texts(), version()) == (before, seen)


def test_all_is_as_it_was_once_a_name_is_corrected_back(desk: DeskSeason, kim: Client) -> None:
    seats = sorted(Membership.objects.values_list())
    before = desk.texts()
    correct(kim, "Ada Quill", NEW)
    correct(kim, NEW, "Ada Quill")
    assert desk.texts() == before
    assert sorted(Membership.objects.values_list()) == seats


def test_the_calendar_of_the_official_still_opens_with_its_games_and_none_is_called_off(
    desk: DeskSeason, kim: Client
) -> None:
    ada = Membership.objects.get(role="official").account
    token = make_token(desk.season, "official", "Ada Quill", account=ada, at=NOW)

    def games(official: str) -> list[tuple[str, str, bool]]:
        season = Season.objects.get()
        read = read_folder(snapshot_of(season))
        found = entries_of(read, "official", official, history_of(season))
        return [(one.when.game, one.role, one.is_off) for one in found]

    both = [("A1", "referee", False), ("A3", "referee", False)]
    assert games("Ada Quill") == both
    correct(kim, "Ada Quill", NEW)
    assert games(NEW) == both
    feed = feed_of(token)
    assert feed is not None
    assert feed.subject == NEW


def test_a_role_that_somebody_has_by_both_names_is_kept_once(kim: Client) -> None:
    one = Membership.objects.get(role="official")
    Membership.objects.create(
        organisation=one.organisation,
        account=one.account,
        role="official",
        season=one.season,
        person=NEW,
    )
    correct(kim, "Ada Quill", NEW)
    assert [seat.person for seat in Membership.objects.filter(account=one.account)] == [NEW]


def everywhere(desk: DeskSeason) -> Membership:
    """Let somebody keep scores in every season, by the name of Bo Tarn."""
    return Membership.objects.create(
        organisation=desk.season.organisation,
        account=an_account("Bo of all"),
        role="scorekeeper",
        person="Bo Tarn",
    )


def test_a_role_of_every_season_follows_where_no_other_season_lists_the_name(
    desk: DeskSeason, kim: Client
) -> None:
    seat = everywhere(desk)
    spring = a_season("Spring")
    written_by(spring).write({"officials.csv": b"official\nBo Tarnes\n"})
    correct(kim, "Bo Tarn", "Bo Tarne")
    seat.refresh_from_db()
    assert seat.person == "Bo Tarne"


@pytest.mark.parametrize("listed", ["Bo Tarn", "BO TARNE"])
def test_a_role_of_every_season_is_not_anothers_where_a_season_lists_a_name(
    desk: DeskSeason, kim: Client, listed: str
) -> None:
    seat = everywhere(desk)
    written_by(a_season("Spring")).write({"officials.csv": f"official\n{listed}\n".encode()})
    before = desk.texts()
    answer = correct(kim, "Bo Tarn", "Bo Tarne")
    told = (
        f"Bo Tarn has a role in every season, and Spring lists {listed} too. Nothing was"
        " changed: the role would be by the wrong name there. Keep the name here, and give the"
        " right one in the next season."
    )
    assert answer.context["form"].non_field_errors() == [told]
    seat.refresh_from_db()
    assert (seat.person, desk.texts()) == ("Bo Tarn", before)
    seat.delete()
    link = invited(desk, "Bo Tarn", season=None, role="scorekeeper")
    assert "Bo Tarn has a role in every season" in words(correct(kim, "Bo Tarn", "Bo Tarne"))
    Invitation.objects.filter(pk=link.pk).update(used_at=NOW)
    assert correct(kim, "Bo Tarn", "Bo Tarne").status_code == HTTPStatus.FOUND


def test_a_name_that_cannot_be_is_told_beside_its_field_and_kept(
    desk: DeskSeason, kim: Client
) -> None:
    before = desk.texts()
    for name, says in (
        ("bO tarn", "There is an official of that name: Bo Tarn."),
        ("", "There is no name yet. Write one."),
        ("n" * 81, "80"),
    ):
        answer = correct(kim, "Ada Quill", name)
        assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
        assert says in answer.context["form"].errors["official"][0]
        assert f'value="{name}"' in words(answer) or not name
    assert desk.texts() == before


def test_who_signed_what_is_kept_keeps_the_name_with_every_role(
    desk: DeskSeason, kim: Client
) -> None:
    report_incident(
        written_by(desk.season), GameId("A1"), by="Ada Quill", says="A punch.", at=NOW
    )
    before = desk.texts()
    answer = correct(kim, "Ada Quill", NEW)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert "Ada Quill has signed what is sealed: a report about game A1." in words(answer)
    assert desk.texts() == before
    assert Membership.objects.filter(person="Ada Quill").count() == 2


def test_who_corrects_what_another_changed_meanwhile_is_told(kim: Client) -> None:
    old = version()
    correct(kim, "Ada Quill", "Ada Quin")
    correct(kim, "Ada Quin", "Ada Quill")
    answer = correct(kim, "Ada Quill", NEW, seen=old)
    assert "It was changed while you worked on it." in words(answer)
    assert f'value="{NEW}"' in words(answer)
    again = correct(kim, "Ada Quill", NEW, seen=answer.context["version"])
    assert again.status_code == HTTPStatus.FOUND


@pytest.mark.parametrize("file", ["officials.csv", "crews.csv"])
def test_another_name_is_not_undone_file_by_file_but_corrected_back(
    desk: DeskSeason, kim: Client, file: str
) -> None:
    correct(kim, "Ada Quill", "Ada Quin")
    change = Change.objects.filter(name=file).latest("version")
    after = desk.texts()
    answer = kim.post(at("undo"), {"change": f"{change.pk}"})
    assert said(answer) == (
        "Ada Quill is called Ada Quin since, by all who have to do with it."
        " Correct the name back on the page of Ada Quin."
    )
    assert desk.texts() == after


def test_another_list_of_officials_is_still_undone_in_changes(
    desk: DeskSeason, kim: Client
) -> None:
    """Two rows that are others at once are no name that was corrected."""
    rows = f"{OFFICIALS}{LEFT}\n"
    written_by(desk.season).write({"officials.csv": f"{rows}Fay\nGil\n".encode()})
    written_by(desk.season).write({"officials.csv": f"{rows}Hob\nIda\n".encode()})
    change = Change.objects.filter(name="officials.csv").latest("version")
    kim.post(at("undo"), {"change": f"{change.pk}"})
    assert desk.texts()["officials.csv"].decode() == f"{rows}Fay\nGil\n"
