"""The study in a real browser: by keyboard alone, on a phone and a screen, without scripts."""

from pathlib import Path
from typing import Final

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.looking import WATCH, faults_of
from cases.in_site import in_site
from cases.served_site import Served
from cases.site_desk import put_desk
from cases.study_season import HERE, preset

SAID: Final = "keeper picked up a back pass"
PATHS: Final = (
    "",
    f"?said={SAID.replace(' ', '+')}",
    "?said=zzz",
    "?about=game",
    "?about=game&seen=foul&moment=open",
    "?about=game&seen=foul&moment=open&unknown=yes",
    "?about=game&moment=dead&seen=offside",
    "?about=persons",
    "../different/",
    "../different/?part=2",
)


@pytest.fixture(scope="module")
def study(site: Served, tmp_path_factory: pytest.TempPathFactory) -> tuple[Served, str]:
    """The site with a season that has a rulebook, and the session of an official."""
    folder: Path = tmp_path_factory.mktemp("season")
    folder.joinpath("rulebook.toml").write_bytes(preset("seven"))
    return site, in_site(site.data, put_desk, folder=str(folder), role="official")


def enter(page: Page, study: tuple[Served, str]) -> str:
    """Sign in as an official, and return where the study is."""
    site, key = study
    page.context.add_cookies([{"name": "sessionid", "value": key, "url": site.address}])
    return f"{site.address}{HERE}"


def press_answer(page: Page) -> None:
    """Go to the first answer by Tab alone and take it."""
    for _ in range(30):
        page.keyboard.press("Tab")
        is_answer = page.evaluate("() => !!document.activeElement.closest('.answers')")
        if is_answer:
            with page.expect_navigation():
                page.keyboard.press("Enter")
            return
    raise AssertionError("no answer is reached by Tab")


@pytest.mark.parametrize("path", PATHS)
def test_nobody_stumbles_over_a_page_of_the_study(
    turned: Page, study: tuple[Served, str], path: str
) -> None:
    turned.goto(f"{enter(turned, study)}{path}")
    assert faults_of(turned) == []


def test_a_ruling_is_reached_by_the_keyboard_alone_and_nobody_stumbles_on_the_way(
    page: Page, study: tuple[Served, str]
) -> None:
    page.goto(enter(page, study))
    for _ in range(20):
        press_answer(page)
        assert faults_of(page) == []
        if page.locator("#verdict").count():
            break
    expect(page.locator("#verdict")).to_be_focused()
    expect(page.locator("figure.scene svg.drawn")).to_be_visible()
    expect(page.get_by_role("heading", name="The articles that say so")).to_be_visible()


def test_reload_and_the_back_button_lose_nothing(
    browser: Browser, study: tuple[Served, str]
) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.goto(enter(page, study))
    asked: list[str] = []
    for _ in range(3):
        asked.append(page.locator("main h2").first.inner_text())
        page.locator(".answers button").first.click()
    here = page.locator("main").inner_text()
    page.reload()
    assert page.locator("main").inner_text() == here
    for question in reversed(asked):
        page.go_back()
        assert page.locator("main h2").first.inner_text() == question
    context.close()


def test_a_text_leads_to_a_ruling_without_scripts(
    browser: Browser, study: tuple[Served, str]
) -> None:
    context = browser.new_context(
        java_script_enabled=False, viewport={"width": 390, "height": 844}
    )
    page = context.new_page()
    page.goto(enter(page, study))
    page.get_by_label("What happened").fill(SAID)
    page.get_by_role("button", name="See how it is understood").click()
    with page.expect_navigation():
        page.get_by_role("button", name="Take what is ticked").first.click()
    for _ in range(20):
        if page.locator("#verdict").count():
            break
        with page.expect_navigation():
            page.locator(".answers button").first.click()
    expect(page.locator("#verdict")).to_be_visible()
    expect(page.get_by_text(SAID)).to_be_visible()
    while page.get_by_role("link", name="Back one step").count():
        with page.expect_navigation():
            page.get_by_role("link", name="Back one step").click()
        if page.get_by_role("heading", name="It sounds like this").count():
            break
    expect(page.get_by_role("heading", name="It sounds like this")).to_be_visible()
    context.close()


def test_a_page_of_the_study_runs_nothing(browser: Browser, study: tuple[Served, str]) -> None:
    context = browser.new_context()
    context.add_init_script(WATCH)
    page = context.new_page()
    page.goto(f"{enter(page, study)}?said=%3Cimg+src%3Dx+onerror%3D%22window.ran%3D1%22%3E")
    assert page.evaluate("() => [window.ran === undefined, window.refused.length]") == [True, 0]
    context.close()
