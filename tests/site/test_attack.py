"""What an attacker tries who has an account: more than their role, their season, their link.

Each of these got through once.
"""

from pathlib import Path
from typing import Final

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.validators import slug_re
from django.db import IntegrityError, transaction
from django.test import Client
from django.urls import get_resolver

from cases.desk_season import GAME, HERE, DeskSeason, a_desk
from cases.noticeboard_season import public_season, seat
from cases.stored import NOW, an_account, written_by
from wholeball.files.folder_record import FolderRecord
from wholeball.site.invitations import accept, digest_of, invite
from wholeball.store.feeds import make_token
from wholeball.store.models import Account, AuditRow, Membership, Organisation, Season
from wholeball.store.models.organisation import RESERVED
from wholeball.usecases.export_season import export_season

pytestmark = pytest.mark.django_db
OTHERS_GAME: Final = "C1"
OTHERS_NIGHT: Final = "2026-09-16"
OWN_PAGES: Final = "/me/harrow-fen/autumn/"


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path)


def also(desk: DeskSeason, role: str) -> Client:
    """Return the supervisor's browser, who has another role as well, in which no name is known."""
    Membership.objects.create(
        organisation=desk.season.organisation,
        account=Account.objects.get(email__startswith="supervisor"),
        role=role,
        season=desk.season,
    )
    return desk.people["supervisor"]


def step(desk: DeskSeason, way: str) -> None:
    """Go a step of entering back, or forth again, on the game's page as it is now."""
    client = desk.people["scorekeeper"]
    entries = client.get(f"{HERE}games/{GAME}/").context["entries"]
    client.post(f"{HERE}games/{GAME}/step/", {"way": way, "entries": entries})


def noted() -> list[tuple[str, str]]:
    return list(AuditRow.objects.order_by("pk").values_list("did", "what"))


@pytest.mark.parametrize(
    "page",
    [
        f"games/{OTHERS_GAME}/certify/",
        f"games/{OTHERS_GAME}/questions/",
        f"nights/{OTHERS_NIGHT}/packet.pdf",
        f"nights/{OTHERS_NIGHT}/scorecards.pdf",
    ],
)
def test_a_role_that_works_at_all_games_lends_nothing_to_one_that_works_at_some(
    desk: DeskSeason, page: str
) -> None:
    both = also(desk, "scorekeeper")
    assert both.get(f"{HERE}{page}").status_code == 404
    assert both.get(f"{HERE}games/{OTHERS_GAME}/scorecard/").status_code == 200
    assert both.get(f"{HERE}games/{GAME}/certify/").status_code == 200


def test_a_captain_who_comes_second_is_told_no_row_of_another_roster(desk: DeskSeason) -> None:
    captain = desk.people["captain"]
    sent = SimpleUploadedFile(
        "list.csv", b"student_id,name,number,captain\n00123456,Quill Newcome,88,no\n"
    )
    held = captain.post(f"{HERE}teams/Ash/list/", {"list": sent}).context["held"]
    record = written_by(desk.season)
    rows = record.read("rosters.csv", 1_000_000).decode().splitlines()
    columns = rows[0].split(",")
    theirs = {"team": "Cedar", "name": "Secret Someone", "number": "77", "person": "k-secret"}
    ours = {"team": "Ash", "name": "Quill Other", "number": "78"}
    more = [",".join(cells.get(one, "") for one in columns) for cells in (theirs, ours)]
    record.write({"rosters.csv": "\n".join([*rows, *more, ""]).encode()})
    answer = captain.post(f"{HERE}teams/Ash/add/", {"held": held})
    page = answer.content.decode()
    assert (answer.status_code, "It was changed while you worked on it" in page) == (422, True)
    assert [one for one in ("Secret Someone", "k-secret", "Cedar") if one in page] == []


def test_no_line_of_a_report_stands_on_a_page_whose_reading_is_not_noted(
    desk: DeskSeason,
) -> None:
    official, coordinator = desk.people["official"], desk.people["coordinator"]
    official.post(f"{HERE}games/{GAME}/report/", {"says": "He pushed the keeper."})
    page = coordinator.get(f"{HERE}changes/")
    changes = {one.change.name: one.rows for one in page.context["changes"]}
    assert changes[f"reports/{GAME}.1.toml"] == ""
    assert "pushed" not in page.content.decode()


def test_a_report_that_is_exported_is_read_by_this_account_alone(
    desk: DeskSeason, tmp_path: Path
) -> None:
    desk.people["official"].post(f"{HERE}games/{GAME}/report/", {"says": "He pushed."})
    export_season(written_by(desk.season), FolderRecord(tmp_path / "out"))
    modes = {
        path.relative_to(tmp_path / "out").as_posix(): path.stat().st_mode & 0o077
        for path in (tmp_path / "out" / "reports").iterdir()
    }
    assert modes == {f"reports/{GAME}.1.toml": 0}


@pytest.mark.parametrize(
    ("kind", "subject", "role", "of"),
    [
        ("team", "Library Fines", "captain", {"team": "Library Fines"}),
        ("team", "Library Fines", "player", {"team": "Library Fines", "person": "k-hoku"}),
        ("official", "Tova Quillmere", "official", {"person": "Tova Quillmere"}),
        ("field", "Lower Meadow 1", "coordinator", {}),
    ],
)
def test_a_feed_ends_with_the_role_it_was_made_in_and_with_the_account(
    client: Client, kind: str, subject: str, role: str, of: dict[str, str]
) -> None:
    season, account = public_season(), an_account()
    seat(account, season, role, **of)
    address = f"/feeds/{make_token(season, kind, subject, account=account, at=NOW)}.ics"
    assert client.get(address).status_code == 200
    Account.objects.filter(pk=account.pk).update(is_active=False)
    assert client.get(address).status_code == 404
    Account.objects.filter(pk=account.pk).update(is_active=True)
    Membership.objects.filter(account=account).update(season=public_season(name="Spring"))
    assert client.get(address).status_code == 404
    Membership.objects.filter(account=account).delete()
    assert client.get(address).status_code == 404


def test_feeds_that_are_made_and_closed_are_noted_and_their_words_are_not(
    client: Client,
) -> None:
    season, account = public_season(), an_account()
    seat(account, season, "captain", team="Library Fines")
    client.force_login(account)
    before = len(noted())
    made = client.post(f"{OWN_PAGES}feeds/", {"subject": "team:Library Fines"})
    number = account.feedtoken_set.get().pk
    client.post(f"{OWN_PAGES}feeds/{number}/close/")
    assert noted()[before:] == [
        ("made", "autumn: feed of team Library Fines"),
        ("closed", f"autumn: feed {number}"),
    ]
    token = made.context["href"].rpartition("/")[2].removesuffix(".ics")
    assert [what for _, what in noted() if token in what] == []


def test_a_role_that_is_taken_by_a_link_is_noted_with_who_took_it() -> None:
    league = Organisation.objects.create(name="Meadow leagues", slug="meadow")
    season = Season.objects.create(organisation=league, slug="spring", name="Spring")
    account = an_account()
    word = invite(league, "captain", until=NOW.replace(year=2027), season=season, team="Ash")
    accept(digest_of(word), account, NOW)
    row = AuditRow.objects.get(organisation=league)
    assert (row.account, row.did, row.what) == (account, "joined", "spring: as captain, Ash")


def test_a_captain_who_reads_a_roster_at_the_desk_is_noted(desk: DeskSeason) -> None:
    desk.people["captain"].get(f"{HERE}teams/Ash/")
    assert noted()[-1] == ("saw", "autumn: the roster of Ash")


def test_who_prints_the_rosters_of_a_night_on_its_scorecards_is_noted(desk: DeskSeason) -> None:
    desk.people["supervisor"].get(f"{HERE}nights/2026-09-15/scorecards.pdf")
    assert noted()[-1] == ("saw", "autumn: the scorecards of 2026-09-15")


def test_what_a_decision_would_come_to_is_noted_though_nothing_is_written(
    desk: DeskSeason,
) -> None:
    asked = {"person": "k-umaru", "ruled": "games", "games": "1", "ref": "H 1", "why": "Words."}
    answer = desk.people["coordinator"].post(f"{HERE}suspensions/decide/", asked)
    assert answer.context["found"] is not None
    assert noted()[-1] == ("saw", "autumn: the suspensions of k-umaru")


def test_what_was_entered_after_the_page_was_shown_is_not_certified_unseen(
    desk: DeskSeason,
) -> None:
    address, coordinator = f"{HERE}games/{GAME}/certify/", desk.people["coordinator"]
    seen = coordinator.get(address).context["entries"]
    for way in ("undo", "redo"):
        step(desk, way)
    late = coordinator.post(address, {"reason": "", "entries": seen})
    assert (late.status_code, "while you looked" in late.content.decode()) == (422, True)
    assert late.context["entries"] > seen
    newest = {"reason": "", "entries": late.context["entries"]}
    assert coordinator.post(address, newest).status_code == 302


def test_what_was_entered_after_the_page_was_shown_is_not_counted_by_reopening_unseen(
    desk: DeskSeason,
) -> None:
    coordinator = desk.people["coordinator"]
    certify, reopen = (f"{HERE}games/{GAME}/{one}/" for one in ("certify", "reopen"))
    entries = coordinator.get(certify).context["entries"]
    assert coordinator.post(certify, {"reason": "", "entries": entries}).status_code == 302
    why = {"reason": "A goal was left out."}
    seen = coordinator.get(reopen).context["entries"]
    step(desk, "undo")
    before = desk.texts()
    late = coordinator.post(reopen, {**why, "entries": seen})
    assert (late.status_code, desk.texts()) == (422, before)
    told = late.content.decode()
    assert ("while you looked" in told, f'value="{seen}"' in told) == (True, False)
    assert late.context["entries"] > seen
    newest = {**why, "entries": late.context["entries"]}
    assert coordinator.post(reopen, newest).status_code == 302


@pytest.mark.parametrize(("ahead", "status"), [(0, 302), (1, 422)])
def test_a_page_of_a_version_that_is_yet_to_come_writes_nothing(
    desk: DeskSeason, ahead: int, status: int
) -> None:
    coordinator, before = desk.people["coordinator"], desk.texts()
    sent = {"person": "k-umaru", "ruled": "games", "games": "1", "ref": "H 1", "why": "Words."}
    version = Season.objects.get(pk=desk.season.pk).version + ahead
    sure = {**sent, "sure": "yes", "version": version}
    answer = coordinator.post(f"{HERE}suspensions/decide/", sure)
    assert (answer.status_code, desk.texts() != before) == (status, status == 302)


@pytest.mark.parametrize("slug", RESERVED)
def test_no_organisation_is_called_as_a_page_of_the_site(slug: str) -> None:
    with (
        pytest.raises(IntegrityError, match="store_organisation_not_reserved"),
        transaction.atomic(),
    ):
        Organisation.objects.create(name="Taken", slug=slug)
    Organisation.objects.create(name="Free", slug=f"{slug}-2")


def test_every_first_word_of_an_address_that_could_be_a_slug_is_reserved() -> None:
    words = {
        str(one.pattern).split("/", 1)[0]
        for resolver in (get_resolver(), get_resolver("wholeball.noticeboard.urls"))
        for one in resolver.url_patterns
    }
    assert {one for one in words if slug_re.fullmatch(one)} <= {*RESERVED}
    assert "static" in RESERVED
