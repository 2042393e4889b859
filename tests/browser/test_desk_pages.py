"""A coordinator's night at the desk in a browser: by keyboard, on a phone and a screen."""

import time
from collections.abc import Iterator
from pathlib import Path
from typing import Final

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.looking import WATCH, faults_of
from cases.desk_season import CREWS, HERE, a_folder
from cases.fee_season import FILES as FEES
from cases.fee_season import HEAD
from cases.in_site import in_site
from cases.play_off_season import ARTICLE, PLAN
from cases.served_site import Served
from cases.sign_up_season import FILES as SIGN_UPS
from cases.site_desk import put_desk
from cases.stopped_game import stop

PATHS: Final = (
    "today/?day=2026-09-16",
    "today/?day=2026-09-22",
    "today/",
    "doubts/?day=2026-09-16",
    "season/",
    "season/name/",
    "season/divisions/",
    "season/divisions/change/one/",
    "season/sign-ups/",
    "season/sign-ups/team/Tuesday/Coots/",
    "season/sign-ups/player/Tuesday/lone-1/",
    "season/times/",
    "season/absences/?team=Ash",
    "season/rules/",
    "season/rules/new/absent/",
    "season/rules/new/next_to_each_other/",
    "season/play-offs/",
    "season/play-offs/bracket/",
    "season/play-offs/change/P1/",
    "season/sites/",
    "season/sites/add/",
    "season/sites/change/Weir/",
    "season/pools/",
    "teams/Ash/",
    "teams/Ash/name/",
    "teams/Ash/player/",
    "teams/Ash/players/2/",
    "teams/Elder/players/1/",
    "teams/Dogwood/",
    "season/officials/",
    "season/officials/Ada%20Quill/",
    "season/officials/Di%20Lund/",
    "nights/2026-09-17/crews/",
    "clearances/",
    "season/fees/",
    "season/fees/Elder/E1/",
    "suspensions/",
    "suspensions/decide/",
    "nights/",
    "nights/2026-09-15/",
    "nights/2026-09-20/",
    "nights/2026-09-20/crews/",
    "games/C1/",
    "games/A1/",
    "games/A2/",
    "games/A1/scorecard/",
    "games/A1/questions/",
    "games/A1/certify/",
    "games/A1/reopen/",
    "games/A1/award/",
    "standings/",
    "standings/?pool=2",
    "results/",
    "bracket/",
    "lots/",
    "ratings/",
    "report/",
    "changes/",
    "rulebook/",
    "rulebook/articles/mercy/",
    "rulebook/articles/field.limits/",
    "rulebook/edition/",
)
LATER: Final = "".join(
    f"{row},{'day' if row.startswith('game') else ''}\n" for row in CREWS.splitlines()
)
"""The crews of all games, to which that of a later night is added."""
PAYLOAD: Final = "<script>window.run = 1</script><img src=x onerror='window.run = 2'>"


@pytest.fixture(scope="module")
def desk(
    site: Served, tmp_path_factory: pytest.TempPathFactory
) -> tuple[Served, dict[str, str]]:
    """The site with a season, and the sessions of a coordinator and a captain."""
    folder: Path = a_folder(
        tmp_path_factory.mktemp("season") / "folder",
        sites="site,aed\nWeir,Porch\n",
        fields="field,site\nField 1,Weir\n",
        **SIGN_UPS,
        rules=FEES["rules"] + ARTICLE.format(qualify="per_pool", places=2, third="false"),
        results=FEES["results"],
        fees=f"{HEAD}2026-09-20,Elder,E1,paid,5,\n",
        crews=f"{LATER}C1,referee,Ada Quill,2026-09-20\n",
    )
    (folder / "planning.toml").write_text(PLAN)
    stop(folder, "C1")
    keys = {
        role: in_site(site.data, put_desk, folder=str(folder), role=role)
        for role in ("coordinator", "captain")
    }
    return site, keys


def enter(page: Page, desk: tuple[Served, dict[str, str]], role: str = "coordinator") -> str:
    """Sit down at the desk as somebody, and return where it is."""
    site, keys = desk
    page.context.add_cookies([{"name": "sessionid", "value": keys[role], "url": site.address}])
    return f"{site.address}{HERE}"


@pytest.mark.parametrize("path", PATHS)
def test_nobody_stumbles_over_a_page_of_the_desk(
    turned: Page, desk: tuple[Served, dict[str, str]], path: str
) -> None:
    turned.goto(f"{enter(turned, desk)}{path}")
    assert faults_of(turned) == []


@pytest.fixture
def screen(browser: Browser) -> Iterator[Page]:
    """A page on a screen alone, for what is done rather than looked at."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    context.add_init_script(WATCH)
    yield context.new_page()
    context.close()


def test_a_paper_scorecard_is_typed_in_by_keyboard_alone(
    screen: Page, desk: tuple[Served, dict[str, str]]
) -> None:
    """The keys that a person presses, each counted; at five a second they take 13 seconds."""
    screen.goto(f"{enter(screen, desk)}games/A3/scorecard/")
    screen.locator("#id_period_1").focus()
    keys = [
        *"1-1",
        "Enter",
        *"2-1",
        "Enter",
        *"h7 dissent",
        "Enter",
        *"a10 trip",
        "Enter",
        "Enter",
        "Enter",
        *"4",
        "Enter",
        "Enter",
        *"5",
        "Enter",
        "Enter",
        *"hao",
        "Enter",
        "Enter",
        "Enter",
    ]
    begun = time.monotonic()
    for key in keys:
        screen.keyboard.press(key)
    screen.wait_for_url("**/games/A3/")
    assert time.monotonic() - begun < 30
    assert len(keys) <= 60
    expect(screen.get_by_text("Counts 3\u20132, as played.").first).to_be_visible()


def test_what_is_wrong_on_a_sheet_is_reached_by_its_link(
    screen: Page, desk: tuple[Served, dict[str, str]]
) -> None:
    screen.goto(f"{enter(screen, desk)}games/A4/scorecard/")
    screen.fill("#id_period_1", "two")
    screen.get_by_role("button", name="Keep the scorecard").click()
    assert faults_of(screen) == []
    screen.get_by_role("link", name="First half").click()
    assert (
        screen.evaluate("document.activeElement.id || location.hash.slice(1)") == "id_period_1"
    )
    assert screen.input_value("#id_period_1") == "two"


def test_a_list_is_dropped_and_looked_at_before_it_is_added(
    screen: Page, desk: tuple[Served, dict[str, str]]
) -> None:
    screen.goto(f"{enter(screen, desk)}teams/Cedar/")
    screen.evaluate(
        """() => {
          const data = new DataTransfer();
          const text = "student_id,name,number\\n00123456,Ada Marrow,9\\n";
          data.items.add(new File([text], "list.csv", { type: "text/csv" }));
          const drop = new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true });
          document.querySelector("form[data-drop]").dispatchEvent(drop);
        }"""
    )
    screen.get_by_role("button", name="Look at the list").click()
    expect(screen.get_by_text("Nothing is written yet.")).to_be_visible()
    assert faults_of(screen) == []
    screen.reload()
    screen.goto(f"{enter(screen, desk)}teams/Cedar/")
    expect(screen.get_by_text("Ada Marrow")).to_have_count(0)


def test_no_script_runs_from_what_people_write(
    screen: Page, desk: tuple[Served, dict[str, str]]
) -> None:
    here = enter(screen, desk)
    screen.goto(f"{here}games/A1/")
    screen.fill("#id_says", PAYLOAD)
    screen.get_by_role("button", name="Keep the report").click()
    expect(screen.get_by_text(PAYLOAD)).to_be_visible()
    screen.goto(f"{here}games/A1/award/")
    for field in ("ref", "why"):
        screen.fill(f"#id_{field}", PAYLOAD)
    screen.get_by_role("button", name="Show what changes").click()
    screen.goto(f"{here}games/A2/scorecard/")
    screen.fill("#id_note", PAYLOAD)
    screen.fill("#id_yellow", f"h7 {PAYLOAD}")
    for period in (1, 2):
        screen.fill(f"#id_period_{period}", "0-0")
    screen.get_by_role("button", name="Keep the scorecard").click()
    screen.wait_for_url("**/games/A2/")
    assert screen.evaluate("window.run") is None
    assert faults_of(screen) == []


def test_a_captain_sees_their_roster_and_no_reports(
    screen: Page, desk: tuple[Served, dict[str, str]]
) -> None:
    here = enter(screen, desk, "captain")
    screen.goto(here)
    assert screen.url == f"{here}teams/Ash/"
    assert faults_of(screen) == []
    assert screen.goto(f"{here}games/A1/").status == 404  # type: ignore[union-attr]
