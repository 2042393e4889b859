"""Pages are whole, say what they should, and never run or mangle what people wrote."""

from collections import Counter
from dataclasses import replace
from datetime import UTC, date, datetime
from html.parser import HTMLParser
from xml.etree import ElementTree as ET

import pytest

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.league.league import League, Team
from wholeball.pitch.markings import markings
from wholeball.reports.booklet import booklet_html
from wholeball.reports.field_of_play import field_plan
from wholeball.reports.field_page import field_page
from wholeball.reports.field_svg import field_svg
from wholeball.reports.index_page import Door, Front, index_page
from wholeball.reports.places_svg import places_svg
from wholeball.reports.proof_page import Proof, proof_page
from wholeball.reports.reasons import absence, reason
from wholeball.reports.shell import Link, Shell, Spot
from wholeball.reports.shipped import assets
from wholeball.reports.standings_page import PoolPages, standings_page
from wholeball.rulebook.load import load
from wholeball.season.count import Deduction
from wholeball.season.published import PublishedLine
from wholeball.season.result import CardCounts, Result
from wholeball.season.season import Season, pool_tables

HOSTILE = (
    "<script>alert(1)</script>",
    "محمد بن علي",
    "Forty letters and not one of them fewer!",
    'O\'Brien "& Sons" 😀',
)
A, B, C, D = map(TeamId, HOSTILE)
POOL = PoolId("A <b>")
RULES = """
base = "laws-2025-26"
name = "Rules <i>"
source = "the house"
[standings]
ref = "H 9.1"
criteria = [
  "points",
  { among_level = ["h2h_points"], again = true },
  "difference",
  { conduct = { yellow = -1, second_yellow = -3, straight_red = -4, yellow_and_straight_red = -5 } },
]
last_resort = "lots"
[forfeit]
score = { winners = 2, losers = 0 }
"""
NOT_MET = "not all the level teams have met"
PRINTED = datetime(2026, 10, 13, 15, 5, tzinfo=UTC)
SHELL = Shell(
    links=(Link(label="Season", href="index.html"), Link(label="Table", href="round-2.html")),
    rulebook="Rules <i>",
    digest="ab" * 32,
    printed=PRINTED,
)


def _result(number: int, round_: int, home: TeamId, away: TeamId, score: str) -> Result:
    home_goals, away_goals = map(int, score.split("-"))
    return Result(
        game=GameId(f"G{number}"),
        round=round_,
        home=home,
        away=away,
        home_goals=home_goals,
        away_goals=away_goals,
        home_cards=CardCounts(),
        away_cards=CardCounts(),
    )


@pytest.fixture(scope="module")
def season() -> Season:
    forfeit = Result(
        game=GameId("G4"), round=2, home=B, away=D, how="forfeit", by="away",
        home_cards=CardCounts(), away_cards=CardCounts(),
    )  # fmt: skip
    awarded = replace(_result(3, 2, A, C, "0-3"), how="awarded", played_score=(3, 2))
    return Season(
        league=League(
            name="League & <co>",
            timezone="America/Chicago",
            first_day=date(2026, 9, 1),
            last_day=date(2026, 12, 1),
            teams=tuple(Team(team=team, pool=POOL) for team in (A, B, C, D)),
        ),
        rulebook=load(RULES.encode(), file="rulebook.toml").rulebook,
        results=(_result(1, 1, A, B, "1-1"), _result(2, 1, C, D, "0-0"), awarded, forfeit),
        deductions=(Deduction(team=C, points=1, why="Late <u>waivers</u>.", ref="ruling 5"),),
        days={GameId("G1"): date(2026, 9, 15)},
        notes={GameId("G3"): "ruling 4"},
    )


@pytest.fixture(scope="module")
def pages(season: Season) -> dict[str, str]:
    book = season.rulebook
    field = field_svg(field_plan(book), book.field.unit)
    told = PoolPages(
        season=season,
        pool=POOL,
        tables=pool_tables(season, POOL),
        hrefs={1: "round-1.html", 2: "round-2.html"},
        under="round-2.html",
    )
    front = Front(
        title=season.league.name,
        says="What this is.",
        spot=Spot(number="2", label="rounds played"),
        doors=(Door(links=SHELL.links, says="Everything <here>."),),
    )
    published = tuple(
        PublishedLine(team=row.team, place=row.place, figures=(row.played,) + (None,) * 6)
        for row in told.tables[-1].standings.rows
    )
    proof = Proof(
        title="A table",
        source="somebody",
        computed=told.tables[-1].standings,
        published=published,
    )
    return {
        "index.html": index_page(front, shell=SHELL, here="index.html"),
        "round-1.html": standings_page(told, shown=1, shell=SHELL),
        "round-2.html": standings_page(told, shown=2, shell=SHELL),
        "proof.html": proof_page((proof,), shell=SHELL, here="proof.html"),
        "rulebook.html": booklet_html(
            book, shell=SHELL, here="rulebook.html", field=field, pdfs=()
        ),
        "field.html": field_page(
            field,
            markings(field_plan(book), book.field.unit),
            spot=Spot(number="105 m", label="long"),
            shell=SHELL,
            here="field.html",
        ),
    }


PAGES = [
    "index.html",
    "round-1.html",
    "round-2.html",
    "proof.html",
    "rulebook.html",
    "field.html",
]


@pytest.mark.parametrize("name", PAGES)
def test_a_page_has_one_heading_a_title_and_nothing_inline(
    pages: dict[str, str], name: str
) -> None:
    read = _Read(pages[name])
    assert read.tags["h1"] == 1
    assert read.tags["main"] == 1
    assert (read.tags["script"], read.tags["style"], read.inline) == (0, 0, [])
    assert read.title
    assert [count for count in Counter(read.ids).values() if count > 1] == []


@pytest.mark.parametrize("name", PAGES)
def test_every_link_of_a_page_leads_to_a_page_a_file_or_a_place(
    pages: dict[str, str], name: str
) -> None:
    read = _Read(pages[name])
    files = {*pages, *assets()}
    lost = [
        href
        for href in read.hrefs
        if (href.startswith("#") and href[1:] not in read.ids)
        or (not href.startswith("#") and href not in files)
    ]
    assert lost == []


@pytest.mark.parametrize("name", PAGES)
def test_what_people_wrote_is_never_markup(pages: dict[str, str], name: str) -> None:
    assert "<script>alert" not in pages[name]
    assert "<u>" not in pages[name]
    assert "Rules <i>" not in pages[name]


def test_names_in_any_script_stand_whole_and_apart_from_the_score(
    pages: dict[str, str],
) -> None:
    told = " ".join(_Read(pages["round-2.html"]).isolated)
    assert [name for name in HOSTILE if name not in told] == []


def test_a_changed_result_shows_both_scores_and_the_ruling(pages: dict[str, str]) -> None:
    text = _Read(pages["round-2.html"]).text
    assert "3\N{EN DASH}2" in text
    assert "0\N{EN DASH}3" in text
    assert "ruling 4" in text
    assert "Late <u>waivers</u>." in text


def test_a_reason_says_each_question_in_order(season: Season) -> None:
    table = pool_tables(season, POOL)[-1].standings
    told = [reason(one) for one in table.neighbours]
    assert [row.team for row in table.rows] == [B, C, D, A]
    assert told[1] == (
        f"Why is {C} above {D}?",
        f"Points: {C} 3, {D} 1. This parts them.",
        "Points in the games among them: not asked.",
        "Goal difference: not asked.",
        "Conduct points from yellow and red: not asked.",
        "Lots drawn: not asked.",
    )
    assert told[2] == (
        f"Level on 1 point. Why is {D} above {A}?",
        f"Points: {D} 1, {A} 1. Level.",
        f"Points in the games among them: could not be asked, since {NOT_MET}.",
        f"Goal difference: {D} \N{MINUS SIGN}2, {A} \N{MINUS SIGN}3. This parts them.",
        "Conduct points from yellow and red: not asked.",
        "Lots drawn: not asked.",
    )


def test_what_could_not_be_asked_is_said_with_its_reason(season: Season) -> None:
    table = pool_tables(season, POOL)[-1].standings
    assert [str(absence(one)) for one in table.absences] == [
        f"Points in the games among them: not asked of {A} and {D}, since {NOT_MET}."
    ]


def test_the_picture_of_places_has_a_text_and_a_line_for_each_team(season: Season) -> None:
    picture = ET.fromstring(places_svg(pool_tables(season, POOL)))  # noqa: S314 - our own drawing
    names = {"{http://www.w3.org/2000/svg}title", "{http://www.w3.org/2000/svg}desc"}
    told = {child.tag: "".join(child.itertext()) for child in picture if child.tag in names}
    assert picture.get("role") == "img"
    assert set(told) == names
    assert all(team in told["{http://www.w3.org/2000/svg}desc"] for team in HOSTILE)


def test_a_table_that_agrees_says_so_and_one_that_does_not_says_that(season: Season) -> None:
    computed = pool_tables(season, POOL)[-1].standings
    lines = [
        PublishedLine(team=r.team, place=r.place, figures=(None,) * 7) for r in computed.rows
    ]
    same = Proof(title="t", source="s", computed=computed, published=tuple(lines))
    lines[0] = replace(lines[0], place=2)
    other = replace(same, published=tuple(lines))
    missing = replace(same, published=tuple(lines[1:]))
    assert (same.agrees, other.agrees, missing.agrees) == (True, False, False)


class _Read(HTMLParser):
    """Reads a page and keeps what the tests ask for."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: Counter[str] = Counter()
        self.ids: list[str] = []
        self.hrefs: list[str] = []
        self.inline: list[str] = []
        self.isolated: list[str] = []
        self.title = ""
        self.text = ""
        self._open: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        self.tags[tag] += 1
        self._open.append(tag)
        self.ids += [value for value in [given.get("id")] if value]
        self.hrefs += [value for value in [given.get("href")] if value]
        self.inline += [name for name in given if name == "style" or name.startswith("on")]

    def handle_endtag(self, tag: str) -> None:
        if tag in self._open:
            while self._open.pop() != tag:
                pass

    def handle_data(self, data: str) -> None:
        self.text += data
        if self._open and self._open[-1] == "title" and "svg" not in self._open:
            self.title += data
        if "bdi" in self._open:
            self.isolated.append(data)
