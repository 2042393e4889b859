"""The first ten minutes in a browser: from the administrator's link to tonight's packet, and a rule."""

import io
import re
from pathlib import Path
from typing import Final

import pytest
from openpyxl import Workbook
from playwright.sync_api import Browser, Page, expect
from pypdf import PdfReader

from browser.looking import WATCH, faults_of
from cases.served_site import Served

TEAMS: Final = (
    "Paper Moths",
    "Loose Gravel",
    "Brass Otters",
    "Night Herons",
    "The Ledger Lines",
    "Copper Kettles",
    "Fog Signal",
    "Quiet Oars",
    "Salt & Vinegar",
    "Odd Socks",
    "Lantern Row",
    "Third Shift",
)
PASSWORD: Final = "seven green kettles"  # noqa: S105 - of a test
PUBLIC: Final = "/league/tuesday-eights/"
DESK: Final = f"/desk{PUBLIC}"


@pytest.fixture(scope="module")
def ruth(browser: Browser, site: Served) -> Page:
    """The administrator's browser, before the link is opened."""
    context = browser.new_context(
        base_url=site.address, viewport={"width": 1280, "height": 800}, reduced_motion="reduce"
    )
    context.add_init_script(WATCH)
    page = context.new_page()
    page.set_default_timeout(60_000)
    return page


def sign_ups(place: Path) -> Path:
    """Write a sign-up form as people have it: a title, other names, columns for somebody else."""
    book = Workbook()
    sheet = book.worksheets[0]
    sheet.append(["Tuesday eights: sign-up form"])
    sheet.append([])
    sheet.append(["Timestamp", "Team Name ", "Captain e-mail", "Shirt colour"])
    for number, name in enumerate(TEAMS):
        sheet.append([f"2027-01-0{1 + number % 9}", name, f"c{number}@example.invalid", "red"])
    book.save(place)
    return place


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def follow(page: Page, name: str) -> None:
    page.get_by_role("link", name=name).first.click()


def says(page: Page, text: str) -> None:
    expect(page.locator("main")).to_contain_text(text)


def pdf(page: Page, address: str) -> str:
    """Return the words of a PDF that the site hands out, on one line, without its joints."""
    data = page.request.get(address).body()
    words = " ".join(one.extract_text() for one in PdfReader(io.BytesIO(data)).pages)
    return re.sub(r"\s+", " ", words.replace("\u2060", ""))


def begin(page: Page, site: Served, teams: Path) -> None:
    """Make the administrator's account, and begin a season with a spreadsheet of teams."""
    page.goto(site.first_link)
    press(page, "Make an account")
    page.get_by_label("Email").fill("ruth@league.invalid")
    page.get_by_label("Password", exact=True).fill(PASSWORD)
    page.get_by_label("Password (again)").fill(PASSWORD)
    press(page, "Make the account")
    page.get_by_label("Name of the season").first.fill("Tuesday eights")
    page.get_by_label("First day").fill("2027-01-19")
    page.get_by_label("Spreadsheet of teams").set_input_files(teams)
    press(page, "Begin the season")
    says(page, "12 teams came in: teams from “Team Name” and colours from “Shirt colour”.")
    assert faults_of(page) == []


def make_pools(page: Page) -> None:
    follow(page, "See teams and pools")
    assert faults_of(page) == []
    page.get_by_label("How many pools?").select_option(label="2 pools of 6")
    press(page, "Make the pools")
    says(page, "6 teams moved.")


def give_times(page: Page) -> None:
    follow(page, "Next: fields and times")
    page.get_by_label("Fields").fill("Meadow 1, Meadow 2")
    page.get_by_label("Every", exact=True).select_option("tuesday")
    press(page, "Add it")
    says(page, "30 games and 48 places on 12 nights.")
    assert faults_of(page) == []
    follow(page, "Days off")
    page.get_by_label("Day", exact=True).fill("2027-03-16")
    press(page, "Keep it free")
    says(page, "Tuesday 16 March: every field")
    assert faults_of(page) == []
    follow(page, "To fields and times")
    says(page, "30 games and 44 places on 11 nights.")


def plan_and_publish(page: Page) -> None:
    follow(page, "Next: plan the timetable")
    page.get_by_label("Seconds to search").fill("10")
    press(page, "Start the search")
    press(page, "Take it into your draft")
    says(page, "Your draft has 30 new games (a plan).")
    follow(page, "See who would be told")
    page.get_by_role("button", name=re.compile("^Publish")).click()
    says(page, "The timetable is published")


def name_crews(page: Page) -> None:
    """List three officials, and name two of them for the first game of the first night."""
    follow(page, "Name the crews")
    assert faults_of(page) == []
    page.get_by_label("Names, one a line").fill("Ada Quill\nBo Tarn\nCy Imbray")
    press(page, "List them")
    says(page, "3 officials listed.")
    posts = page.locator("fieldset").first.locator("select")
    posts.nth(0).select_option("Ada Quill")
    posts.nth(1).select_option("Bo Tarn")
    assert faults_of(page) == []
    press(page, "Keep the crews")
    says(page, "The crews are kept.")


def test_a_league_comes_from_a_link_and_a_spreadsheet_to_the_packet_of_its_first_night(
    ruth: Page, site: Served, tmp_path: Path
) -> None:
    begin(ruth, site, sign_ups(tmp_path / "form.xlsx"))
    make_pools(ruth)
    give_times(ruth)
    plan_and_publish(ruth)
    follow(ruth, "Today")
    assert faults_of(ruth) == []
    name_crews(ruth)
    says(ruth, "Tuesday 19 January")
    packet = ruth.get_by_role("link", name="Print the packet").get_attribute("href")
    assert packet == f"{DESK}nights/2027-01-19/packet.pdf"
    told = pdf(ruth, packet)
    assert "Mercy: 8 up at 12:00 left or 6 up at 4:00 left" in told
    assert ("Ada Quill" in told, "Bo Tarn" in told, "Cy Imbray" in told) == (True, True, False)
    assert ruth.evaluate("window.refused") == []


def test_the_noticeboard_is_opened_to_everybody(
    ruth: Page, browser: Browser, site: Served
) -> None:
    everybody = browser.new_context(base_url=site.address).new_page()
    everybody.goto(PUBLIC)
    says(everybody, "Nothing here for you")
    ruth.goto(f"{DESK}season/")
    assert faults_of(ruth) == []
    press(ruth, "Open it to everybody")
    everybody.goto(PUBLIC)
    says(everybody, "Tuesday eights")
    everybody.context.close()


def give(page: Page, lead: int) -> None:
    """Set the lead of the first rung of the mercy rule, and publish the edition."""
    page.goto(f"{DESK}rulebook/")
    follow(page, "Mercy rule")
    page.get_by_label("Lead of 1", exact=True).fill(f"{lead}")
    press(page, "Keep it in the draft")
    says(page, "kept in your draft")
    page.goto(f"{DESK}rulebook/")
    follow(page, "See what an edition changes")
    says(page, f"It ends once a side leads by {lead} goals or more")
    press(page, "Publish the edition")
    says(page, "The edition is published.")


def read(page: Page) -> tuple[bool, ...]:
    """Return whether a lead of nine, and one of eight, stands at each place that tells of it."""
    found = []
    for lead in (9, 8):
        sentence = f"leads by {lead} goals or more with 12 minutes or less left"
        page.goto(f"{PUBLIC}rules/")
        found.append(sentence in page.locator("main").inner_text())
        found.append(sentence in pdf(page, f"{DESK}rulebook/booklet.pdf"))
        strip = pdf(page, f"{DESK}nights/2027-01-19/scorecards.pdf")
        found.append(f"Mercy: {lead} up at 12:00 left" in strip)
    return tuple(found)


def test_a_mercy_lead_of_eight_for_nine_shows_in_booklet_scorecard_and_what_is_different(
    ruth: Page,
) -> None:
    give(ruth, 9)
    assert read(ruth) == (True, True, True, False, False, False)
    give(ruth, 8)
    assert read(ruth) == (False, False, False, True, True, True)
    assert ruth.evaluate("window.refused") == []


def test_a_list_of_players_of_all_teams_is_looked_at_and_then_added(
    ruth: Page, tmp_path: Path
) -> None:
    wrong = "Team,Student ID,Name\nPaper Moth,20260001,Ida Brackwell\n"
    given = tmp_path / "league.csv"
    given.write_text(wrong)
    ruth.goto(f"{DESK}season/rosters/")
    assert faults_of(ruth) == []
    ruth.get_by_label("A CSV file or an .xlsx workbook").set_input_files(given)
    press(ruth, "Look at the list")
    says(ruth, "Did you mean Paper Moths?")
    assert faults_of(ruth) == []
    given.write_text(wrong.replace("Moth,", "Moths,"))
    ruth.get_by_label("A CSV file or an .xlsx workbook").set_input_files(given)
    press(ruth, "Look at the list")
    says(ruth, "Nothing is written yet.")
    assert faults_of(ruth) == []
    press(ruth, "Add 1 player")
    says(ruth, "1 player added to 1 team; 0 stood there already.")
