"""A season's report counts every game once, and every person once.

No outside source: the counts are worked by hand from small invented seasons.
"""

import re
from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases import season_people as people
from wholeball.kernel.identity import PersonId, Side, TeamId
from wholeball.reports.bars_svg import Row, bars_svg
from wholeball.reports.season_report import (
    SeasonReport,
    hours,
    report_lines,
    report_page,
    report_tables,
    report_values,
)
from wholeball.reports.shell import Link, Shell
from wholeball.season.appearances import GameSheet
from wholeball.season.participation import Counts, Participation, participation
from wholeball.season.result import How, Result
from wholeball.season.season import Season

BOOK = people.book("[game]\nminutes = 20\n")
"""Two halves of 20: a game is 40 minutes."""
SHELL = Shell(
    links=(Link(label="Season report", href="season-report.html"),),
    rulebook="House",
    digest="0" * 64,
    printed=datetime(2026, 12, 4, 10, tzinfo=UTC),
)
FIRST = people.fixture(1)
SECOND = people.fixture(3, "Cedar Dogwood")
THIRD = people.fixture(15)
FOURTH = people.fixture(17, "Cedar Dogwood")
FIXTURES = (FIRST, SECOND, THIRD, FOURTH)


def counted(sheets: Iterable[GameSheet], *, split: bool = True) -> Participation:
    kept = tuple(sheets)
    season = Season(
        league=people.league(split=split),
        rulebook=BOOK,
        results=tuple(one.result for one in kept if one.result is not None),
    )
    return participation(season, FIXTURES, kept, people.rosters())


def test_a_team_that_was_taken_out_has_no_game_to_come() -> None:
    book = people.book('[forfeit.removal]\nafter_forfeits = 1\nresults = "annulled"\n')
    given_up = people.sheet(FIRST, how="forfeit", by="home", is_played=False)
    assert given_up.result is not None
    for rulebook, to_come in ((BOOK, 3), (book, 2)):
        season = Season(league=people.league(), rulebook=rulebook, results=(given_up.result,))
        found = participation(season, FIXTURES, [given_up], people.rosters())
        assert (found.total.forfeits, found.total.to_come) == (1, to_come)


SHEETS = (
    people.sheet(FIRST, appeared=["al", "bo"]),
    people.sheet(SECOND, appeared=["al", "ed"]),
    people.sheet(THIRD, how="forfeit", by="away"),
)


def test_one_person_in_two_teams_is_one_and_counts_in_both_divisions() -> None:
    found = counted(SHEETS)
    assert found.total.people == 3
    assert {part.name: part.counts.people for part in found.divisions} == {"one": 2, "two": 2}
    assert found.rostered == 7


def test_every_figure_of_a_small_season_is_as_counted_by_hand() -> None:
    assert counted(SHEETS).total == Counts(
        games=4,
        played=2,
        forfeits=1,
        to_come=1,
        people=3,
        game_minutes=80,
        player_minutes=160,
        sides_played=4,
        sides_checked=4,
    )


def test_a_week_without_a_game_stands_among_the_weeks() -> None:
    found = counted(SHEETS)
    assert [(part.monday, part.counts.played) for part in found.weeks] == [
        (date(2026, 8, 31), 2),
        (date(2026, 9, 7), 0),
        (date(2026, 9, 14), 0),
    ]
    assert found.played == {"one": (1, 0, 0), "two": (1, 0, 0)}


@pytest.mark.parametrize(
    ("how", "is_played", "expected"),
    [
        ("played", True, {"played": 1}),
        ("awarded", True, {"played": 1}),
        ("annulled", True, {"played": 1}),
        ("annulled", False, {}),
        ("default", False, {"defaults": 1}),
        ("forfeit", True, {"played": 1, "forfeits": 1}),
        ("double_forfeit", False, {"double_forfeits": 1}),
    ],
)
def test_a_game_is_counted_by_what_became_of_it(
    how: How, *, is_played: bool, expected: dict[str, int]
) -> None:
    by: Side | None = "home" if how in ("forfeit", "default") else None
    found = counted([people.sheet(FIRST, how=how, by=by, is_played=is_played)]).total
    given_up = ("played", "forfeits", "defaults", "double_forfeits")
    assert {name: n for name in given_up if (n := getattr(found, name))} == expected


def test_a_default_beyond_those_allowed_is_a_forfeit() -> None:
    sheets = [people.sheet(one, how="default", by="home") for one in (FIRST, THIRD)]
    book = people.book("[forfeit.default]\nallowed = 1\n")
    season = Season(
        league=people.league(),
        rulebook=book,
        results=tuple(
            replace(one.result, round=nth)
            for nth, one in enumerate(sheets, start=1)
            if one.result is not None
        ),
    )
    found = participation(season, FIXTURES, sheets, people.rosters()).total
    assert (found.defaults, found.forfeits) == (1, 1)


def test_a_result_that_no_timetable_lists_counts_without_a_week() -> None:
    result = Result(
        game=people.fixture(30).game, round=1, home=TeamId("Ash"), away=TeamId("Birch")
    )
    season = Season(league=people.league(), rulebook=BOOK, results=(result,))
    found = participation(season, (), (), {})
    assert found.total.played == 1
    assert [(part.monday, part.counts.games) for part in found.weeks] == [(None, 1)]
    assert "no day given" in page(found)


def test_whom_nobody_can_tell_is_counted_as_nobody_and_said() -> None:
    sheet = people.sheet(FIRST, appeared=["al", "bo"])
    unknown = tuple(
        replace(one, person=None) if one.person == PersonId("bo") else one
        for one in sheet.appeared
    )
    found = counted([replace(sheet, appeared=unknown)])
    assert (found.total.people, found.total.unknown) == (1, 1)
    assert found.total.player_minutes == 80
    assert "1 appearance could not be put to a person" in page(found)


def test_players_of_a_side_that_was_not_checked_in_bring_no_hours() -> None:
    sheet = people.sheet(FIRST, shown={"al": "yellow"})
    found = counted([sheet]).total
    assert (found.player_minutes, found.sides_checked, found.sides_played) == (0, 0, 2)
    assert "no check-in was written down" in " ".join(report_lines(told(counted([sheet]))))


def test_people_head_the_page_once_every_side_was_checked_in_and_games_before() -> None:
    found = counted(SHEETS)
    part = replace(found, total=replace(found.total, sides_checked=3))
    assert "3 known to have played, " in " ".join(report_lines(told(found)))
    assert "at least 3 played, " in " ".join(report_lines(told(part)))
    heads = [re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", page(one))) for one in (found, part)]
    assert ["3 people played" in one for one in heads] == [True, False]
    assert ["2 games played" in one for one in heads] == [False, True]


@pytest.mark.parametrize(
    ("minutes", "shown"), [(0, "0.0"), (44, "0.7"), (45, "0.8"), (90, "1.5")]
)
def test_minutes_are_told_as_hours_to_a_tenth(minutes: int, shown: str) -> None:
    assert str(hours(minutes)) == shown


@given(st.lists(st.sampled_from(("played", "forfeit", "default", "none")), max_size=4))
def test_weeks_and_divisions_each_add_up_to_the_season(became: list[str]) -> None:
    sheets = [
        people.sheet(
            fixture,
            how="played" if how == "played" else "forfeit" if how == "forfeit" else "default",
            by=None if how == "played" else "home",
        )
        for fixture, how in zip(FIXTURES, became, strict=False)
        if how != "none"
    ]
    found = counted(sheets)
    for parts in (found.weeks, found.divisions):
        for name in ("games", "played", "forfeits", "defaults", "to_come", "game_minutes"):
            assert sum(getattr(one.counts, name) for one in parts) == getattr(found.total, name)


def told(found: Participation) -> SeasonReport:
    return SeasonReport(league="Meadow", found=found)


def page(found: Participation) -> str:
    return report_page(told(found), shell=SHELL, here="season-report.html")


def test_the_page_names_no_player_and_no_team() -> None:
    shown = re.sub(r"<[^>]+>", " ", page(counted(SHEETS)))
    for name in ("Ash", "Birch", "Cedar", "Al ", "Bo "):
        assert name not in shown


def test_a_season_without_a_game_says_so_and_draws_nothing() -> None:
    season = Season(league=people.league(), rulebook=BOOK, results=())
    shown = page(participation(season, (), (), {}))
    assert shown.count("No game is listed yet.") == 2
    assert "<rect" not in shown


def test_pictures_of_divisions_stand_beside_each_other_only_where_there_are_several() -> None:
    assert page(counted(SHEETS)).count('role="img"') == 3
    assert page(counted(SHEETS, split=False)).count('role="img"') == 1


def test_tables_hold_numbers_and_the_mondays() -> None:
    weeks = report_tables(told(counted(SHEETS)))["season-report-weeks"]
    assert weeks.header[:3] == ("week_of", "games", "played")
    assert weeks.rows[0] == (
        date(2026, 8, 31), 2, 2, 0, 0, 0, 0, 3, Decimal("1.3"), Decimal("2.7"), 4, 4
    )  # fmt: skip


def test_values_are_exact_minutes() -> None:
    values = report_values(told(counted(SHEETS)))
    assert values["total"] == {
        "games": 4, "played": 2, "forfeits": 1, "defaults": 0, "double_forfeits": 0,
        "to_come": 1, "people": 3, "unknown": 0, "game_minutes": 80, "player_minutes": 160,
        "sides_played": 4, "sides_checked": 4,
    }  # fmt: skip


def test_a_picture_says_every_count_in_words_and_draws_it_to_scale() -> None:
    labels = ["14 Sep", "21 Sep", "28 Sep"]
    row = Row(name="Open <upper> & lower", values=(2, 0, 4))
    drawn = ET.fromstring(bars_svg(row, labels, most=8, unit="games played"))  # noqa: S314 - our own
    name = "{http://www.w3.org/2000/svg}"
    assert drawn.findtext(f"{name}title") == "Open <upper> & lower, games played"
    assert drawn.findtext(f"{name}desc") == "14 Sep: 2; 21 Sep: 0; 28 Sep: 4."
    heights = [float(bar.attrib["height"]) for bar in drawn.iter(f"{name}rect")]
    assert heights == [24.0, 48.0]


@pytest.mark.parametrize(("weeks", "numbers"), [(20, 20), (21, 1)])
def test_each_bar_has_its_number_until_they_are_too_many(weeks: int, numbers: int) -> None:
    values = (*range(1, weeks), 99)
    drawn = bars_svg(Row(name="All", values=values), ["w"] * weeks, most=99, unit="games")
    assert drawn.count('class="value"') == numbers
