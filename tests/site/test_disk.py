"""Tests that people are told of a full disk before it is full, and when it is."""

import shutil
from pathlib import Path

import pytest
from django.db import OperationalError
from django.http import HttpResponse
from django.test import RequestFactory

from cases.desk_season import a_desk
from wholeball.site import disk
from wholeball.site.disk import room_left
from wholeball.site.refusals import Refusals
from wholeball.store.full_disk import is_full

pytestmark = pytest.mark.django_db
TODAY = "/desk/harrow-fen/autumn/today/"
WARNS = "The site's disk is nearly full"


class Refused(Exception):
    """A refusal as PostgreSQL's adapter has it; appendix A of its documentation lists codes."""

    def __init__(self, sqlstate: str) -> None:
        super().__init__(sqlstate)
        self.sqlstate = sqlstate


def refused(sqlstate: str) -> OperationalError:
    failed = OperationalError("refused")
    failed.__cause__ = Refused(sqlstate)
    return failed


def test_want_of_room_is_told_from_every_other_fault_of_postgresql() -> None:
    assert is_full(refused("53100"))
    assert not is_full(refused("53200"))
    assert not is_full(OperationalError("disk full, says a text alone"))


def test_a_page_that_found_no_room_says_so_and_another_fault_stays_a_fault() -> None:
    room = Refusals(lambda _: HttpResponse())
    request = RequestFactory().get("/")
    full = room.process_exception(request, refused("53100"))
    assert full is not None
    assert full.status_code == 507
    assert b"nothing of this was kept" in full.content
    assert room.process_exception(request, refused("40001")) is None


def test_the_desk_warns_the_coordinator_alone_below_the_least_and_not_at_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, settings: object
) -> None:
    settings.DATA_FOLDER = tmp_path  # type: ignore[attr-defined]
    desk = a_desk(tmp_path)
    usage = shutil.disk_usage(tmp_path)
    free = [disk.LEAST]
    monkeypatch.setattr(shutil, "disk_usage", lambda _: usage._replace(free=free[0]))

    def warned(role: str, page: str) -> bool:
        return WARNS in desk.people[role].get(page).content.decode().replace("&#x27;", "'")

    assert (room_left(tmp_path), warned("coordinator", TODAY)) == ("", False)
    free[0] = disk.LEAST - 1
    assert room_left(tmp_path) == "199 MB"
    assert warned("coordinator", TODAY)
    assert not warned("supervisor", "/desk/harrow-fen/autumn/nights/")
