"""A calendar shows every game once, where and when it is, and who is still to come in words."""

from dataclasses import replace
from datetime import date, datetime, time
from xml.etree import ElementTree as ET

from hypothesis import given
from hypothesis import strategies as st

from cases.tiny_season import EARLY, LATE, MONDAY, night, slots
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import Fixture, From, OpenFixture, Seeded
from wholeball.reports.calendar import (
    Cell,
    Ended,
    Entry,
    Load,
    entries,
    load_words,
    loads,
    of_field,
    of_team,
    weeks,
)
from wholeball.reports.calendar_page import (
    Calendar,
    ListLine,
    calendar_page,
    field_list_page,
    line_of_team,
    team_page,
)
from wholeball.reports.calendar_svg import loads_svg
from wholeball.reports.shell import Link, Shell

LEAGUE = Fixture(
    game=GameId("1"),
    round=1,
    day=night(0),
    start=LATE,
    field="F10",
    home=TeamId("Ash"),
    away=TeamId("Birch & Sons"),
)
FINAL = OpenFixture(
    game=GameId("P2"),
    round=2,
    day=night(8),
    start=EARLY,
    field="F2",
    home=From(game=GameId("P1")),
    away=Seeded(seed=1),
)
GAMES = entries((LEAGUE,), (FINAL,))
SHELL = Shell(
    links=(Link(label="Season", href="index.html"),),
    rulebook="House rules",
    digest="0" * 64,
    printed=datetime(2027, 1, 1, 12, 0),  # noqa: DTZ001 - local time
)
TOLD = Calendar(
    league="Harbour",
    first_day=MONDAY,
    games=GAMES,
    slots=(
        *slots((0, 1), (EARLY, LATE), ("F2", "F10")),
        *slots((0,), (time(21),), ("F2",)),
    ),
    teams={"Ash": "calendar-team-1.html"},
    fields={"F2": "calendar-field-1.html"},
)


def test_a_side_to_come_is_told_in_words() -> None:
    assert GAMES[1] == Entry(
        game=GameId("P2"),
        night=night(8),
        start=EARLY,
        field="F2",
        home="winner of P1",
        away="seed 1",
        note="play-off",
        is_to_come=True,
    )


def test_a_week_has_its_nights_across_and_its_starts_and_fields_down() -> None:
    first, second = weeks(GAMES, TOLD.slots, first_day=MONDAY)
    assert first.title == "Week 1, Monday 4 January to Tuesday 5 January"
    assert first.heads == (("4", "Monday"), ("5", "Tuesday"))
    assert [(row.at, row.field, row.is_first) for row in first.rows] == [
        ("18:00", "F2", True),
        ("18:00", "F10", False),
        ("20:00", "F2", True),
        ("20:00", "F10", False),
        ("21:00", "F2", True),
    ]
    assert first.rows[3].cells == (
        Cell(entries=(GAMES[0],), is_free=True),
        Cell(entries=(), is_free=True),
    )
    assert second.title == "Week 2, Tuesday 12 January"
    assert second.rows[0].cells == (Cell(entries=(GAMES[1],), is_free=False),)


def test_a_season_that_begins_in_the_middle_of_a_week_counts_that_week_as_its_first() -> None:
    (week,) = weeks(GAMES[:1], first_day=date(2027, 1, 7))
    assert week.number == 1


def test_loads_count_games_of_places_and_weeks_without_either() -> None:
    found = loads(GAMES, TOLD.slots, first_day=MONDAY)
    assert found == (Load("Week 1", 1, 9), Load("Week 2", 1, 0))
    assert list(load_words(found)) == [
        "Week 1: 1 game of 9 places",
        "Week 2: 1 game of 0 places",
    ]
    assert loads(GAMES[:1], first_day=MONDAY) == (Load("Week 1", 1, None),)
    assert loads((), first_day=MONDAY) == ()


def test_bars_are_as_long_as_what_they_stand_for_and_said_in_words() -> None:
    picture = ET.fromstring(loads_svg([Load("A", 2, 4), Load("B", 4, None)], title="<Load>"))  # noqa: S314 - ours
    name = "{http://www.w3.org/2000/svg}"
    frame, two, four = (float(one.attrib["width"]) for one in picture.iter(f"{name}rect"))
    assert (frame, two * 2) == (four, four)
    assert picture.findtext(f"{name}title") == "<Load>"
    assert picture.findtext(f"{name}desc") == "A: 2 games of 4 places. B: 4 games."


def test_the_page_shows_each_game_and_escapes_names() -> None:
    page = calendar_page(TOLD, shell=SHELL, here="calendar.html")
    assert "The sides of 1 game are still to be known." in page
    assert page.count("Birch &amp; Sons") == 1
    assert "<bdi>winner of P1</bdi>" in page
    assert "not open" in page
    assert 'href="calendar-team-1.html"' in page


def test_a_team_without_a_game_and_a_season_without_one_say_so() -> None:
    nobody = Calendar(
        league="Harbour",
        first_day=MONDAY,
        games=(),
        slots=(),
        teams={"Cedar": "c.html"},
        fields={},
    )
    assert "There is no timetable yet" in calendar_page(
        nobody, shell=SHELL, here="calendar.html"
    )
    assert "No game yet." in team_page(nobody, "Cedar", shell=SHELL, under="calendar.html")


def test_a_team_and_a_field_have_their_own_games_on_their_pages() -> None:
    ash = team_page(TOLD, "Ash", shell=SHELL, under="calendar.html")
    assert "<bdi>Birch &amp; Sons</bdi>" in ash
    assert "Monday 4 January, <bdi>F10</bdi>" in ash
    assert "seed 1" not in ash
    field = field_list_page(TOLD, "F2", shell=SHELL, under="calendar.html")
    assert "<bdi>winner of P1</bdi>" in field
    assert "Ash" not in field


def test_a_game_that_was_played_tells_each_side_how_it_ended_own_goals_first() -> None:
    ends = {
        Ended(goals=(2, 1), winner="Ash"): (
            ("won against", "2-1", "20:00"),
            ("lost to", "1-2", "20:00"),
        ),
        Ended(goals=(1, 1)): (
            ("level with", "1-1", "20:00"),
            ("level with", "1-1", "20:00"),
        ),
        Ended(goals=(0, 0), winner="Birch & Sons", kicks=(3, 4)): (
            ("lost to", "0-0", "20:00, kicks 3-4"),
            ("won against", "0-0", "20:00, kicks 4-3"),
        ),
        Ended(goals=(0, 3), winner="Birch & Sons", by="forfeit"): (
            ("lost to", "0-3", "20:00, forfeit"),
            ("won against", "3-0", "20:00, forfeit"),
        ),
        Ended(goals=None, by="double forfeit"): (
            ("against", "20:00", "double forfeit"),
            ("against", "20:00", "double forfeit"),
        ),
    }
    for ended, told in ends.items():
        (game,) = entries((LEAGUE,), (), {LEAGUE.game: ended})
        found = [line_of_team(game, team) for team in ("Ash", "Birch & Sons")]
        assert [_told(one) for one in found] == list(told)


def _told(line: ListLine) -> tuple[str, str, str]:
    """Return a line with plain hyphens for its dashes."""
    dash, ((word, _),) = "\N{EN DASH}", line.sides
    return word, line.number.replace(dash, "-"), line.more.replace(dash, "-")


def test_a_score_stands_on_the_page_of_a_team_and_not_the_start() -> None:
    (game,) = entries((LEAGUE,), (), {LEAGUE.game: Ended(goals=(2, 1), winner="Ash")})
    page = team_page(replace(TOLD, games=(game,)), "Ash", shell=SHELL, under="calendar.html")
    assert '<span class="quiet">won against</span> <bdi>Birch &amp; Sons</bdi>' in page
    assert "Monday 4 January, 20:00, <bdi>F10</bdi>" in page
    assert '<span class="tick">2\N{EN DASH}1</span>' in page


PLACES = st.tuples(
    st.integers(0, 20), st.sampled_from((EARLY, LATE, time(21))), st.sampled_from(("F1", "F2"))
)


@given(st.lists(PLACES, max_size=12))
def test_every_game_is_in_one_cell_and_on_the_lists_of_its_sides_and_field(
    places: list[tuple[int, time, str]],
) -> None:
    games = entries(
        [
            Fixture(
                game=GameId(f"{number}"),
                round=1,
                day=night(day),
                start=start,
                field=field,
                home=TeamId(f"home {number}"),
                away=TeamId("away"),
            )
            for number, (day, start, field) in enumerate(places)
        ],
        (),
    )
    shown = [
        one
        for week in weeks(games, first_day=MONDAY)
        for row in week.rows
        for cell in row.cells
        for one in cell.entries
    ]
    assert sorted(shown, key=repr) == sorted(games, key=repr)
    assert of_team(games, "away") == games
    assert sum(len(of_field(games, field)) for field in ("F1", "F2")) == len(games)
    assert sum(one.games for one in loads(games, first_day=MONDAY)) == len(games)
