"""What became of roles meanwhile: names are corrected, and coordinators end each other."""

import threading
from concurrent.futures import ThreadPoolExecutor
from contextlib import nullcontext
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import pytest
from django.core.cache import cache
from django.db import connection

from cases.desk_officials import invited, officials_desk, version
from cases.desk_season import a_desk, at
from cases.noticeboard_season import seat
from cases.stored import an_account
from wholeball.site.roles import end_role
from wholeball.store import writing
from wholeball.store.models import Membership

pytestmark = pytest.mark.django_db
HERE: Final = "/account/roles/"
ROUNDS: Final = 8


@pytest.mark.parametrize(
    ("role", "person", "page", "sends"),
    [
        ("official", "El Marrow", ("official", "El Marrow"), {"official": "El Marrow-Bay"}),
        ("captain", "", ("team_name", "Dogwood"), {"team": "Dogwoods"}),
    ],
)
def test_a_role_by_a_name_that_was_corrected_since_is_not_given_back(
    tmp_path: Path, role: str, person: str, page: tuple[str, str], sends: dict[str, str]
) -> None:
    cache.clear()
    desk = officials_desk(tmp_path)
    account, kim = an_account("Ivo Marsh"), desk.people["coordinator"]
    team = "" if person else "Dogwood"
    seat(account, desk.season, role, team=team, person=person)
    number = Membership.objects.get(account=account).pk
    kim.post(f"{HERE}{number}/end/")
    assert kim.post(at(*page), {**sends, "version": version()}).status_code == 302
    told = kim.post(f"{HERE}{number}/back/", follow=True).content.decode()
    assert "It cannot be given back any more. Cure: invite them again." in told
    assert not Membership.objects.filter(account=account).exists()


@pytest.mark.django_db(transaction=True)
def test_of_two_coordinators_who_end_each_other_at_once_one_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if connection.vendor == "sqlite":
        pytest.skip("SQLite is written by one process alone")
    monkeypatch.setattr(writing, "LOCK", nullcontext())
    desk = a_desk(tmp_path)
    seat(an_account("Tess Orchard"), desk.season, "coordinator")
    one, two = Membership.objects.filter(role="coordinator").select_related("account")
    ready = threading.Barrier(2)

    def ends(by: Membership, whom: Membership) -> bool:
        try:
            ready.wait(10)
            return end_role(by.account, whom.pk, datetime.now(UTC)) is not None
        finally:
            connection.close()

    for _ in range(ROUNDS):
        with ThreadPoolExecutor(2) as pool:
            did = sorted(pool.map(ends, (one, two), (two, one)))
        assert did == [False, True]
        Membership.objects.filter(role="coordinator").delete()
        Membership.objects.bulk_create((one, two))


@pytest.mark.parametrize(
    ("role", "links", "told"),
    [
        ("coordinator", 0, ""),
        ("coordinator", 1, "1 link that waits opens a role to whoever has it"),
        ("coordinator", 2, "2 links that wait open a role to whoever has it"),
        ("supervisor", 2, ""),
    ],
)
def test_who_ends_a_coordinators_role_is_told_of_links_that_they_may_have_made(
    tmp_path: Path, role: str, links: int, told: str
) -> None:
    cache.clear()
    desk, tess = officials_desk(tmp_path), an_account("Tess Orchard")
    seat(tess, desk.season, role)
    for _ in range(links):
        invited(desk, "El Marrow")
    number = Membership.objects.get(account=tess).pk
    page = desk.people["coordinator"].post(f"{HERE}{number}/end/", follow=True)
    assert ("to whoever has it" in page.content.decode()) == bool(told)
    assert told in page.content.decode()
