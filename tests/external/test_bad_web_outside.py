"""Addresses, feeds and borrowed devices get the outcome that the check data names.

The site has no tablet at the gate yet, and no token for one. What is nearest to a device that
is lent out is somebody who works at one game of one evening: they are held to that here.
"""

import ast
import re
import socket
from collections.abc import Callable
from pathlib import Path
from typing import Final

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from cases.desk_season import a_desk, at
from cases.noticeboard_season import public_season, seat
from cases.stored import NOW, an_account
from external.attacks import (
    FROM_OUTSIDE,
    Outcome,
    expected,
    rows_about,
    subjects_of,
    text_of,
)
from external.cases import ROOT, Case, by_id
from wholeball.store.feeds import make_token, revoke
from wholeball.store.models import FeedToken

FETCHES: Final = frozenset(
    {"aiohttp", "ftplib", "http.client", "httpx", "requests", "urllib.request", "urllib3"}
)
"""What Python programs fetch addresses with."""
PEOPLE: Final = (b"Tova", b"Quillmere", b"Abernwy", b"Havenko", b"k-adaeze", b"042")

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("row", by_id(rows_about(FROM_OUTSIDE)))
def test_what_comes_from_outside_gets_the_outcome_the_row_names(
    row: Case, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    called: list[object] = []
    monkeypatch.setattr(socket.socket, "connect", lambda _, where: called.append(where))
    (subject,) = subjects_of(row)
    assert RECIPES[subject](tmp_path, text_of(row)) == expected(row)
    assert called == []


def test_no_module_of_the_program_can_fetch_an_address() -> None:
    modules = sorted((ROOT / "src" / "wholeball").rglob("*.py"))
    assert len(modules) > 100
    assert {path.name: found for path in modules if (found := _imports(path) & FETCHES)} == {}


def _imports(path: Path) -> set[str]:
    """Return the modules that a file names in its imports, each with its parents."""
    named: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            named |= {one.name for one in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            named |= {node.module, *(f"{node.module}.{one.name}" for one in node.names)}
    return named | {name.partition(".")[0] for name in named}


def _no_address_is_fetched(folder: Path, said: str) -> Outcome:
    desk = a_desk(folder)
    coordinator = desk.people["coordinator"]
    for address in re.findall(r"https?://\S+", said):
        for name, args, sent in _fields(address):
            answer = coordinator.post(at(name, *args), sent)
            assert answer.status_code < 500
            assert not re.search(rb"(?:src|srcset|data|poster)=\S*https?://", answer.content)
    for page in ("today", "season", "history", "rulebook", "calendar"):
        shown = coordinator.get(at(page)).content
        assert not re.search(rb"(?:src|srcset|data|poster)=\S*https?://", shown)
    return Outcome("reject", "ssrf")


def _fields(address: str) -> list[tuple[str, tuple[str, ...], dict[str, object]]]:
    """Return the forms of the desk that take free words, each with an address in them."""
    rows = f"student_id,name,logo\n00123456,{address},{address}\n".encode()
    decision = {"person": "k-noor", "ruled": "games", "games": "1", "ref": "H 11.4"}
    return [
        ("report_incident", ("A1",), {"says": address}),
        ("decide", (), {**decision, "why": address}),
        ("check_roster", ("Ash",), {"list": SimpleUploadedFile("list.csv", rows)}),
        ("check_roster", ("Ash",), {"list": SimpleUploadedFile(f"{address}list.csv", rows)}),
        ("award", ("A2",), {"to": "home", "goals": "3-0", "ref": "H 9", "why": address}),
    ]


def _no_feed(_: Path, __: str) -> Outcome:
    season, account = public_season(), an_account()
    seat(account, season, "official", person="Tova Quillmere")
    token = make_token(season, "official", "Tova Quillmere", account=account, at=NOW)
    made = Client().get(f"/feeds/{token}.ics")
    assert (made.status_code, "no-store" in made.headers["Cache-Control"]) == (200, True)
    assert [one for one in PEOPLE if one in made.content] == []
    kept = FeedToken.objects.get()
    assert token not in str(FeedToken.objects.values())
    guessed = {
        Client().get(f"/feeds/{one}.ics").status_code
        for one in (token[:-1], token.swapcase(), kept.digest, "A" * len(token), "%00", "..")
    }
    assert guessed == {404}
    assert revoke(kept.pk, account, at=NOW)
    missing, closed = Client().get("/feeds/no.ics"), Client().get(f"/feeds/{token}.ics")
    assert _plain(missing) == _plain(closed)
    return Outcome("reject", str(closed.status_code))


def _plain(answer: object) -> tuple[int, bytes]:
    """Return status and page, without the form's token, which differs each time."""
    return answer.status_code, re.sub(rb'value="\w{64}"', b"", answer.content)  # type: ignore[attr-defined]


def _only_one_evening(folder: Path, _: str) -> Outcome:
    desk = a_desk(folder)
    lent = desk.people["scorekeeper"]
    assert lent.get(at("game", "A1")).status_code == 200
    elsewhere = {
        address: lent.get(address).status_code
        for address in ("/admin", "/admin/", *_not_theirs())
    }
    assert set(elsewhere.values()) == {404}, elsewhere
    stranger = Client()
    assert all(_led_to_sign_in(stranger, address) for address in _not_theirs())
    return Outcome("reject", "scope")


def _not_theirs() -> list[str]:
    """Return what is of another game, another evening, a team, or of everybody."""
    return [
        *(at(name, "C1") for name in ("game", "scorecard")),
        at("night", "2026-09-16"),
        *(at("team", team) for team in ("Ash", "Cedar")),
        *(at(name) for name in ("today", "season", "history", "clearances", "suspensions")),
    ]


def _led_to_sign_in(client: Client, address: str) -> bool:
    answer = client.get(address)
    return answer.status_code == 302 and "/accounts/login/" in answer.headers["Location"]


RECIPES: Final[dict[str, Callable[[Path, str], Outcome]]] = {
    "an address to fetch": _no_address_is_fetched,
    "a feed": _no_feed,
    "a tablet": _only_one_evening,
}
