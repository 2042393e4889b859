"""Every page and feed over facts that do not fit together says so, and never half of something."""

from typing import Final

import pytest
from django.test import Client
from django.urls import reverse

from cases import noticeboard_season
from cases.addresses import names_in
from cases.noticeboard_season import TEAM, change, public_season, seat, text
from cases.stored import NOW, a_season, an_account, written_by
from wholeball.noticeboard import urls
from wholeball.store.feeds import make_token
from wholeball.store.models import FeedToken, Season

pytestmark = pytest.mark.django_db
SEASON: Final = ("harrow-fen", "autumn")
PAGES: Final[dict[str, tuple[object, ...]]] = {
    **noticeboard_season.PAGES,
    "why": (1, 1, 1),
    "own_season": (),
    "own_team": (TEAM,),
}
"""The pages of a season, each with what it is of."""
OTHERWISE: Final = frozenset(
    {"home", "own", "feed", "draw_file", "own_name", "make_feed", "close_feed"}
)
"""Those that read no facts, the feed, and the forms, which have tests of their own."""
BREAKS: Final = {
    "teams.csv": "team,pool,colours,second_colours\nLibrary Fines,A,,\n",
    "rulebook.toml": "schema = 1\nname = [",
    "season.toml": "name = 'Autumn'\nname = 'Autumn'\n",
    "planning.toml": "weeks = 'many'\n",
    "discipline.csv": "ruling,date,person,game,ruled,games,until,ref,why\n1,x,y,,z,,,H 1,W\n",
}


@pytest.fixture
def season() -> Season:
    return public_season()


@pytest.fixture
def captain(season: Season) -> Client:
    account = an_account()
    seat(account, season, "captain", team=TEAM, person="k-adaeze")
    client = Client(raise_request_exception=False)
    client.force_login(account)
    return client


def broken(season: Season, name: str) -> None:
    change(season, **{name.replace(".", "_"): BREAKS[name]})


def answers(client: Client) -> dict[str, tuple[int, str]]:
    """Return what each page answers: its status, and when to come again."""
    found = {}
    for name, args in PAGES.items():
        answer = client.get(reverse(f"noticeboard:{name}", args=(*SEASON, *args)))
        found[name] = (answer.status_code, answer.headers.get("Retry-After", ""))
    return found


def test_every_address_of_the_noticeboard_is_known_here() -> None:
    assert set(names_in(urls.urlpatterns)) == PAGES.keys() | OTHERWISE


@pytest.mark.parametrize("name", BREAKS)
def test_every_page_over_broken_facts_says_to_come_again(
    season: Season, captain: Client, name: str
) -> None:
    broken(season, name)
    assert answers(captain) == dict.fromkeys(PAGES, (503, "600"))
    page = captain.get(f"/{'/'.join(SEASON)}/").content.decode()
    assert "The coordinator sees at the desk what does not fit." in page
    assert "Traceback" not in page


def test_a_season_of_which_nothing_is_known_yet_says_to_come_again() -> None:
    season = a_season()
    season.is_public = True
    season.save()
    client = Client(raise_request_exception=False)
    front = client.get(f"/{'/'.join(SEASON)}/")
    assert (front.status_code, front.headers["Retry-After"]) == (503, "600")


@pytest.mark.parametrize("name", BREAKS)
@pytest.mark.parametrize("kind", ["team", "official", "field"])
def test_a_feed_over_broken_facts_is_a_reason_in_text_and_no_calendar(
    season: Season, name: str, kind: str
) -> None:
    subject = {"team": TEAM, "official": "Tova Quillmere", "field": "Lower Meadow 1"}[kind]
    address = f"/feeds/{make_token(season, kind, subject, account=None, at=NOW)}.ics"
    client = Client(raise_request_exception=False)
    before = text(season, name) if written_by(season).has(name) else None
    whole = client.get(address)
    broken(season, name)
    answer = client.get(address)
    assert (answer.status_code, answer.headers["Retry-After"]) == (503, "600")
    assert answer.headers["Content-Type"] == "text/plain; charset=utf-8"
    assert "no-store" in answer.headers["Cache-Control"]
    assert b"VCALENDAR" not in answer.content
    assert b"Your calendar keeps what it has." in answer.content
    if before is not None:
        change(season, **{name.replace(".", "_"): before})
        again = client.get(address)
        assert (again.status_code, again.content) == (200, whole.content)


def test_a_feed_that_was_closed_is_as_unknown_over_broken_facts(season: Season) -> None:
    token = make_token(season, "team", TEAM, account=None, at=NOW)
    FeedToken.objects.update(revoked_at=NOW)
    broken(season, "teams.csv")
    assert Client().get(f"/feeds/{token}.ics").status_code == 404


def test_a_form_over_broken_facts_makes_nothing(season: Season, captain: Client) -> None:
    broken(season, "teams.csv")
    made = captain.post(
        reverse("noticeboard:make_feed", args=SEASON), {"subject": f"team:{TEAM}"}
    )
    assert (made.status_code, FeedToken.objects.count()) == (503, 0)
    before = written_by(season).read("rosters.csv", 10_000)
    name = {"person": "k-adaeze", "shown": "full"}
    chosen = captain.post(reverse("noticeboard:own_name", args=SEASON), name)
    assert chosen.status_code in (302, 503)
    assert written_by(season).read("rosters.csv", 10_000) == before
