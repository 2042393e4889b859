"""Every link that somebody is shown leads to a page that is theirs."""

import re
from collections.abc import Iterable
from html import unescape
from http import HTTPStatus
from pathlib import Path
from typing import Final

import pytest
from django.test import Client
from django.urls import reverse

from cases.desk_season import ROLES, DeskSeason, a_desk, member
from cases.paper_cards import ordinary
from cases.people_season import enter
from cases.stored import texts_of, written_by
from wholeball.store.models import Account, Membership

pytestmark = pytest.mark.django_db
WHERE: Final = ("harrow-fen", "autumn")
_LINK: Final = re.compile(r'<a\b[^>]*\shref="(/[^"#]*)')
_STARTS: Final = ("/", "/desk/", "/study/", "/me/", "/account/")


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    """Return a season in which game C1, of another crew, was typed in too."""
    made = a_desk(tmp_path)
    folder = tmp_path / "season"
    enter(folder, "C1", ordinary())
    written_by(made.season).append("games/C1.jsonl", texts_of(folder)["games/C1.jsonl"])
    return made


def links_from(client: Client, starts: Iterable[str]) -> dict[str, str]:
    """Follow every link from some pages on, and return what leads nowhere, with its page."""
    waiting = dict.fromkeys(starts, "")
    seen: set[str] = set()
    nowhere: dict[str, str] = {}
    while waiting:
        address, page = waiting.popitem()
        seen.add(address)
        answer = client.get(address, follow=True)
        if answer.status_code != HTTPStatus.OK:
            nowhere[address] = page
        elif answer.headers["Content-Type"].startswith("text/html"):
            found = set(_LINK.findall(unescape(answer.content.decode())))
            waiting |= dict.fromkeys(found - seen, address)
    return nowhere


def mixed(desk: DeskSeason) -> Client:
    """Return a browser of a supervisor of A1's night who keeps the score of C1 on the next."""
    client = member(desk.season, "supervisor", person="Bo Tarn")
    Membership.objects.create(
        organisation=desk.season.organisation,
        account=Account.objects.get(pk=client.session["_auth_user_id"]),
        role="scorekeeper",
        season=desk.season,
        person="Di Lund",
    )
    return client


@pytest.mark.parametrize("role", ROLES)
def test_every_link_that_a_role_is_shown_leads_to_a_page(desk: DeskSeason, role: str) -> None:
    assert links_from(desk.people[role], _STARTS) == {}


def test_somebody_of_two_roles_is_shown_for_each_game_only_what_they_may_do_there(
    desk: DeskSeason,
) -> None:
    client = mixed(desk)
    may = {
        game: [
            name
            for name in ("scorecard", "certify")
            if f'href="{at(name, game)}"' in client.get(at("game", game)).content.decode()
        ]
        for game in ("A1", "C1")
    }
    assert may == {"A1": ["scorecard", "certify"], "C1": ["scorecard"]}
    nights = [client.get(at("night", f"2026-09-{day}")).content.decode() for day in (15, 16)]
    assert [
        at("certify", game) in page for game, page in zip(("A1", "C1"), nights, strict=True)
    ] == [True, False]
    assert ["packet" in page for page in nights] == [True, False]
    assert links_from(client, ("/desk/",)) == {}


def at(name: str, arg: str) -> str:
    return reverse(f"desk:{name}", args=(*WHERE, arg))
