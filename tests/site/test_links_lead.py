"""Every link that somebody is shown leads to a page that is theirs, in words that are theirs."""

import re
from collections.abc import Iterable
from html import unescape
from http import HTTPStatus
from pathlib import Path
from typing import Final, NamedTuple

import pytest
from django.test import Client
from django.urls import reverse

from cases.desk_season import ROLES, DeskSeason, a_desk, a_folder, at, member
from cases.fee_season import FILES as FEES
from cases.paper_cards import ordinary
from cases.people_season import enter
from cases.sign_up_season import FILES as SIGN_UPS
from cases.stored import NOW, an_account, texts_of, written_by
from wholeball.store.models import Account, Membership, Organisation
from wholeball.usecases.begin_season import begin_season

pytestmark = pytest.mark.django_db
_LINK: Final = re.compile(r'<a\b[^>]*\shref="(/[^"#]*)')
_TAG: Final = re.compile(r"<script\b.*?</script>|<[^>]*>", re.DOTALL)
_OURS: Final = re.compile(
    r"wholeball [a-z]+|--[a-z]+|\b(?:DIR|NAME|TEXT)\b|[\w/-]+\.(?:csv|toml|jsonl)\b|\[\w+\] \w+"
)
"""Commands, options, files and keys: words of the command line and of the season folder."""
_STARTS: Final = ("/", "/desk/", "/study/", "/me/", "/account/")


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    """Return a season with sign-ups and a fee that is owed; game C1, of others, is typed in too."""
    fees = {name: FEES[name] for name in ("rules", "rulings", "rosters")}
    made = a_desk(tmp_path, **SIGN_UPS, **fees)
    folder = a_folder(tmp_path / "typed")
    enter(folder, "C1", ordinary())
    written_by(made.season).append("games/C1.jsonl", texts_of(folder)["games/C1.jsonl"])
    return made


class Walked(NamedTuple):
    """Links that lead nowhere, each with its page, and what pages say that is no people's word."""

    nowhere: dict[str, str]
    ours: dict[str, list[str]]


def walked(client: Client, starts: Iterable[str]) -> Walked:
    """Follow every link from some pages on, and read every page."""
    waiting = dict.fromkeys(starts, "")
    seen: set[str] = set()
    found = Walked(nowhere={}, ours={})
    while waiting:
        address, page = waiting.popitem()
        seen.add(address)
        answer = client.get(address, follow=True)
        if answer.status_code != HTTPStatus.OK:
            found.nowhere[address] = page
        elif answer.headers["Content-Type"].startswith("text/html"):
            html = unescape(answer.content.decode())
            waiting |= dict.fromkeys(set(_LINK.findall(html)) - seen, address)
            if ours := _OURS.findall(_TAG.sub(" ", html)):
                found.ours[address] = ours
    return found


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
def test_every_link_leads_on_and_no_page_names_a_command_or_a_file(
    desk: DeskSeason, role: str
) -> None:
    assert walked(desk.people[role], _STARTS) == ({}, {})


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
    assert walked(client, ("/desk/",)) == ({}, {})


def test_a_season_that_has_just_begun_leads_on_from_every_page() -> None:
    organisation = Organisation.objects.create(slug="harrow-fen", name="Harrow Fen")
    begun = begin_season(
        organisation,
        name="Spring",
        preset="seven",
        timezone="America/Chicago",
        first_day=NOW.date(),
        by=an_account(),
        at=NOW,
    )
    pages = {
        role: member(begun, role, person=role)
        for role in ("coordinator", "supervisor", "official", "scorekeeper")
    }
    assert [walked(one, _STARTS) for one in pages.values()] == [({}, {})] * 4
    standings = reverse("desk:standings", args=(organisation.slug, begun.slug))
    shown = {role: client.get(standings).content.decode() for role, client in pages.items()}
    assert ["No team plays here yet." in page for page in shown.values()] == [True] * 4
    assert ["Take in the teams" in page for page in shown.values()] == [True, *[False] * 3]
    assert pages["coordinator"].get(standings, {"pool": "2"}).status_code == 404
