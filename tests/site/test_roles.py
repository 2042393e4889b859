"""Coordinators see who has which role, end one, and give it back; nobody else does."""

import re
from html import unescape
from pathlib import Path
from typing import Final
from urllib.parse import quote

import pytest
from django.core.cache import cache
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from cases.desk_season import DeskSeason, a_desk, at, member
from cases.noticeboard_season import seat
from cases.stored import NOW, a_season, an_account
from wholeball.site.roles import MOST_SHOWN
from wholeball.store.feeds import feed_of, make_token
from wholeball.store.models import Account, AuditRow, Membership, Organisation, Season

pytestmark = pytest.mark.django_db
HERE: Final = "/account/roles/"
EVERYBODY: Final = [
    "coordinator coordinator autumn",
    "supervisor supervisor ada quill as Ada Quill autumn",
    "official official ada quill as Ada Quill autumn",
    "scorekeeper scorekeeper bo tarn as Bo Tarn autumn",
    "captain captain of Ash autumn",
    "player player of Ash autumn",
]

PARTS: Final = ("organisation", "account", "role", "season", "team", "person")
"""What a role is made of."""


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    cache.clear()
    return a_desk(tmp_path)


@pytest.fixture
def coordinator(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def held(role: str) -> Membership:
    return Membership.objects.select_related("account").get(role=role)


def ended(client: Client, number: int) -> str:
    """End a role, and return the page that is shown then."""
    return client.post(f"{HERE}{number}/end/", follow=True).content.decode()


def given_back(client: Client, number: int) -> str:
    """Give a role back, and return the page that is shown then."""
    return client.post(f"{HERE}{number}/back/", follow=True).content.decode()


def rows(client: Client, sought: str = "") -> list[str]:
    """Return role, account, team, name and season of each line that is listed."""
    answer = client.get(HERE, {"sought": sought} if sought else {})
    assert answer.status_code == 200
    return [
        " ".join(
            word
            for word in (
                one.role,
                one.account.name.lower(),
                f"of {one.team}" if one.team else "",
                f"as {one.person}" if one.person else "",
                one.season.slug if one.season else "every season",
            )
            if word
        )
        for one in answer.context["shown"].held
    ]


def test_who_has_which_role_is_listed_coordinators_first(
    coordinator: Client,
) -> None:
    stranger = member(a_season("Spring"), "coordinator", person="Elsewhere")
    assert rows(coordinator) == EVERYBODY
    assert rows(stranger) == ["coordinator coordinator elsewhere as Elsewhere spring"]


@pytest.mark.parametrize(
    ("sought", "found"),
    [
        ("quill", [EVERYBODY[1], EVERYBODY[2]]),
        ("official ada", [EVERYBODY[2]]),
        ("ASH", [EVERYBODY[4], EVERYBODY[5]]),
        ("captain@harrowfen", [EVERYBODY[4]]),
        ("%", []),
        ("x" * 80, []),
    ],
)
def test_each_word_is_looked_for_in_name_address_role_and_team(
    coordinator: Client, sought: str, found: list[str]
) -> None:
    assert rows(coordinator, sought) == found


def test_more_than_80_signs_are_not_looked_for_and_kept(coordinator: Client) -> None:
    answer = coordinator.get(HERE, {"sought": "x" * 81})
    page = answer.content.decode()
    assert (answer.status_code, "x" * 81 in page) == (422, True)
    assert "at most 80" in page


def test_an_ended_role_opens_nothing_from_the_next_page_on(
    desk: DeskSeason, coordinator: Client
) -> None:
    seat_of, official = held("official"), desk.people["official"]
    token = make_token(desk.season, "official", "Ada Quill", account=seat_of.account, at=NOW)
    assert (official.get(at("nights")).status_code, feed_of(token) is None) == (200, False)
    page = unescape(ended(coordinator, seat_of.pk))
    told = "official Ada Quill, official, Ada Quill, Autumn"
    assert f"Ended: {told}. It opens nothing any more." in page
    assert (official.get(at("nights")).status_code, feed_of(token) is None) == (404, True)
    assert rows(coordinator) == [one for one in EVERYBODY if one != EVERYBODY[2]]


def test_a_role_is_given_back_as_it_was(desk: DeskSeason, coordinator: Client) -> None:
    before = list(Membership.objects.order_by("role").values_list(*PARTS))
    number = held("official").pk
    page = ended(coordinator, number)
    assert f"{HERE}{number}/back/" in page
    assert "Given back: official Ada Quill, official, Ada Quill, Autumn." in unescape(
        given_back(coordinator, number)
    )
    assert list(Membership.objects.order_by("role").values_list(*PARTS)) == before
    assert desk.people["official"].get(at("nights")).status_code == 200
    assert f"{HERE}{number}/back/" not in coordinator.get(HERE).content.decode()
    assert coordinator.post(f"{HERE}{number}/back/").status_code == 404


def test_who_ended_and_who_gave_back_is_noted_without_an_address(
    coordinator: Client,
) -> None:
    captain = held("captain")
    ended(coordinator, captain.pk)
    given_back(coordinator, captain.pk)
    what = f"autumn: role of account {captain.account_id} as captain, Ash"
    noted = AuditRow.objects.order_by("-number")[:2]
    assert [(one.did, one.what) for one in noted] == [("gave back", what), ("ended", what)]
    assert {one.account for one in noted} == {held("coordinator").account}


def test_nobody_ends_their_own_role_as_coordinator_and_another_can(
    desk: DeskSeason, coordinator: Client
) -> None:
    own = held("coordinator")
    page = unescape(ended(coordinator, own.pk))
    assert "You cannot end your own role as coordinator" in page
    assert "Let another coordinator end it." in page
    assert Membership.objects.filter(pk=own.pk).exists()
    seat(an_account("Tess Orchard"), desk.season, "coordinator")
    other = Client()
    other.force_login(Account.objects.get(name="Tess Orchard"))
    ended(other, own.pk)
    assert not Membership.objects.filter(pk=own.pk).exists()
    assert coordinator.get(HERE).status_code == 404


def test_who_runs_one_season_ends_no_role_of_every_season_nor_of_another(
    desk: DeskSeason, coordinator: Client
) -> None:
    whole = Membership.objects.create(
        organisation=desk.season.organisation,
        account=an_account("Rae Fenwright"),
        role="supervisor",
    )
    member(a_season("Spring"), "scorekeeper", person="Elsewhere")
    spring = Membership.objects.get(season__slug="spring")
    for one in (whole, spring):
        assert coordinator.post(f"{HERE}{one.pk}/end/").status_code == 404
    assert coordinator.post(f"{HERE}999999/end/").status_code == 404
    assert Membership.objects.filter(pk__in=[whole.pk, spring.pk]).count() == 2


def test_who_runs_every_season_ends_and_gives_back_a_role_of_any(desk: DeskSeason) -> None:
    account = an_account("Rae Fenwright")
    Membership.objects.create(
        organisation=desk.season.organisation, account=account, role="coordinator"
    )
    client = Client()
    client.force_login(account)
    every = Membership.objects.create(
        organisation=desk.season.organisation,
        account=an_account("Ivo Marsh"),
        role="supervisor",
    )
    for one in (every, held("captain")):
        ended(client, one.pk)
        assert not Membership.objects.filter(pk=one.pk).exists()
        given_back(client, one.pk)
    left = Membership.objects.filter(role__in=["supervisor", "captain"])
    assert sorted(left.values_list("account__name", "season__slug")) == [
        ("Ivo Marsh", None),
        ("captain", "autumn"),
        ("supervisor Ada Quill", "autumn"),
    ]


def test_what_another_ended_is_not_theirs_to_give_back(
    coordinator: Client,
) -> None:
    number = held("captain").pk
    ended(coordinator, number)
    other = member(a_season("Spring"), "coordinator", person="Elsewhere")
    assert other.post(f"{HERE}{number}/back/").status_code == 404
    assert not Membership.objects.filter(role="captain").exists()


@pytest.mark.parametrize("gone", ["account", "season", "office"])
def test_what_cannot_be_given_back_any_more_says_so(
    desk: DeskSeason, coordinator: Client, gone: str
) -> None:
    captain = held("captain")
    ended(coordinator, captain.pk)
    seat(held("coordinator").account, a_season("Spring"), "coordinator")
    if gone == "account":
        captain.account.delete()
    elif gone == "season":
        Season.objects.filter(pk=desk.season.pk).update(organisation=other_organisation())
    else:
        Membership.objects.filter(role="coordinator", season=desk.season).delete()
    page = given_back(coordinator, captain.pk)
    assert "It cannot be given back any more. Cure: invite them again." in page
    assert not Membership.objects.filter(role="captain").exists()


def other_organisation() -> Organisation:
    return Organisation.objects.create(slug="far-fen", name="Far Fen")


def test_the_code_of_a_player_is_not_shown(desk: DeskSeason, coordinator: Client) -> None:
    ada = an_account("Ada Player")
    seat(ada, desk.season, "player", team="Ash", person="k-ada")
    page = coordinator.get(HERE, {"sought": "Ada Player"}).content.decode()
    assert ("<bdi>Ash</bdi>" in page, "k-ada" in page) == (True, False)
    after = ended(coordinator, Membership.objects.get(account=ada).pk)
    assert "Ended: Ada Player, player of Ash, Autumn. It opens nothing any more." in after
    assert "k-ada" not in after


@pytest.mark.parametrize("many", [MOST_SHOWN - 6, MOST_SHOWN - 5])
def test_as_many_as_a_page_takes_are_shown_and_the_rest_counted_in_as_many_queries(
    desk: DeskSeason, coordinator: Client, many: int
) -> None:
    coordinator.get(HERE)
    with CaptureQueriesContext(connection) as few:
        coordinator.get(HERE)
    for number in range(many):
        seat(an_account(f"Player {number:03}"), desk.season, "player", team="Ash")
    with CaptureQueriesContext(connection) as more:
        page = coordinator.get(HERE)
    assert len(more) == len(few)
    assert len(page.context["shown"].held) == MOST_SHOWN
    told = re.search(r"And (\d+) more: look for a name below.", page.content.decode())
    assert (told and told[1]) == (None if many == MOST_SHOWN - 6 else "1")


def test_menu_invitations_and_an_officials_page_lead_there(coordinator: Client) -> None:
    for page in ("/invitation/", at("officials_list")):
        assert f'href="{HERE}"' in coordinator.get(page).content.decode()
    for name, is_led in (("Ada Quill", True), ("Cy Imbray", False)):
        page = coordinator.get(at("official", name)).content.decode()
        assert (f'href="{HERE}?sought={quote(name)}"' in page) == is_led
