"""A fight on Sunday, and Monday at the desk: who is blocked, who reads what, and what is decided."""

from collections.abc import Iterator
from typing import Final

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.looking import WATCH, faults_of
from cases.desk_season import HERE
from cases.fight_season import a_fight, day_of, noted, put_fight
from cases.in_site import in_site
from cases.served_site import Served

PUBLIC: Final = "/harrow-fen/autumn/"
REFEREE: Final = "Number 4 swung first, near the far corner."
SCOREKEEPER: Final = "I only saw number 14 hit back."


@pytest.fixture(scope="module")
def people(
    browser: Browser, site: Served, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[dict[str, Page]]:
    """A browser for each who looks at the season, and one for everybody else."""
    folder = a_fight(tmp_path_factory.mktemp("season") / "folder")
    keys = {**in_site(site.data, put_fight, folder=str(folder)), "public": ""}
    pages = {}
    for role, key in keys.items():
        context = browser.new_context(
            base_url=site.address, viewport={"width": 1280, "height": 800}
        )
        context.add_init_script(WATCH)
        if key:
            context.add_cookies([{"name": "sessionid", "value": key, "url": site.address}])
        pages[role] = context.new_page()
    yield pages
    for page in pages.values():
        page.context.close()


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def words(page: Page, address: str) -> str:
    page.goto(address)
    return " ".join(page.locator("main").inner_text().split())


def status(page: Page, address: str) -> int:
    answer = page.goto(address)
    assert answer is not None
    return answer.status


def write_report(page: Page, says: str) -> None:
    page.goto(f"{HERE}games/A1/")
    page.get_by_label("What you saw").fill(says)
    press(page, "Keep the report")
    expect(page.locator("#reports")).to_contain_text(says)


def type_in(page: Page) -> None:
    """Type in the scorecard of Sunday: one all, and a red for each of the two."""
    page.goto(f"{HERE}games/A1/scorecard/")
    page.get_by_label("First half", exact=True).fill("1-1")
    page.get_by_label("Second half", exact=True).fill("0-0")
    page.get_by_label("Red", exact=True).fill("h4 violent conduct\na14 violent conduct")
    press(page, "Keep the scorecard")
    page.wait_for_url(f"**{HERE}games/A1/")


def test_the_sunday_is_reported_by_two_officials_each_of_whom_reads_their_own_alone(
    people: dict[str, Page],
) -> None:
    type_in(people["scorekeeper"])
    write_report(people["referee"], REFEREE)
    write_report(people["scorekeeper"], SCOREKEEPER)
    assert SCOREKEEPER not in words(people["referee"], f"{HERE}games/A1/")
    assert REFEREE not in words(people["scorekeeper"], f"{HERE}games/A1/")
    assert faults_of(people["referee"]) == []
    both = words(people["coordinator"], f"{HERE}games/A1/")
    assert (REFEREE in both, SCOREKEEPER in both) == (True, True)


@pytest.mark.parametrize(
    ("team", "name"),
    [
        ("Ash", "Noor Zephirou"),
        ("Cedar", "N. Zefirou"),
        ("Birch", "Ondine Havenko"),
        ("Elder", "Ondine Havenko"),
    ],
)
def test_on_monday_both_are_blocked_in_every_team_pending_a_meeting(
    people: dict[str, Page], team: str, name: str
) -> None:
    page = people["coordinator"]
    page.goto(f"{HERE}today/")
    expect(page.locator("main")).to_contain_text("2 suspensions wait for a meeting.")
    page.goto(f"{HERE}teams/{team}/")
    line = page.locator("li", has_text=name)
    expect(line).to_contain_text("may not play")
    expect(line).to_contain_text("meeting")


def test_the_opposing_captain_and_the_public_see_nothing_of_it(
    people: dict[str, Page],
) -> None:
    captain = people["captain"]
    for closed in ("games/A1/", "teams/Ash/", "suspensions/", "clearances/", "today/"):
        assert status(captain, f"{HERE}{closed}") == 404
    own = words(captain, f"{HERE}teams/Birch/")
    assert "See the coordinator" in own
    assert "meeting" not in own
    for role in ("captain", "public"):
        for page in ("", "games/A1/", "teams/Ash/", "results/"):
            read = words(people[role], f"{PUBLIC}{page}")
            assert [
                one for one in (REFEREE, SCOREKEEPER, "suspen", "meeting") if one in read
            ] == []


def decide(page: Page, ruled: str, games: str) -> None:
    """Fill in a decision about Noor Zephirou, and look at what follows."""
    page.goto(f"{HERE}suspensions/")
    page.get_by_role("link", name="Decide about Noor Zephirou").click()
    page.get_by_label("Decision").select_option(ruled)
    page.locator("#id_games").fill(games)
    page.locator("#id_game").fill("A1")
    page.get_by_label("Article").fill("H 11.4")
    page.get_by_label("Reason").fill("Struck an opponent; met on Monday.")
    press(page, "Show what follows")


def test_the_decision_computes_the_games_and_days_before_it_is_written(
    people: dict[str, Page],
) -> None:
    page = people["coordinator"]
    decide(page, "games", "2")
    assert faults_of(page) == []
    for game in ("A2", "A3"):
        day = day_of(game)
        expect(page.locator(".work")).to_contain_text(f"{day:%A} {day.day} {day:%B}")
    press(page, "Write the decision")
    expect(page.locator("main")).to_contain_text("Decision 1 is written.")
    decide(page, "meeting_held", "")
    press(page, "Write the decision")
    assert "1 suspension waits for a meeting." in words(page, f"{HERE}today/")
    page.goto(f"{HERE}teams/Cedar/")
    line = page.locator("li", has_text="N. Zefirou")
    expect(line).to_contain_text("Is suspended for 2 more games")
    expect(line).not_to_contain_text("meeting")


def test_each_reading_is_noted_and_never_what_was_read(
    people: dict[str, Page], site: Served
) -> None:
    rows = in_site(site.data, noted)
    did = {(does, what) for _, does, what in rows}
    assert people["public"].evaluate("window.refused") == []
    assert ("saw", "autumn: 2 reports about game A1") in did
    assert ("saw", "autumn: 1 report about game A1") in did
    assert ("saw", "autumn: suspensions") in did
    assert ("saw", "autumn: the suspensions of k-noor") in did
    held = " ".join(what for _, _, what in rows)
    assert [one for one in (REFEREE, SCOREKEEPER, "Struck") if one in held] == []
