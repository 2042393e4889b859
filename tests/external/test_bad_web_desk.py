"""Attacks on the desk get the outcome that the check data names, and change nothing.

Each row of the area "web" that is about pages of the desk is done to them as a browser would.
"""

from collections.abc import Callable
from pathlib import Path
from typing import Final

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from cases.desk_season import DeskSeason, a_desk, at
from external.attacks import (
    AT_THE_DESK,
    Outcome,
    expected,
    number_in,
    rows_about,
    subjects_of,
    text_of,
)
from external.cases import Case, by_id
from wholeball.store.models import AuditRow, Membership

DECISION: Final = {"person": "k-noor", "ruled": "games", "ref": "H 11.4", "why": "A punch."}

pytestmark = pytest.mark.django_db


def rejected(status: int) -> Outcome:
    """Return what a status says; a page that would answer a fault of ours is no refusal."""
    assert 400 <= status < 500, status
    return Outcome("reject", str(status))


def all_of(codes: set[int], code: str) -> Outcome:
    """Return an outcome where every try was refused in the same way."""
    assert len(codes) == 1, codes
    return Outcome("reject", code) if codes <= {400, 422} else rejected(codes.pop())


def _no_token(desk: DeskSeason, _: str) -> Outcome:
    strict = Client(enforce_csrf_checks=True)
    strict.cookies = desk.people["coordinator"].cookies
    tried = AuditRow.objects.filter(did="tried", what__contains=at("block"))
    assert not tried.exists()
    answer = strict.post(at("block"), {"person": "k-noor"})
    assert tried.count() == 1
    assert b"Open the page again and send it from there." in answer.content
    return rejected(answer.status_code)


def _get_to_change(desk: DeskSeason, _: str) -> Outcome:
    return rejected(
        desk.people["coordinator"].get(at("block"), {"person": "k-noor"}).status_code
    )


def _anothers_game(desk: DeskSeason, _: str) -> Outcome:
    official = desk.people["official"]
    theirs, missing = official.get(at("game", "C1")), official.get(at("game", "Z9"))
    assert theirs.status_code == missing.status_code
    return rejected(theirs.status_code)


def _anothers_roster(desk: DeskSeason, _: str) -> Outcome:
    noted = AuditRow.objects.filter(did="tried").count()
    listed = SimpleUploadedFile("list.csv", b"student_id,name\n00123456,Ada Marrow\n")
    answer = desk.people["captain"].post(at("check_roster", "Cedar"), {"list": listed})
    assert AuditRow.objects.filter(did="tried").count() == noted + 1
    return rejected(answer.status_code)


def _role_in_a_form(desk: DeskSeason, _: str) -> Outcome:
    roles = Membership.objects.count()
    sent = {"says": "All well.", "role": "coordinator"}
    answer = desk.people["official"].post(at("report_incident", "A1"), sent)
    assert (answer.status_code, Membership.objects.count()) == (400, roles)
    return Outcome("reject", "ignored_field")


def _nested_json(desk: DeskSeason, said: str) -> Outcome:
    data = "[" * number_in(said) + "]" * number_in(said)
    answer = desk.people["coordinator"].post(at("block"), data, content_type="application/json")
    return rejected(answer.status_code)


def _long_integer(desk: DeskSeason, said: str) -> Outcome:
    coordinator, long = desk.people["coordinator"], "9" * number_in(said)
    tried = {
        coordinator.get(at("standings"), {"round": long}).status_code,
        coordinator.get(at("standings"), {"pool": long}).status_code,
        coordinator.post(at("scorecard", "A2"), {"entries": long}).status_code,
        coordinator.post(at("draw"), {"version": long}).status_code,
    }
    return all_of(tried, "400")


def _odd_numbers(desk: DeskSeason, _: str) -> Outcome:
    coordinator = desk.people["coordinator"]
    tried = {
        coordinator.post(at("decide"), {**DECISION, "games": odd}).status_code
        for odd in ("true", "9.0", "\u0669")
    }
    assert coordinator.post(at("decide"), {**DECISION, "games": "9"}).status_code == 200
    return all_of(tried, "type")


def _lone_surrogate(desk: DeskSeason, _: str) -> Outcome:
    coordinator = desk.people["coordinator"]
    body = b"says=a+%ED%A0%80+b"
    kind = "application/x-www-form-urlencoded"
    tried = {
        coordinator.post(at("report_incident", "A1"), body, content_type=kind).status_code,
        coordinator.post(
            at("report_incident", "A1"), b"says=%00", content_type=kind
        ).status_code,
    }
    return all_of(tried, "encoding")


def _svg(desk: DeskSeason, _: str) -> Outcome:
    svg = b'<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>'
    tried = set()
    for name in ("logo.svg", "list.csv", "list.xlsx"):
        sent = {"list": SimpleUploadedFile(name, svg, content_type="image/svg+xml")}
        answer = desk.people["coordinator"].post(at("check_roster", "Ash"), sent)
        assert b"<svg xmlns" not in answer.content
        tried.add(answer.status_code)
    return all_of(tried, "file_type")


def _odd_lists(desk: DeskSeason, _: str) -> Outcome:
    coordinator = desk.people["coordinator"]
    tried = {
        coordinator.get(at(name), asked).status_code
        for name in ("results", "nights", "season", "suspensions", "standings")
        for asked in ({"page": "-1"}, {"page": "1e9"}, {"sort": "__class__"})
    }
    return all_of(tried, "400")


RECIPES: Final[dict[str, Callable[[DeskSeason, str], Outcome]]] = {
    "no token": _no_token,
    "a look that changes": _get_to_change,
    "another's evaluation": _anothers_game,
    "another's roster": _anothers_roster,
    "a role in a form": _role_in_a_form,
    "nested": _nested_json,
    "many digits": _long_integer,
    "odd numbers": _odd_numbers,
    "half a letter": _lone_surrogate,
    "a picture that runs": _svg,
    "odd lists": _odd_lists,
}


@pytest.fixture
def desk(tmp_path: Path, settings: object) -> DeskSeason:
    settings.DATA_FOLDER = tmp_path / "data"  # type: ignore[attr-defined]
    return a_desk(tmp_path)


@pytest.mark.parametrize("row", by_id(rows_about(AT_THE_DESK)))
def test_the_desk_gives_the_outcome_the_row_names_and_changes_nothing(
    row: Case, desk: DeskSeason
) -> None:
    before = desk.texts()
    (subject,) = subjects_of(row)
    assert (RECIPES[subject](desk, text_of(row)), desk.texts()) == (expected(row), before)
