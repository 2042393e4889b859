"""A reload in the middle of an import: all of a list is there, or nothing of it, and never twice."""

from pathlib import Path
from typing import Final

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.looking import WATCH
from cases.desk_season import HERE, a_folder
from cases.in_site import in_site
from cases.served_site import Served
from cases.site_desk import put_desk

PLAYERS: Final = tuple(f"Player {number:03}" for number in range(1, 61))
LIST: Final = "student_id,name\n" + "".join(
    f"{10_000_000 + number},{name}\n" for number, name in enumerate(PLAYERS)
)


@pytest.fixture
def team(browser: Browser, site: Served, tmp_path_factory: pytest.TempPathFactory) -> Page:
    folder: Path = a_folder(tmp_path_factory.mktemp("season") / "folder")
    key = in_site(site.data, put_desk, folder=str(folder), role="coordinator")
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    context.add_init_script(WATCH)
    context.add_cookies([{"name": "sessionid", "value": key, "url": site.address}])
    page = context.new_page()
    page.goto(f"{site.address}{HERE}teams/Cedar/")
    return page


def send(page: Page) -> None:
    page.locator("#id_list").set_input_files(
        {"name": "list.csv", "mimeType": "text/csv", "buffer": LIST.encode()}
    )
    page.get_by_role("button", name="Look at the list").click()


def look(page: Page) -> None:
    send(page)
    expect(page.get_by_text("Nothing is written yet.")).to_be_visible()


def on_roster(page: Page, address: str) -> list[str]:
    """Return which of the list's players the roster names, each as often as it does."""
    page.goto(address)
    named = page.locator(".squad strong").all_inner_texts()
    return [name for name in PLAYERS for _ in range(named.count(name))]


def test_a_reload_leaves_all_of_a_list_or_nothing_of_it(team: Page) -> None:
    roster = team.url
    look(team)
    team.reload()
    assert on_roster(team, roster) == []
    look(team)
    add = team.get_by_role("button", name=f"Add {len(PLAYERS)} players")
    add.click(no_wait_after=True)
    context = team.context
    team.close()
    team = context.new_page()
    assert on_roster(team, roster) in ([], [*PLAYERS])
    send(team)
    add = team.get_by_role("button", name="Add ")
    everybody = team.get_by_text("Everybody on the list is on the roster already.")
    expect(add.or_(everybody)).to_be_visible()
    if add.count():
        add.click()
        expect(team.locator("main")).to_contain_text("added to Cedar")
    assert on_roster(team, roster) == [*PLAYERS]
    context.close()
