"""The noticeboard in a real browser: on a phone and a screen, without scripts, and on paper."""

import re
from pathlib import Path
from typing import Final
from urllib.parse import quote

import pytest
from playwright.sync_api import Browser, Dialog, Page, expect

from browser.looking import faults_of
from cases.in_site import in_site
from cases.noticeboard_season import ROOT, put_season
from cases.served_site import Served
from cases.site_people import PASSWORD

PAGES: Final = (
    "",
    "standings/",
    "standings/1/",
    "calendar/",
    "calendar/week-2/",
    "calendar/2026-10-13/",
    "teams/Library%20Fines/",
    "fields/Lower%20Meadow%201/",
    "bracket/1/",
    "draws/",
    "results/",
    "games/P1/",
    "rules/",
    "rules/1/",
    "rules/field/",
)
PAYLOAD: Final = """"'></title><script>window.ran=1</script><img src=x onerror=alert(1)>"""
CAPTAIN: Final = "captain@league.invalid"


@pytest.fixture(scope="module")
def board(site: Served) -> Served:
    in_site(site.data, put_season, email=CAPTAIN)
    return site


@pytest.fixture(scope="module")
def hostile(board: Served) -> Served:
    in_site(board.data, put_season, name="Hostile", payload=PAYLOAD)
    return board


@pytest.mark.parametrize("path", PAGES)
def test_readers_stumble_over_nothing(turned: Page, board: Served, path: str) -> None:
    answer = turned.goto(f"{board.address}{ROOT}{path}")
    assert answer is not None
    assert answer.status == 200
    assert faults_of(turned) == []


def test_own_pages_have_nothing_to_stumble_over(page: Page, board: Served) -> None:
    page.goto(f"{board.address}/accounts/login/?next=/me/")
    page.get_by_label("Email").fill(CAPTAIN)
    page.get_by_label("Password", exact=True).fill(PASSWORD)
    page.keyboard.press("Enter")
    page.wait_for_url(f"{board.address}/me/**/")
    assert faults_of(page) == []
    page.get_by_role("button", name="Make a feed of Library Fines").click()
    expect(page.get_by_role("heading", name="Your feed")).to_be_visible()
    assert faults_of(page) == []
    page.get_by_role("link", name="Back to your own").click()
    page.get_by_role("button", name="Close it").first.click()
    expect(page.get_by_text("The feed is closed")).to_be_visible()
    page.get_by_role("link", name="Roster of Library Fines").click()
    assert faults_of(page) == []


def test_everything_is_reached_and_read_without_scripts(
    browser: Browser, board: Served
) -> None:
    context = browser.new_context(
        java_script_enabled=False, viewport={"width": 390, "height": 800}
    )
    page = context.new_page()
    page.goto(f"{board.address}/")
    page.get_by_role("main").get_by_role("link", name="Autumn").click()
    page.get_by_role("main").get_by_role("link", name="Standings").click()
    page.get_by_role("main").get_by_role("link", name="Wick").click()
    why = page.locator("details").nth(1)
    why.locator("summary").click()
    expect(why).to_contain_text("These tests come in order")
    page.get_by_role("link", name="Calendar").click()
    page.get_by_role("main").get_by_role("link", name="Library Fines").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Library Fines")
    context.close()


def test_nothing_of_a_hostile_name_runs(browser: Browser, hostile: Served) -> None:
    context = browser.new_context()
    page = context.new_page()
    ran: list[str] = []

    def noted(told: Dialog) -> None:
        ran.append(told.message)
        told.dismiss()

    page.on("dialog", noted)
    root = ROOT.replace("autumn", "hostile")
    team = quote(PAYLOAD, safe="")
    for path in (one.replace("Library%20Fines", team) for one in PAGES):
        page.goto(f"{hostile.address}{root}{path}", wait_until="load")
        assert page.evaluate("() => window.ran === undefined"), path
    assert ran == []
    assert page.locator("script").count() == 0
    context.close()


def test_a_page_prints_black_without_links_to_elsewhere(
    browser: Browser, board: Served, tmp_path: Path
) -> None:
    context = browser.new_context()
    page = context.new_page()
    for path, pages in (("standings/1/", 4), ("teams/Library%20Fines/", 1), ("calendar/", 1)):
        page.goto(f"{board.address}{ROOT}{path}")
        page.emulate_media(media="print")
        assert page.locator(".touchline nav").is_hidden()
        out = tmp_path / "page.pdf"
        page.pdf(path=out, format="A4")
        found = re.findall(rb"/Type\s*/Page\b", out.read_bytes())
        assert 1 <= len(found) <= pages, path
    context.close()
