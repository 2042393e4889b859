"""The board in a browser: by drag, by keyboard, without scripts, and by two people at once."""

from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from typing import Final, NamedTuple

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.looking import WATCH, faults_of
from cases.board_season import a_board, tonight
from cases.in_site import in_site
from cases.served_site import Served
from cases.site_board import begin_long_search, end_stopped_search, put_board, put_timetable

HERE: Final = "/desk/harrow-fen/leas/"
FIRST: Final = tonight().date()
HEARS: Final = """() => {
  const says = document.querySelector("[data-board-says]");
  const keep = () => { sessionStorage.heard = says.textContent; };
  new MutationObserver(keep).observe(says, { childList: true, characterData: true, subtree: true });
}"""
"""Keeps the last thing that the board said, for the page after it."""
PATHS: Final = (
    "calendar/",
    f"calendar/?game=1&place={FIRST}|20:00|North 1",
    f"calendar/?game=1&place={FIRST + timedelta(days=7)}|19:00|North 1",
    "calendar/?game=1",
    "calendar/publish/",
    "calendar/tasks/",
    "call-off/",
    "messages/",
    "rulebook/",
    "rulebook/?only=different",
    "rulebook/articles/mercy/",
    "rulebook/articles/restarts.free_kick/",
    "rulebook/edition/",
)


class Sat(NamedTuple):
    """The site with its season, the folder that it came from, and who sits at the desk."""

    site: Served
    folder: Path
    keys: dict[str, str]


@pytest.fixture(scope="module")
def sat(site: Served, tmp_path_factory: pytest.TempPathFactory) -> Sat:
    folder = a_board(tmp_path_factory.mktemp("season") / "folder")
    return Sat(site, folder, in_site(site.data, put_board, folder=str(folder)))


@pytest.fixture
def anew(sat: Sat) -> Sat:
    """The season as its folder has it, whatever an earlier test did."""
    assert in_site(sat.site.data, put_timetable, folder=str(sat.folder))
    return sat


@pytest.fixture
def desks(browser: Browser, anew: Sat) -> Iterator[dict[str, Page]]:
    """A screen for each of two coordinators."""
    contexts = []
    pages = {}
    for name, key in anew.keys.items():
        context = browser.new_context(viewport={"width": 1280, "height": 1600})
        context.add_init_script(WATCH)
        context.add_cookies([{"name": "sessionid", "value": key, "url": anew.site.address}])
        contexts.append(context)
        pages[name] = context.new_page()
    yield pages
    for context in contexts:
        context.close()


def at(sat: Sat, path: str) -> str:
    return f"{sat.site.address}{HERE}{path}"


@pytest.mark.parametrize("path", PATHS)
def test_nobody_stumbles_over_a_page_of_the_calendar(turned: Page, sat: Sat, path: str) -> None:
    turned.context.add_cookies(
        [{"name": "sessionid", "value": sat.keys["Kim"], "url": sat.site.address}]
    )
    turned.goto(at(sat, path))
    assert faults_of(turned) == []


def square(start: str, field: str) -> str:
    return f"td[data-place='{FIRST}|{start}|{field}']"


def test_a_game_is_moved_by_drag_and_judged_before_it_is_kept(
    desks: dict[str, Page], anew: Sat
) -> None:
    kim = desks["Kim"]
    kim.goto(at(anew, "calendar/"))
    kim.locator("[data-game='1']").hover()
    kim.mouse.down()
    for place in (square("19:00", "West 1"), square("20:00", "North 1")):
        kim.locator(place).hover()
        kim.locator(place).hover(position={"x": 40, "y": 20})
    kim.evaluate(HEARS)
    kim.mouse.up()
    expect(kim.locator("#move")).to_contain_text("No must is broken by it")
    expect(kim.locator("#move")).to_be_focused()
    assert kim.evaluate("sessionStorage.heard") == "Game 1 is looked at there."
    kim.get_by_role("button", name="Keep it in your draft").click()
    expect(kim.locator(square("20:00", "North 1"))).to_contain_text("moved")
    expect(kim.locator(square("19:00", "North 1"))).to_contain_text("1 moved away from here")
    kim.get_by_role("button", name="Undo the last step").click()
    expect(kim.locator(square("19:00", "North 1"))).to_contain_text("Ash")
    assert kim.evaluate("window.refused") == []


def test_a_game_is_moved_by_keyboard_alone_and_escape_puts_it_back(
    desks: dict[str, Page], anew: Sat
) -> None:
    kim = desks["Kim"]
    kim.goto(at(anew, "calendar/"))
    game = kim.locator("[data-game='1']")
    game.focus()
    kim.keyboard.press("Space")
    expect(kim.locator("[data-board-says]")).to_contain_text("Game 1 is picked up.")
    kim.keyboard.press("ArrowDown")
    expect(kim.locator("[data-board-says]")).to_contain_text("19:00, South 1: 2")
    kim.keyboard.press("Escape")
    expect(kim.locator("[data-board-says]")).to_contain_text("Game 1 is back where it was.")
    expect(game).to_be_focused()
    kim.keyboard.press("Space")
    for _ in range(3):
        kim.keyboard.press("ArrowDown")
    kim.keyboard.press("Enter")
    expect(kim.locator("#move")).to_contain_text("20:00 North 1")
    expect(kim.locator("#move")).to_contain_text("No must is broken by it")


def test_a_game_is_moved_by_forms_where_scripts_do_not_run(browser: Browser, anew: Sat) -> None:
    context = browser.new_context(java_script_enabled=False)
    context.add_cookies(
        [{"name": "sessionid", "value": anew.keys["Kim"], "url": anew.site.address}]
    )
    page = context.new_page()
    page.goto(at(anew, "calendar/"))
    page.locator("[data-game='1']").click()
    page.get_by_label("Where to?").select_option(f"{FIRST}|20:00|North 1")
    page.get_by_role("button", name="Look at the rules there").click()
    page.get_by_role("button", name="Keep it in your draft").click()
    assert page.locator(square("20:00", "North 1")).inner_text().startswith("1, moved")
    context.close()


def test_the_second_of_two_sees_what_changed_and_loses_nothing(
    desks: dict[str, Page], anew: Sat
) -> None:
    kim, noor = desks["Kim"], desks["Noor"]
    for page, game, field in ((kim, "1", "North 1"), (noor, "2", "South 1")):
        page.goto(at(anew, f"calendar/?game={game}&place={FIRST}|20:00|{field}"))
        page.get_by_role("button", name="Keep it in your draft").click()
    kim.get_by_role("link", name="See who would be told").click()
    expect(kim.locator("main")).to_contain_text("Captain of Ash")
    kim.get_by_role("button", name="Publish").click()
    expect(kim.locator("main")).to_contain_text("The timetable is published: 1 game moved.")
    noor.goto(at(anew, "calendar/"))
    expect(noor.locator("main")).to_contain_text(
        "Another timetable was published while you worked on yours"
    )
    expect(noor.locator("main")).to_contain_text("Game 1, Ash v Birch, moves from")
    noor.get_by_role("button", name="Go on from the newest", exact=True).click()
    expect(noor.locator(square("20:00", "North 1"))).to_contain_text("Ash")
    expect(noor.locator(square("20:00", "South 1"))).to_contain_text("Cedar")
    noor.get_by_role("link", name="See who would be told").click()
    noor.get_by_role("button", name="Publish").click()
    expect(noor.locator("main")).to_contain_text("The timetable is published: 1 game moved.")


def test_a_clash_leads_to_the_nearest_place_that_mends_it(
    desks: dict[str, Page], anew: Sat
) -> None:
    kim = desks["Kim"]
    later = FIRST + timedelta(days=7)
    kim.goto(at(anew, f"calendar/?game=1&place={later}|20:00|North 1"))
    expect(kim.locator(".circle")).to_have_text("2 rules broken")
    main = kim.locator(".button.main")
    expect(main).to_have_count(1)
    expect(main).to_contain_text("Look at ")
    main.click()
    expect(kim.locator("#move")).to_contain_text("No must is broken by it")
    expect(kim.locator(".circle")).to_have_text("0 rules broken")
    expect(kim.locator(".button.main")).to_have_text("Keep it in your draft")
    assert kim.evaluate("window.refused") == []


def test_a_search_survives_a_reload_and_becomes_a_draft(
    desks: dict[str, Page], anew: Sat
) -> None:
    kim = desks["Kim"]
    kim.goto(at(anew, "calendar/tasks/"))
    kim.get_by_label("Seconds to search").fill("60")
    kim.get_by_role("button", name="Start the search").click()
    kim.wait_for_url("**/calendar/tasks/*/")
    kim.reload()
    take = kim.get_by_role("button", name="Take it into your draft")
    expect(take).to_be_visible(timeout=180_000)
    take.click()
    expect(kim.locator("main")).to_contain_text("Nobody is told before you publish.")
    assert kim.evaluate("window.refused") == []


def test_a_search_that_runs_is_stopped_and_its_page_goes_on_by_itself_to_what_was_found(
    desks: dict[str, Page], anew: Sat
) -> None:
    number = in_site(anew.site.data, begin_long_search)
    kim = desks["Kim"]
    kim.goto(at(anew, f"calendar/tasks/{number}/"))
    main = kim.locator("main")
    expect(main).to_contain_text("Wishes cost 7; at most 29 % could be gained")
    assert faults_of(kim) == []
    kim.get_by_role("button", name="Stop it").click()
    expect(main).to_contain_text("It stops, and keeps the best so far.")
    expect(kim.get_by_role("button", name="Stop it")).to_have_count(0)
    assert in_site(anew.site.data, end_stopped_search, number=number) is True
    kim.get_by_role("button", name="Take it into your draft").click()
    expect(main).to_contain_text("Nobody is told before you publish.")
    assert kim.evaluate("window.refused") == []
