"""Three sites, and after four only the north one is closed: who is told, what the public reads, the undo."""

import time
from pathlib import Path
from typing import Final

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.looking import WATCH
from cases.board_season import a_board, zone_at
from cases.in_site import in_site
from cases.served_site import Served
from cases.site_board import put_board, told

HERE: Final = "/desk/harrow-fen/leas/"
PATIENCE: Final = 30.0
"""Seconds until mail has gone out, on a machine that has other work."""
PUBLIC: Final = "/harrow-fen/leas/"
AFTERNOON: Final = 16
"""When pitches are called off for the evening: games begin at 19:00."""
NORTH: Final = ("An official: Ada Quill", "Captain of Ash", "Captain of Birch")


@pytest.fixture
def kim(browser: Browser, site: Served, tmp_path_factory: pytest.TempPathFactory) -> Page:
    folder: Path = a_board(tmp_path_factory.mktemp("season") / "folder", zone_at(AFTERNOON))
    keys = in_site(site.data, put_board, folder=str(folder))
    context = browser.new_context(viewport={"width": 390, "height": 844})
    context.add_init_script(WATCH)
    context.add_cookies([{"name": "sessionid", "value": keys["Kim"], "url": site.address}])
    return context.new_page()


def public_line(browser: Browser, site: Served) -> str:
    context = browser.new_context()
    page = context.new_page()
    page.goto(f"{site.address}{PUBLIC}")
    text = " ".join(page.locator("main").inner_text().split())
    context.close()
    return text


def sent(site: Served) -> list[str]:
    """Return whom the latest occasion told, once nothing waits any more."""
    ends = time.monotonic() + PATIENCE
    latest: list[str] = in_site(site.data, told)[0]
    while any(one.endswith(": waiting") for one in latest) and time.monotonic() < ends:
        latest = in_site(site.data, told)[0]
    return latest


def test_only_the_north_is_told_the_line_changes_and_undo_corrects(
    kim: Page, browser: Browser, site: Served
) -> None:
    assert "Tonight is on: 3 games" in public_line(browser, site)
    kim.goto(f"{site.address}{HERE}today/")
    kim.get_by_role("link", name="Call off").first.click()
    kim.get_by_label("What is it about?").select_option(label="North Lea: the whole site")
    kim.get_by_label("It is off").check()
    kim.get_by_label("In a sentence").fill("Standing water on the pitch.")
    kim.get_by_role("button", name="Show who is told").click()
    expect(kim.locator("main")).to_contain_text("Tonight: 2 games on; 1 game off.")
    assert "Tonight is on: 3 games" in public_line(browser, site)
    kim.get_by_role("button", name="Say it").click()
    expect(kim.locator("main")).to_contain_text("The public reads")
    assert sent(site) == [f"{one}: sent" for one in NORTH]
    assert "Tonight: 2 games on; 1 game off." in public_line(browser, site)
    expect(kim.get_by_role("link", name="Find other places for the games")).to_be_visible()
    kim.get_by_role("link", name="Take it back").click()
    kim.get_by_role("button", name="Take it back").click()
    expect(kim.locator("main")).to_contain_text("It is taken back.")
    assert sent(site) == [f"{one}: sent" for one in NORTH]
    expect(kim.locator("#letters")).to_contain_text("Captain of Ash")
    assert "Tonight is on: 3 games" in public_line(browser, site)
    assert kim.evaluate("window.refused") == []
    kim.context.close()
