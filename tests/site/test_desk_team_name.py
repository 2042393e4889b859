"""A team's name is corrected at the desk, with all that lets people in; what is sealed stays."""

from datetime import UTC, datetime
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.test import Client

from cases.answers import said, words
from cases.desk_season import DeskSeason, a_desk, at, member
from cases.stored import NOW, written_by
from wholeball.files.folder import read_folder
from wholeball.files.timetable import FILE as TIMETABLE
from wholeball.store.drafts import Whose, keep_step
from wholeball.store.feeds import history_of
from wholeball.store.models import (
    Account,
    Change,
    Draft,
    FeedToken,
    Invitation,
    Membership,
    Search,
    Season,
)
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.feed_games import entries_of

pytestmark = pytest.mark.django_db
NEW: Final = "Elder & Sons"


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    """A season in which the game of Ash and Birch is recorded, and none of Elder's."""
    return a_desk(tmp_path)


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def version() -> str:
    return f"{Season.objects.get().version}"


def correct(client: Client, team: str, name: str, seen: str = "") -> Any:
    return client.post(at("team_name", team), {"team": name, "version": seen or version()})


def drop(client: Client, team: str) -> Any:
    return client.post(at("drop_team", team), {"version": version()})


def test_a_name_typed_with_its_accent_apart_is_written_as_one_and_found(kim: Client) -> None:
    answer = correct(kim, "Elder", "E\N{COMBINING ACUTE ACCENT}lder ")
    assert answer.headers["Location"] == at("team", "\N{LATIN CAPITAL LETTER E WITH ACUTE}lder")
    assert kim.get(answer.headers["Location"]).status_code == HTTPStatus.OK


def test_a_name_is_corrected_and_who_has_the_team_still_has_it(
    desk: DeskSeason, kim: Client
) -> None:
    captain = member(desk.season, "captain", team="Elder", person="Elder: Ana")
    organisation = desk.season.organisation
    Invitation.objects.create(
        organisation=organisation,
        role="player",
        season=desk.season,
        team="Elder",
        person="Elder: Ana",
        digest="i",
        expires_at=NOW,
    )
    for subject in ("Elder", "Ash"):
        FeedToken.objects.create(
            season=desk.season, kind="team", subject=subject, digest=subject, made_at=NOW
        )
    FeedToken.objects.create(
        season=desk.season, kind="official", subject="Elder", digest="o", made_at=NOW
    )
    assert captain.get(at("team", "Elder")).status_code == HTTPStatus.OK
    before = desk.texts()
    answer = correct(kim, "Elder", NEW)
    assert said(answer) == f"Elder is called {NEW} now. To undo it, correct the name back."
    assert answer.headers["Location"] == at("team", NEW)
    assert captain.get(at("team", NEW)).status_code == HTTPStatus.OK
    assert kim.get(at("team", "Elder")).status_code == HTTPStatus.NOT_FOUND
    after = desk.texts()
    changed = {name for name, data in after.items() if data != before[name]}
    assert changed == {"teams.csv", "timetable.csv", "rosters.csv"}
    assert all(
        after[name].decode().replace(NEW, "Elder") == before[name].decode() for name in changed
    )
    assert [(one.team, one.person) for one in Invitation.objects.all()] == [
        (NEW, f"{NEW}: Ana")
    ]
    assert sorted((one.kind, one.subject) for one in FeedToken.objects.all()) == [
        ("official", "Elder"),
        ("team", "Ash"),
        ("team", NEW),
    ]


def test_the_calendar_of_the_team_keeps_its_games_and_none_is_called_off(kim: Client) -> None:
    def games(team: str) -> list[tuple[str, str, str, bool]]:
        season = Season.objects.get()
        found = entries_of(read_folder(snapshot_of(season)), "team", team, history_of(season))
        return [(one.when.game, one.when.home, one.when.away, one.is_off) for one in found]

    assert games("Elder") == [("A3", "Ash", "Elder", False), ("A4", "Elder", "Birch", False)]
    correct(kim, "Elder", NEW)
    assert games(NEW) == [("A3", "Ash", NEW, False), ("A4", NEW, "Birch", False)]
    assert [one for *_, one in games("Ash")] == [False] * 3


@pytest.mark.parametrize(("letters", "status"), [(75, 302), (76, 422)])
def test_whoever_signs_in_by_team_and_name_has_a_name_that_can_be_kept(
    desk: DeskSeason, kim: Client, letters: int, status: int
) -> None:
    member(desk.season, "player", team="Elder", person="Elder: Ana")
    before, name = desk.texts(), "E" * letters
    answer = kim.post(at("team_name", "Elder"), {"team": name, "version": version()})
    assert (answer.status_code, desk.texts() == before) == (status, status == 422)
    if status == 422:
        told = "Elder: Ana has a sign-in, and would be known by 81 letters there."
        assert told in words(answer)


def test_a_role_that_somebody_has_by_both_names_is_kept_once(
    desk: DeskSeason, kim: Client
) -> None:
    member(desk.season, "captain", team="Elder", person="Elder: Ana")
    one = Membership.objects.get(team="Elder")
    Membership.objects.create(
        organisation=one.organisation,
        account=one.account,
        role="captain",
        season=one.season,
        team=NEW,
        person=f"{NEW}: Ana",
    )
    correct(kim, "Elder", NEW)
    assert [one.team for one in Membership.objects.filter(account=one.account)] == [NEW]


def test_a_name_that_cannot_be_is_told_beside_its_field_and_kept(
    desk: DeskSeason, kim: Client
) -> None:
    before = desk.texts()
    for name, says in (
        ("aSH", "There is a team of that name: Ash."),
        ("seed 3", '"seed 3" reads like a side of a play-off game'),
        ("", "There is no name yet. Write one."),
    ):
        answer = correct(kim, "Elder", name)
        assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
        assert says in answer.context["form"].errors["team"][0]
        assert f'value="{name}"' in words(answer) or not name
    assert desk.texts() == before


def test_a_team_with_a_recorded_game_keeps_its_name_and_stays(
    desk: DeskSeason, kim: Client
) -> None:
    before = desk.texts()
    says = "Ash has what is sealed: the log of game A1."
    assert says in words(correct(kim, "Ash", "Oak"))
    answer = drop(kim, "Ash")
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert answer.context["refused"].says == says
    assert desk.texts() == before
    assert Membership.objects.filter(team="Ash").count() == 2


def test_a_draft_of_the_timetable_in_which_the_team_plays_is_in_the_way(
    desk: DeskSeason, kim: Client
) -> None:
    text = desk.texts()["timetable.csv"].decode()
    account = Account.objects.get(email__startswith="coordinator")
    whose = Whose(season=desk.season, account=account, file=TIMETABLE)
    keep_step(whose, text, base=text, step=0)
    answer = correct(kim, "Elder", NEW)
    assert "has a draft of the timetable in which Elder plays." in words(answer)
    without = "\n".join(row for row in text.splitlines() if "Elder" not in row)
    keep_step(whose, without, base=text, step=1)
    assert correct(kim, "Elder", NEW).status_code == HTTPStatus.FOUND


def test_who_corrects_what_another_changed_meanwhile_is_told(kim: Client) -> None:
    old = version()
    correct(kim, "Elder", "Elders")
    correct(kim, "Elders", "Elder")
    answer = correct(kim, "Elder", NEW, seen=old)
    assert "It was changed while you worked on it." in words(answer)
    assert f'value="{NEW}"' in words(answer)
    assert correct(kim, "Elder", NEW, seen=answer.context["version"]).status_code == 302


def test_a_team_that_nothing_names_is_taken_out_and_comes_back_by_changes(
    desk: DeskSeason, kim: Client
) -> None:
    answer = drop(kim, "Elder")
    assert answer.context["refused"].says == "Elder is named in rosters.csv and timetable.csv."
    assert "Elder is named in the list of players and the timetable." in words(answer)
    texts = desk.texts()
    rows = texts["teams.csv"].decode() + "Fir,A,one\n"
    written_by(desk.season).write({"teams.csv": rows.encode()})
    answer = drop(kim, "Fir")
    assert said(answer) == "Fir is taken out. To undo it: Season, Changes."
    assert desk.texts()["teams.csv"] == texts["teams.csv"]
    change = Change.objects.filter(name="teams.csv").latest("version")
    kim.post(at("undo"), {"change": f"{change.pk}"})
    assert desk.texts()["teams.csv"] == rows.encode()


@pytest.mark.parametrize("file", ["teams.csv", "rosters.csv"])
def test_another_name_is_not_undone_file_by_file_but_corrected_back(
    desk: DeskSeason, kim: Client, file: str
) -> None:
    before = desk.texts()
    correct(kim, "Elder", NEW)
    change = Change.objects.filter(name=file).latest("version")
    after = desk.texts()
    answer = kim.post(at("undo"), {"change": f"{change.pk}"})
    assert said(answer) == (
        f"Elder is called {NEW} since, by all who have to do with it."
        f" Correct the name back on the page of {NEW}."
    )
    assert desk.texts() == after
    correct(kim, NEW, "Elder")
    assert desk.texts() == before


def test_a_captain_is_shown_no_way_to_another_name(desk: DeskSeason, kim: Client) -> None:
    assert at("team_name", "Ash") in words(kim.get(at("team", "Ash")))
    captain = desk.people["captain"]
    assert "Name of the team" not in words(captain.get(at("team", "Ash")))


def found_before(desk: DeskSeason, text: str) -> Search:
    """Return a search that ended with a timetable which nobody has taken yet."""
    now, kim = datetime.now(UTC), Account.objects.get(email__startswith="coordinator")
    found = {"text": text, "total": 1, "bound": 1, "lines": [], "remarks": []}
    return Search.objects.create(
        season=desk.season,
        account=kim,
        kind="plan",
        state="done",
        made_at=now,
        beat=now,
        version=1,
        base=text,
        found=found,
    )


def test_a_timetable_found_before_a_name_was_corrected_is_not_taken(
    desk: DeskSeason, kim: Client
) -> None:
    """The board could not be opened with it, and so not be thrown away."""
    search = found_before(desk, desk.texts()[TIMETABLE].decode())
    correct(kim, "Elder", NEW)
    answer = kim.post(at("take_task", search.pk), {"step": "0"})
    assert said(answer).startswith("The season was changed since: this fits it no longer.")
    assert not Draft.objects.exists()
    assert kim.get(at("calendar")).status_code == HTTPStatus.OK
    again = found_before(desk, desk.texts()[TIMETABLE].decode())
    assert said(kim.post(at("take_task", again.pk), {"step": "0"})).startswith(
        "It is your draft"
    )


def test_a_team_of_somebodys_draft_is_not_taken_out(desk: DeskSeason, kim: Client) -> None:
    record = written_by(desk.season)
    teams = record.read("teams.csv", 10_000).decode()
    record.write({"teams.csv": f"{teams}Fir,A,one\n".encode()})
    base = desk.texts()[TIMETABLE].decode()
    account = Account.objects.get(email__startswith="coordinator")
    whose = Whose(season=desk.season, account=account, file=TIMETABLE)
    keep_step(whose, base.replace("Elder", "Fir"), base=base, step=0)
    assert "has a draft of the timetable in which Fir plays." in words(drop(kim, "Fir"))
    assert "Fir" in desk.texts()["teams.csv"].decode()
    Draft.objects.all().delete()
    drop(kim, "Fir")
    assert "Fir" not in desk.texts()["teams.csv"].decode()
