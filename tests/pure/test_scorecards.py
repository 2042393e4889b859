"""Scorecards hold what captains may see, and what an official forgets, for their stage."""

import re
from dataclasses import replace
from datetime import UTC, date, datetime, time
from io import BytesIO
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.league.fixture import Fixture, Stage
from wholeball.league.league import Team
from wholeball.league.player import Player
from wholeball.reports.reminders import Reminder, reminders
from wholeball.reports.roster_lines import RosterLine, lines_of, roster_lines
from wholeball.reports.scorecards import (
    BIBS,
    CardSide,
    RatingSlip,
    Scorecard,
    Sheet,
    away_colours,
    rating_slip,
    scorecards,
    sheet,
)
from wholeball.reports.scorecards_pdf import scorecards_pdf
from wholeball.reports.typeset import Paper
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import edition
from wholeball.rulebook.load import load

PRINTED = datetime(2026, 10, 13, 15, 5, tzinfo=UTC)
HOUSE = b"""
base = "laws-2025-26"
name = "House rules, eights"
[sides]
ref = "H 2.1"
on_field = 8
minimum_to_start = 6
minimum_to_continue = 5
[check_in]
ref = "H 2.2"
late = "until_half_time"
[game]
ref = "H 5.1"
minutes = 22
interval_minutes = 4
[game.stoppages]
ref = "H 5.2"
clock_stops_for = ["injury", "hold"]
lost_time = "not_added"
[game.period_end]
ref = "H 5.3"
at = "chance_played_out"
chance = "attacking_half"
[goalkeeper.hold]
ref = "H 6.1"
seconds = 12
then = "indirect_free_kick"
[mercy]
ref = "H 10.1"
ladder = [{ lead = 9, minutes_left = 8 }, { lead = 6, minutes_left = 3 }]
[ties]
ref = "H 10.2"
league = "draw"
play_off = "overtime_then_kicks"
[overtime]
ref = "H 10.3"
ends = "golden_goal"
periods = 1
minutes = 7
interval_minutes = 1
[kicks]
ref = "H 10.4"
each = 4
sudden_death = true
[forfeit.grace]
ref = "H 11.2"
minutes = 7
chosen_by = "opponents"
final = true
clock_runs = true
[ratings]
ref = "H 12.1"
by = "officials"
scale = { low = 1, high = 5, step = 1 }
reason_at_or_below = 2
cap_after_sending_off = 3
floor = 1
play_off_minimum = 3
"""
NAMES = [f"Player {letter}" for letter in "ABCDEFGHIJKLMNOPQRST"]


@pytest.fixture(scope="module")
def house() -> Rulebook:
    return load(HOUSE, file="house.toml").rulebook


def side(name: str, players: int) -> CardSide:
    listed = tuple(Player(name=f"{name} {NAMES[nth]}", number=nth) for nth in range(players))
    return CardSide(team=TeamId(name), colours="navy", players=listed)


def card(nth: int, stage: Stage = "league", players: int = 12) -> Scorecard:
    return Scorecard(
        game=GameId(f"W5{nth}"),
        stage=stage,
        day=date(2026, 10, 13),
        start=time(19, 0),
        field=f"Meadow {nth}",
        home=side(f"H{nth}", players),
        away=side(f"A{nth}", players),
    )


def pages(cards: list[Scorecard], book: Rulebook, paper: Paper = "a4") -> list[str]:
    """Return the words of each page, each run of blanks as one space."""
    made = scorecards_pdf(cards, book, printed=PRINTED, paper=paper)
    texts = (page.extract_text() for page in PdfReader(BytesIO(made)).pages)
    return [re.sub(r"\s+", " ", text) for text in texts]


def test_a_name_without_a_place_to_break_stays_in_its_column(house: Rulebook) -> None:
    long = side("W" * 60, 1)
    wide = replace(long, players=(Player(name="M" * 60, number=1),))
    made = scorecards_pdf([replace(card(1), home=wide)], house, printed=PRINTED, paper="a4")
    lines = PdfReader(BytesIO(made)).pages[0].extract_text().split("\n")
    runs = [run for line in lines for run in re.findall(r"W{9,}|M{9,}", line)]
    assert max(map(len, runs)) < 40


def test_a_match_that_parts_level_teams_has_a_scorecard_with_the_rules_of_a_play_off(
    house: Rulebook,
) -> None:
    (told,) = pages([card(1, "decider")], house)[:1]
    assert "Deciding game W51" in told
    assert "Level: overtime, then kicks (H 10.2)" in told


def test_a_league_game_is_reminded_of_every_rule_that_applies_to_it(house: Rulebook) -> None:
    assert reminders(house, "league") == (
        Reminder("Thunder heard or flash seen: stop."),
        Reminder("Suspected head injury: out for the day."),
        Reminder("Start with 6, go on with 5", "H 2.1"),
        Reminder("Short side: 7 min if opponents wait, off the game", "H 11.2"),
        Reminder("Late players: until half-time ends", "H 2.2"),
        Reminder("2 \u00d7 22 min, 4 between", "H 5.1"),
        Reminder("Clock runs, save injury or hold. No time added", "H 5.2"),
        Reminder("Half: chance in attackers' half played out, penalty too", "H 5.3"),
        Reminder("In hands 12 s, then indirect free kick", "H 6.1"),
        Reminder("Mercy: 9 up at 8:00 left or 6 up at 3:00 left", "H 10.1"),
        Reminder("Level: a draw", "H 10.2"),
    )


def test_a_play_off_game_is_reminded_of_overtime_and_kicks(house: Rulebook) -> None:
    assert reminders(house, "play_off")[10:] == (
        Reminder("Level: overtime, then kicks", "H 10.2"),
        Reminder("Overtime 1 \u00d7 7 min, first goal ends it", "H 10.3"),
        Reminder("Kicks: 4 each, then in pairs", "H 10.4"),
    )


def test_the_laws_alone_have_other_reminders() -> None:
    told = {one.says for one in reminders(edition("laws-2025-26"), "league")}
    assert {
        "Start with 7, go on with 7",
        "2 \u00d7 45 min, 15 between",
        "In hands 8 s, then corner kick",
        "No mercy rule",
        "Half ends on time, save a penalty",
    } <= told
    # Laws of the Game 2025/26: 3.1 (seven players), 7.1 and 7.2 (two halves of 45 minutes, at
    # most 15 between), 7.4 (a penalty is completed), 12.2 (eight seconds, then a corner kick).


def test_boxes_are_those_of_the_stage(house: Rulebook) -> None:
    league, play_off = sheet(house, "league"), sheet(house, "play_off")
    assert (league.goals, league.kicks) == (("1st half", "2nd half", "Total"), (0, 0))
    assert play_off == Sheet(
        goals=("1st half", "2nd half", "OT", "Total"),
        kicks=(4, 4),
        reminders=reminders(house, "play_off"),
    )


def test_two_scorecards_stand_on_a_page_and_rating_slips_after_them(house: Rulebook) -> None:
    made = pages([card(1), card(2, "play_off"), card(3)], house)
    assert [re.findall(r"game (W5\d)", page) for page in made] == [
        ["W51", "W52"],
        ["W53"],
        ["W51", "W52", "W53"],
    ]
    assert ["Ratings" in page for page in made] == [False, False, True]


def test_rating_slips_never_come_on_the_back_of_a_scorecard(house: Rulebook) -> None:
    made = pages([card(1), card(2)], house)
    assert ["Ratings" in page for page in made] == [False, False, True]
    assert made[1] == ""


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_eighteen_players_a_side_still_stand_two_to_a_page(
    house: Rulebook, paper: Paper
) -> None:
    made = pages([card(1, "play_off", 18), card(2, "play_off", 18)], house, paper)
    assert [len(re.findall("Home captain", page)) for page in made] == [2, 0, 0]
    assert all(f"H1 {name}" in made[0] and f"A2 {name}" in made[0] for name in NAMES[:18])


def test_a_long_roster_makes_a_page_of_its_own_and_loses_nobody(house: Rulebook) -> None:
    listed = tuple(Player(name=f"Person {nth}") for nth in range(60))
    one = card(1)
    long = Scorecard(
        game=one.game,
        stage=one.stage,
        day=one.day,
        start=one.start,
        field=one.field,
        home=CardSide(team=TeamId("Crowd"), colours="", players=listed),
        away=one.away,
    )
    every = pages([card(2), long, card(3)], house)
    made = " ".join(every)
    assert [len(re.findall("Home captain", page)) for page in every] == [1, 0, 1, 1, 0, 0, 0][
        : len(every)
    ]
    assert [name for name in (one.name for one in listed) if name not in made] == []


def test_a_scorecard_says_when_where_and_who(house: Rulebook) -> None:
    made = pages([card(7, "play_off")], house)[0]
    for words in (
        "19:00",
        "Tuesday 13 October 2026, Meadow 7",
        "Play-off game W57",
        "11 H7 Player L",
        "0 A7 Player A",
        "navy",
        "1st half 2nd half OT Total",
        "Kicks",
        "Y or R Side No. Min Reason",
        "Home captain",
        "Away captain",
        "Refused by, reason",
        "Mercy: 9 up at 8:00 left or 6 up at 3:00 left (H 10.1)",
    ):
        assert words in made


def test_captains_see_no_rating_and_officials_who_do_not_rate_get_no_slip(
    house: Rulebook,
) -> None:
    assert "ating" not in pages([card(1)], house)[0]
    assert rating_slip(house) == RatingSlip(
        values=("1", "2", "3", "4", "5"),
        says="1 to 5 in steps of 1. At 2 or lower write the reason. With a red at most 3 "
        "(H 12.1).",
    )
    by_nobody = HOUSE.replace(b'by = "officials"', b'by = "nobody"')
    book = load(by_nobody, file="house.toml").rulebook
    assert rating_slip(book) is None
    assert len(pages([card(1), card(2)], book)) == 1


@pytest.mark.parametrize(
    ("home", "away", "second", "worn"),
    [
        ("navy", "green", "white", "green"),
        ("navy", "Navy", "white", "white"),
        ("navy", "navy", "", BIBS),
        ("navy", "navy", "NAVY", BIBS),
        ("", "", "white", ""),
    ],
)
def test_the_away_side_changes_where_the_first_colours_clash(
    home: str, away: str, second: str, worn: str
) -> None:
    hosts = Team(team=TeamId("H"), pool=PoolId("A"), colours=home)
    guests = Team(team=TeamId("A"), pool=PoolId("A"), colours=away, second_colours=second)
    assert away_colours(hosts, guests) == worn


def test_a_scorecard_has_the_roster_in_its_order_and_none_where_there_is_no_list() -> None:
    teams = [Team(team=TeamId(name), pool=PoolId("A")) for name in ("H", "A")]
    game = Fixture(
        game=GameId("1"),
        round=1,
        day=date(2026, 10, 13),
        start=time(19),
        field="1",
        home=TeamId("H"),
        away=TeamId("A"),
    )
    listed = (Player(name="Zed", number=9), Player(name="Ana"))
    (made,) = scorecards([game], teams, {TeamId("H"): listed})
    assert (made.home.players, made.away.players) == (listed, ())


def test_numbers_stand_over_their_line_and_a_captain_is_marked() -> None:
    players = [Player(name="Ana", number=7, is_captain=True), Player(name="Bea")]
    players.append(Player(name="Wilhelmina Castellaro-Wick of Upper Hollinmere", number=10))
    gap = "      "
    assert roster_lines(players) == [
        RosterLine(f"7\u2007{gap}Ana (C)", 1, may_wrap=False),
        RosterLine(f"\u2007\u2007{gap}Bea", 1, may_wrap=False),
        RosterLine(f"10{gap}Wilhelmina Castellaro-Wick of Upper Hollinmere", 2, may_wrap=True),
    ]


LONG = "Wilhelmina Castellaro-Wick of Upper Hollinmere"


@pytest.mark.parametrize(
    ("name", "painted"), [("Ana Sorrel", 0), (LONG, 2), (f"{LONG} " * 3, 2)]
)
def test_a_long_name_is_whole_and_has_one_box_however_many_lines_it_takes(
    house: Rulebook, name: str, painted: int
) -> None:
    one = card(1)
    listed = (Player(name=name.strip(), number=10), *one.home.players)
    long = replace(one, home=replace(one.home, players=listed))
    made = scorecards_pdf([long], house, printed=PRINTED, paper="us-letter")
    page = PdfReader(BytesIO(made)).pages[0]
    contents = page.get_contents()
    assert contents is not None
    assert name.strip() in re.sub(r"\s+", " ", page.extract_text())
    # White over the lines through the box, once for the number and once for the name.
    assert len(re.findall(rb"cs 1 scn", contents.get_data())) == painted


@given(st.text(st.sampled_from("ab W\u00e9\u5c71"), max_size=60), st.integers(5, 30))
def test_a_text_takes_enough_lines_for_its_letters(text: str, letters: int) -> None:
    assert lines_of(text, letters) * letters >= len(text.replace(" ", ""))


def test_other_scripts_are_printed_and_letters_without_shapes_as_code_points(
    house: Rulebook,
) -> None:
    one = card(1)
    names = (
        "\u0646\u0648\u0631",
        "\u05e9\u05d9\u05e8\u05d4",
        "Zo\u00eb \U0001f98a",
        "#panic() *x*",
    )
    foreign = CardSide(
        team=TeamId("Night Owls \U0001f989"),
        colours="",
        players=tuple(Player(name=name) for name in names),
    )
    made = pages(
        [
            Scorecard(
                game=one.game,
                stage=one.stage,
                day=one.day,
                start=one.start,
                field=one.field,
                home=foreign,
                away=one.away,
            )
        ],
        house,
    )
    text = " ".join(made)
    assert "Zo\u00eb [U+1F98A]" in text
    assert "Night Owls [U+1F989]" in text
    assert "#panic() *x*" in text
    assert "Printed as code points" in made[-1]


def test_the_pdf_is_tagged_and_titled_and_the_same_each_time(house: Rulebook) -> None:
    made = [scorecards_pdf([card(1)], house, printed=PRINTED, paper="a4") for _ in range(2)]
    assert made[0] == made[1]
    reader = PdfReader(BytesIO(made[0]))
    root: Any = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en-GB"
    assert reader.metadata is not None
    assert reader.metadata.title == "Scorecards, Tuesday 13 October 2026"


@pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("us-letter", (612, 792))])
def test_the_sheet_has_the_size_of_its_paper(
    house: Rulebook, paper: Paper, size: tuple[int, int]
) -> None:
    made = scorecards_pdf([card(1)], house, printed=PRINTED, paper=paper)
    box = PdfReader(BytesIO(made)).pages[0].mediabox
    assert (round(box.width), round(box.height)) == size
