"""What a browser may keep of the site's answers, and what guards every one of them.

`no-store` is for what must be in no cache (RFC 9111, 5.2.2.5).
"""

from pathlib import Path
from typing import Final

import pytest
from django.test import Client
from pytest_django.fixtures import Settings

from cases.desk_season import DeskSeason, a_desk, at
from cases.noticeboard_season import public_season
from wholeball.store.models import Account, Membership

pytestmark = pytest.mark.django_db
OF_AN_ACCOUNT: Final = (
    "/account/",
    "/account/roles/",
    "/accounts/2fa/",
    "/accounts/email/",
    "/accounts/logout/",
    "/accounts/sessions/",
    "/desk/",
    "/invitation/",
    "/me/",
    "/start/",
    "/study/",
)
GUARDS: Final = {
    "Content-Security-Policy": "frame-ancestors 'none'",
    "Referrer-Policy": "same-origin",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
}
"""What every answer says to a browser."""


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path)


@pytest.fixture
def coordinator(desk: DeskSeason) -> Client:
    """Return the browser of who runs every season of the organisation."""
    Membership.objects.create(
        organisation=desk.season.organisation,
        account=Account.objects.get(email__startswith="coordinator"),
        role="coordinator",
    )
    return desk.people["coordinator"]


@pytest.mark.parametrize("address", OF_AN_ACCOUNT)
def test_no_page_of_an_account_is_kept(coordinator: Client, address: str) -> None:
    answer = coordinator.get(address)
    assert answer.status_code in (200, 302)
    assert "no-store" in answer.headers["Cache-Control"]


@pytest.mark.parametrize("address", ["packet", "scorecards", "suspensions_sheet", "booklet"])
def test_no_sheet_of_the_desk_is_kept(coordinator: Client, address: str) -> None:
    day = ("2026-09-15",) if address in ("packet", "scorecards") else ()
    answer = coordinator.get(at(address, *day))
    assert answer.headers["Content-Type"] == "application/pdf"
    assert "no-store" in answer.headers["Cache-Control"]


def test_a_page_that_is_missing_is_kept_by_nobody_who_signed_in(coordinator: Client) -> None:
    assert "no-store" in coordinator.get(at("game", "Z9")).headers["Cache-Control"]


def test_what_everybody_may_read_is_kept_and_asked_for_again(client: Client) -> None:
    public_season()
    said = {
        client.get(f"/harrow-fen/autumn/{rest}").headers["Cache-Control"]
        for rest in ("", "standings/", "rules/")
    }
    assert said == {"public, no-cache"}
    styles = client.get("/static/site/site.css")
    styles.close()
    assert "no-store" not in styles.headers["Cache-Control"]


def test_every_answer_is_guarded_also_one_that_refuses(
    coordinator: Client, settings: Settings
) -> None:
    coordinator.raise_request_exception = False
    settings.ALLOWED_HOSTS = ["testserver"]
    answers = {
        200: coordinator.get("/account/"),
        400: coordinator.get("/", headers={"host": "elsewhere.example"}),
        404: coordinator.get("/?from=%00"),
        405: coordinator.put("/"),
        413: coordinator.post("/", {}, headers={"content-encoding": "gzip"}),
    }
    assert {status: one.status_code for status, one in answers.items()} == {
        status: status for status in answers
    }
    for status, answer in answers.items():
        said = {name: answer.headers.get(name, "") for name in GUARDS}
        missing = [name for name, word in GUARDS.items() if word not in said[name]]
        assert (status, missing) == (status, [])
