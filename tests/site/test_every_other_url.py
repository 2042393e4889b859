"""Every address that is not of the desk, for every role: of a public season, and of one that waits.

The table says who may; an address that it does not know fails the test. Those under accounts/
are of the library that signs people in.
"""

from datetime import UTC, datetime, timedelta
from http import HTTPStatus
from typing import Final, NamedTuple

import pytest
from django.test import Client
from django.urls import URLResolver, get_resolver, reverse

from cases.addresses import names_in
from cases.desk_season import ROLES, member
from cases.noticeboard_season import PAGES, TEAM, public_season
from cases.stored import NOW, a_season, an_account
from wholeball.store.feeds import make_token
from wholeball.store.models import Account, Invitation, Membership, Season

pytestmark = pytest.mark.django_db
OTHER_TEAM: Final = "Peer Reviewers"
PLAYER: Final = "k-hoku"
SEASON: Final = ("harrow-fen", "autumn")
NOWHERE: Final = ("harrow-fen", "winter")
MEMBERS: Final = frozenset(ROLES)
SIGNED_IN: Final = MEMBERS | {"stranger"}
ALL: Final = SIGNED_IN | {"public"}
IN_STUDY: Final = frozenset({"coordinator", "supervisor", "official"})
COORDINATORS: Final = frozenset({"coordinator", "stranger"})
NOBODY: Final = frozenset[str]()
FINE: Final = frozenset({200, 302, 304})
"""What somebody is answered who may: a page, or a step on."""


class Route(NamedTuple):
    """Who may, by which method, with which words, and what a form sends; of a season or not.

    `args` are words, or what makes them anew, since what is closed is closed once.
    """

    may: frozenset[str]
    method: str = "GET"
    args: tuple[object, ...] = ()
    sends: dict[str, str] | None = None
    of_a_season: bool = False


def _role(season: Season) -> int:
    """Return the number of somebody's role."""
    account = an_account(f"Somebody {Account.objects.count()}")
    seat = Membership.objects.create(
        organisation=season.organisation,
        account=account,
        role="captain",
        season=season,
        team=TEAM,
    )
    return int(seat.pk)


def _invitation(season: Season) -> int:
    """Return the number of a link that waits."""
    made = Invitation.objects.create(
        organisation=season.organisation,
        role="captain",
        season=season,
        team=TEAM,
        digest=f"{Invitation.objects.count()}",
        expires_at=datetime.now(UTC) + timedelta(days=1),
    )
    return int(made.pk)


def _token(season: Season) -> str:
    """Return the word of a feed that no account made."""
    return make_token(season, "team", TEAM, account=None, at=NOW)


def page(may: frozenset[str], *args: object) -> Route:
    """Return the route of a page of a season."""
    return Route(may, "GET", args, of_a_season=True)


def form(may: frozenset[str], *args: object, **sends: str) -> Route:
    """Return the route of a form of a season."""
    return Route(may, "POST", args, sends, of_a_season=True)


TABLE: Final[dict[str, Route]] = {
    "icon": Route(ALL),
    "account": Route(SIGNED_IN),
    "roles": Route(COORDINATORS),
    "end_role": Route(frozenset({"coordinator"}), "POST", (_role,)),
    "give_role_back": Route(NOBODY, "POST", (1,)),
    "invitations": Route(COORDINATORS),
    "invite_captains": Route(COORDINATORS),
    "close_invitation": Route(frozenset({"coordinator"}), "POST", (_invitation,)),
    "invitation": Route(NOBODY, "GET", ("no-word-of-ours",)),
    "start": Route(NOBODY),
    "study:home": Route(SIGNED_IN),
    "study:happened": page(IN_STUDY),
    "study:different": page(IN_STUDY),
    "noticeboard:home": Route(ALL),
    "noticeboard:feed": Route(ALL, "GET", (_token,)),
    "noticeboard:own": Route(SIGNED_IN),
    "noticeboard:own_season": page(MEMBERS),
    "noticeboard:own_team": page(frozenset({"coordinator", "captain"}), TEAM),
    "noticeboard:own_name": form(frozenset({"player"}), person=PLAYER, shown="hidden"),
    "noticeboard:make_feed": form(frozenset({"captain", "player"}), subject=f"team:{TEAM}"),
    "noticeboard:close_feed": form(NOBODY, 1),
}
"""Every address beside the desk, but for the pages of the noticeboard."""
MISSING: Final[dict[str, tuple[object, ...]]] = {
    "draw_file": ("seeds", "draw.json"),
    "why": (1, 1, 1),
}
"""What this season does not have: a draw that was held, and a pool too large for one page."""
OF_A_SEASON: Final = {
    **{name: route for name, route in TABLE.items() if route.of_a_season},
    **{f"noticeboard:{name}": page(ALL, *words) for name, words in PAGES.items()},
}


@pytest.fixture
def season() -> Season:
    return public_season()


@pytest.fixture
def people(season: Season) -> dict[str, Client]:
    """A browser for each role, for who runs another season alone, and for the public."""
    theirs = {
        "captain": {"team": TEAM, "person": "k-adaeze"},
        "player": {"team": TEAM, "person": PLAYER},
        "official": {"person": "Tova Quillmere"},
    }
    found = {role: member(season, role, **theirs.get(role, {})) for role in ROLES}
    stranger = member(a_season("Spring"), "coordinator", person="Elsewhere")
    return {**found, "stranger": stranger, "public": Client()}


def who_may(
    people: dict[str, Client], season: Season, name: str, route: Route, where: tuple[str, str]
) -> set[str]:
    """Return who is let in; who has to sign in first is not, and is sent to do so."""
    found = set()
    for role, client in people.items():
        words = (_word(one, season) for one in route.args)
        url = reverse(name, args=(*(where if route.of_a_season else ()), *words))
        does = client.get if route.method == "GET" else client.post
        answer = does(url, route.sends or {})
        is_door = answer.headers.get("Location", "").startswith("/accounts/login/")
        assert answer.status_code in {*FINE, HTTPStatus.NOT_FOUND}, (role, url)
        assert not is_door or role == "public"
        if answer.status_code in FINE and not is_door:
            found.add(role)
    return found


def _word(one: object, season: Season) -> object:
    return one(season) if callable(one) else one


def test_the_tables_know_every_address_beside_the_desk_and_no_other() -> None:
    found = []
    for one in get_resolver().url_patterns:
        if not isinstance(one, URLResolver):
            found.append(str(one.name))
        elif one.app_name in ("study", "noticeboard"):
            found += [f"{one.app_name}:{name}" for name in names_in(one.url_patterns)]
        else:
            assert f"{one.pattern}" in ("accounts/", "desk/")
    pages = {f"noticeboard:{name}" for name in {**PAGES, **MISSING}}
    assert sorted(found) == sorted({*TABLE, *pages})


@pytest.mark.parametrize("name", TABLE)
def test_an_address_opens_to_who_may_and_is_missing_to_all_others(
    season: Season, people: dict[str, Client], name: str
) -> None:
    assert who_may(people, season, name, TABLE[name], SEASON) == TABLE[name].may


@pytest.mark.parametrize("name", PAGES)
def test_a_page_of_the_noticeboard_is_of_all_or_of_members_where_the_season_waits(
    season: Season, people: dict[str, Client], name: str
) -> None:
    route = page(ALL, *PAGES[name])
    assert who_may(people, season, f"noticeboard:{name}", route, SEASON) == ALL
    Season.objects.filter(pk=season.pk).update(is_public=False)
    assert who_may(people, season, f"noticeboard:{name}", route, SEASON) == MEMBERS


@pytest.mark.parametrize("name", OF_A_SEASON)
def test_nobody_is_let_into_a_season_that_does_not_exist(
    season: Season, people: dict[str, Client], name: str
) -> None:
    assert who_may(people, season, name, OF_A_SEASON[name], NOWHERE) == NOBODY


@pytest.mark.parametrize("name", MISSING)
def test_what_the_season_does_not_have_is_missing_to_all(
    season: Season, people: dict[str, Client], name: str
) -> None:
    route = page(NOBODY, *MISSING[name])
    assert who_may(people, season, f"noticeboard:{name}", route, SEASON) == NOBODY


@pytest.mark.parametrize("other", [OTHER_TEAM, "Nowhere"])
def test_the_roster_of_another_team_is_missing_to_its_captain_like_that_of_none(
    season: Season, people: dict[str, Client], other: str
) -> None:
    route = page(NOBODY, other)
    may = {"coordinator"} if other == OTHER_TEAM else NOBODY
    assert who_may(people, season, "noticeboard:own_team", route, SEASON) == may


def test_a_feed_is_closed_by_who_made_it_alone(
    season: Season, people: dict[str, Client]
) -> None:
    made = people["captain"].post(
        reverse("noticeboard:make_feed", args=SEASON), {"subject": f"team:{TEAM}"}
    )
    assert made.status_code == HTTPStatus.OK
    feed = season.feedtoken_set.get().pk
    others = {role: client for role, client in people.items() if role != "captain"}
    route = form(NOBODY, feed)
    assert who_may(others, season, "noticeboard:close_feed", route, SEASON) == NOBODY
    theirs = {"captain": people["captain"]}
    assert who_may(theirs, season, "noticeboard:close_feed", route, SEASON) == {"captain"}
