"""Captains, players and officials read what is theirs, and nothing of anybody else's."""

import re
from datetime import UTC, datetime

import pytest
from django.test import Client

from cases.noticeboard_season import DISCIPLINE, ROOT, public_season, seat, text
from cases.stored import a_season, an_account
from wholeball.store.models import AuditRow, FeedToken, Season

pytestmark = pytest.mark.django_db
OWN = "/me/harrow-fen/autumn/"


def signed_in(season: Season, role: str, **of: str) -> Client:
    account = an_account(f"{role} {of.get('team', '')}{of.get('person', '')}".strip())
    seat(account, season, role, **of)
    client = Client()
    client.force_login(account)
    return client


def page(client: Client, address: str) -> str:
    answer = client.get(address)
    assert answer.status_code == 200, address
    assert "no-store" in answer.headers["Cache-Control"]
    return answer.content.decode()


def plain(page: bytes) -> bytes:
    """Leave out the token against forged forms, which is another each time."""
    return re.sub(rb'name="csrfmiddlewaretoken" value="[^"]*"', b"", page)


def test_nobody_reads_own_pages_without_signing_in(client: Client) -> None:
    public_season()
    for address in ("/me/", OWN, f"{OWN}team/Library%20Fines/"):
        answer = client.get(address)
        assert (answer.status_code, answer.headers["Location"]) == (
            302,
            f"/accounts/login/?next={answer.headers['Location'].partition('=')[2]}",
        )


def test_a_captain_reads_the_roster_of_the_own_team_and_of_no_other() -> None:
    season = public_season()
    client = signed_in(season, "captain", team="Library Fines", person="k-adaeze")
    mine = page(client, f"{OWN}team/Library%20Fines/")
    for name in ("Adaeze Abernwy", "Hoku Lindqvar", "Ondine Whitlomoana"):
        assert f"<bdi>{name}</bdi>" in mine
    for private in ("042", "117", "k-hoku", "Havenko"):
        assert private not in mine
    other = client.get(f"{OWN}team/Peer%20Reviewers/")
    missing = client.get(f"{OWN}team/Nobody/")
    assert (other.status_code, missing.status_code) == (404, 404)
    assert plain(other.content) == plain(missing.content)
    assert [(one.did, one.what) for one in AuditRow.objects.filter(did="read")] == [
        ("read", "autumn: read roster of Library Fines")
    ]


def test_a_player_reads_the_own_suspension_and_nobody_elses_and_it_is_noted() -> None:
    season = public_season(discipline_csv=DISCIPLINE)
    client = signed_in(season, "player", team="Library Fines", person="k-hoku")
    mine = page(client, OWN)
    assert "Hoku Lindqvar" in mine
    assert "2 games left" in mine or "1 game left" in mine
    for foreign in ("Adaeze", "Vashti", "3 games left", "Said something", "Something else"):
        assert foreign not in mine
    assert [one.what for one in AuditRow.objects.filter(did="read")] == [
        "autumn: read own suspensions"
    ]


def test_a_player_chooses_how_the_name_is_read_and_the_rest_of_the_file_stays() -> None:
    people = "person,gender,member_of\nk-adaeze,woman,club\nk-hoku,man,\n"
    season = public_season(people_csv=people)
    client = signed_in(season, "player", team="Library Fines", person="k-hoku")
    team = f"{ROOT}teams/Library%20Fines/"
    assert b"<bdi>10 H. Lindqvar</bdi>" in client.get(team).content
    sent = client.post(f"{OWN}name/", {"person": "k-hoku", "shown": "full"}, follow=True)
    assert b"Your choice holds on every page from now on." in sent.content
    assert b"<bdi>10 Hoku Lindqvar</bdi>" in client.get(team).content
    client.post(f"{OWN}name/", {"person": "k-hoku", "shown": "hidden"})
    assert b"Lindqvar" not in client.get(team).content
    assert text(season, "people.csv") == (
        "person,gender,member_of,shown\nk-adaeze,woman,club,\nk-hoku,man,,hidden\n"
    )


def test_the_first_choice_of_a_season_makes_the_file() -> None:
    season = public_season()
    client = signed_in(season, "player", team="Library Fines", person="k-hoku")
    client.post(f"{OWN}name/", {"person": "k-hoku", "shown": "full"})
    assert text(season, "people.csv").splitlines()[1:] == ["k-hoku,,,,full"]


def test_nobody_chooses_for_somebody_else_and_a_wrong_choice_changes_nothing() -> None:
    season = public_season()
    client = signed_in(season, "player", team="Library Fines", person="k-hoku")
    foreign = client.post(f"{OWN}name/", {"person": "k-adaeze", "shown": "full"})
    assert foreign.status_code == 404
    wrong = client.post(f"{OWN}name/", {"person": "k-hoku", "shown": "loud"}, follow=True)
    assert b"Nothing was changed: choose one of the three ways." in wrong.content
    assert b"<bdi>10 H. Lindqvar</bdi>" in client.get(f"{ROOT}teams/Library%20Fines/").content


def test_an_official_reads_the_own_games_and_their_hours() -> None:
    season = public_season()
    client = signed_in(season, "official", person="Tova Quillmere")
    mine = page(client, OWN)
    assert re.findall(r"<bdi>([^<]* v [^<]*)</bdi>", mine) == [
        "Nutmeg Theory v Corner Office Hours",
        "Second Draft v Peer Reviewers",
    ]
    assert "lead, over" in mine
    assert "Playing time and pauses so far" in mine


def test_a_feed_is_made_shown_once_read_and_closed() -> None:
    season = public_season()
    client = signed_in(season, "captain", team="Library Fines", person="k-adaeze")
    made = client.post(f"{OWN}feeds/", {"subject": "team:Library Fines"}).content.decode()
    found = re.search(r'href="http://testserver(/feeds/[\w-]{43}\.ics)"', made)
    assert found is not None
    assert Client().get(found[1]).status_code == 200
    listed = page(client, OWN)
    assert found[1].removeprefix("/feeds/").removesuffix(".ics") not in listed
    feed = FeedToken.objects.get()
    FeedToken.objects.update(made_at=datetime(2026, 9, 3, 2, 30, tzinfo=UTC))
    assert "since 2 September 2026, " in page(client, OWN)
    client.post(f"{OWN}feeds/{feed.pk}/close/")
    assert Client().get(found[1]).status_code == 404
    assert "You have no feed yet." in page(client, OWN)


def test_nobody_makes_or_closes_a_feed_that_is_not_theirs() -> None:
    season = public_season()
    captain = signed_in(season, "captain", team="Library Fines", person="k-adaeze")
    for subject in (
        "team:Peer Reviewers",
        "official:Tova Quillmere",
        "field:Lower Meadow 1",
        "x",
    ):
        assert captain.post(f"{OWN}feeds/", {"subject": subject}).status_code == 404
    captain.post(f"{OWN}feeds/", {"subject": "team:Library Fines"})
    feed = FeedToken.objects.get()
    other = signed_in(season, "captain", team="Peer Reviewers", person="k-vashti")
    assert other.post(f"{OWN}feeds/{feed.pk}/close/").status_code == 404
    feed.refresh_from_db()
    assert feed.revoked_at is None


def test_a_coordinator_may_have_a_feed_of_every_field() -> None:
    season = public_season()
    client = signed_in(season, "coordinator")
    assert "Make a feed of <bdi>Lower Meadow 1</bdi>" in page(client, OWN)
    assert client.post(f"{OWN}feeds/", {"subject": "field:Lower Meadow 1"}).status_code == 200


def test_a_member_reads_a_season_before_it_is_public_and_it_is_kept_by_nobody_else() -> None:
    season = public_season()
    season.is_public = False
    season.save()
    client = signed_in(season, "player", team="Library Fines", person="k-hoku")
    answer = client.get(ROOT)
    assert answer.status_code == 200
    assert "private" in answer.headers["Cache-Control"]
    assert Client().get(ROOT).status_code == 404


def test_somebody_without_a_part_in_a_season_finds_nothing_there() -> None:
    season = public_season()
    client = Client()
    client.force_login(an_account("A Stranger"))
    assert "You have no part in a season yet." in page(client, "/me/")
    for address in (OWN, f"{OWN}team/Library%20Fines/"):
        assert client.get(address).status_code == 404
    assert not AuditRow.objects.filter(did="read").exists()
    assert season.is_public


def test_who_has_a_part_in_one_season_is_led_there_and_who_has_in_two_chooses() -> None:
    season, account = public_season(), an_account()
    client = Client()
    client.force_login(account)
    seat(account, season, "player", team="Library Fines", person="k-hoku")
    assert client.get("/me/").headers["Location"] == OWN
    seat(account, a_season("Spring"), "official", person="k-hoku")
    assert re.findall(r'href="(/me/[^"]+)"', page(client, "/me/")) == [
        "/me/harrow-fen/spring/",
        OWN,
    ]


@pytest.mark.parametrize("form", ["name", "feeds"])
def test_a_form_without_a_word_to_others_season_is_missing_like_one_with_words(
    form: str,
) -> None:
    public_season()
    elsewhere = a_season("Spring")
    stranger = signed_in(elsewhere, "player", team="Library Fines", person="k-hoku")
    words = {"person": "k-hoku", "shown": "full", "subject": "team:Library Fines"}
    sent = [(season, told) for season in ("autumn", "winter") for told in ({}, words)]
    answers = [stranger.post(f"/me/harrow-fen/{season}/{form}/", told) for season, told in sent]
    assert [one.status_code for one in answers] == [404] * 4
    assert len({plain(one.content) for one in answers}) == 1
