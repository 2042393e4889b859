"""What brings a suspension: cautions that add up, reds, meetings.

Sources: NCAA soccer, five cautions make a suspension of one game (published summary of the rules,
read); FIFA World Cup 2022 regulations, two cautions in different matches or a red make one match,
and single cautions are cleared during the play-offs (from memory). Other values are common
practice, no source.
"""

from datetime import date

import pytest

from cases.season_people import fixture, sheet
from cases.suspended import AL, NCAA, WORLD_CUP, rules, served, told, yellows
from wholeball.kernel.identity import GameId
from wholeball.season.decision import Decision
from wholeball.season.suspension import Served, Suspension


def test_as_of_an_earlier_day_later_games_are_still_to_come() -> None:
    sent_off = sheet(fixture(1), shown={"al": "red"}, appeared=["al"])
    sat_out = sheet(fixture(8), appeared=["bo"])
    again = sheet(fixture(15), shown={"bo": "red"}, appeared=["bo"])
    games = [sent_off, sat_out, again]
    day_before = told(games, NCAA, on=date(2026, 9, 7))
    assert [(one.person, one.served, one.left) for one in day_before.suspensions] == [
        (AL, (), 1)
    ]
    assert [one.person for one in day_before.barred[sat_out.fixture.game]] == [AL]
    that_day = told(games, NCAA, on=date(2026, 9, 8))
    served = Served(sat_out.fixture.game, date(2026, 9, 8))
    assert [(one.person, one.served, one.left) for one in that_day.suspensions] == [
        (AL, (served,), 0)
    ]
    assert that_day.barred == {}


def test_four_cautions_bring_no_suspension_where_five_do() -> None:
    assert told(yellows(1, 2, 3, 4), NCAA).suspensions == ()


def test_the_fifth_caution_brings_one_game_which_the_next_serves() -> None:
    found = told([*yellows(1, 2, 3, 4, 5), sheet(fixture(6)), sheet(fixture(7))], NCAA)
    assert found.suspensions == (
        Suspension(
            person=AL,
            cause="yellows",
            article="discipline",
            game=GameId("A5"),
            day=date(2026, 9, 5),
            league="autumn",
            games=1,
            served=(Served(GameId("A6"), date(2026, 9, 6)),),
        ),
    )
    assert found.open == ()


def test_after_a_suspension_the_count_begins_again() -> None:
    nine, ten = yellows(*range(1, 10)), yellows(*range(1, 11))
    assert [one.game for one in told(nine, NCAA).suspensions] == ["A5"]
    assert [one.game for one in told(ten, NCAA).suspensions] == ["A5", "A10"]


def test_two_cautions_in_separate_matches_bring_one_match() -> None:
    found = told([*yellows(1, 2), sheet(fixture(3))], WORLD_CUP)
    assert served(found) == [("yellows", ["A3"])]


def test_two_cautions_in_one_match_are_a_red_and_do_not_add_up_as_yellows() -> None:
    games = [
        sheet(fixture(1), shown={"al": "yellow yellow second"}),
        sheet(fixture(2)),
        *yellows(3),
    ]
    assert served(told(games, WORLD_CUP)) == [("red", ["A2"])]


def test_a_yellow_before_a_straight_red_still_counts() -> None:
    games = [*yellows(1), sheet(fixture(2), shown={"al": "yellow red"})]
    games += [sheet(fixture(day)) for day in (3, 4, 5)]
    assert served(told(games, WORLD_CUP)) == [("red", ["A4"]), ("yellows", ["A3"])]


@pytest.mark.parametrize(("cleared", "count"), [("before_play_offs", 0), ("never", 1)])
def test_a_yellow_of_the_league_counts_in_the_play_offs_only_where_none_is_cleared(
    cleared: str, count: int
) -> None:
    games = [*yellows(1), sheet(fixture(2, stage="play_off"), shown={"al": "yellow"})]
    assert len(told(games, rules(yellows=2, cleared=cleared)).suspensions) == count


def test_clearing_yellows_leaves_a_suspension_that_they_brought_before() -> None:
    games = [*yellows(1, 2), sheet(fixture(3, stage="play_off"))]
    assert served(told(games, WORLD_CUP)) == [("yellows", ["A3"])]


def test_yellows_never_add_up_where_the_house_has_no_limit() -> None:
    assert told(yellows(*range(1, 20)), rules(yellows="no_limit")).suspensions == ()


def test_a_red_bars_from_the_next_game_and_not_from_the_one_after() -> None:
    red = [sheet(fixture(1), shown={"al": "red"})]
    found = told(red, WORLD_CUP, fixture(3), fixture(5), on=date(2026, 9, 2))
    assert {game: [one.unless for one in barred] for game, barred in found.barred.items()} == {
        "A3": [()],
        "A5": [("A3",)],
    }


def test_a_game_of_the_past_without_a_result_may_have_served_what_is_left() -> None:
    red = [sheet(fixture(1), shown={"al": "red"})]
    found = told(red, WORLD_CUP, fixture(3), fixture(5), on=date(2026, 9, 4))
    assert {game: [one.unless for one in barred] for game, barred in found.barred.items()} == {
        "A5": [("A3",)]
    }


def test_a_game_to_be_played_on_still_bars_whoever_was_suspended_before_it() -> None:
    games = [sheet(fixture(1), shown={"al": "red"}), sheet(fixture(3), how=None)]
    found = told(games, WORLD_CUP, on=date(2026, 9, 9))
    assert list(found.barred) == ["A3"]


def test_a_game_at_the_same_hour_as_the_red_serves_nothing() -> None:
    games = [
        sheet(fixture(1), shown={"al": "red"}),
        sheet(fixture(1, "Cedar Dogwood")),
        sheet(fixture(1, "Cedar Dogwood", hour=20)),
    ]
    house = rules(leagues="all_leagues")
    assert served(told(games, house)) == [("red", ["C1-20"])]


def test_a_second_red_of_the_season_brings_the_longer_suspension() -> None:
    games = [sheet(fixture(1), shown={"al": "red"}), sheet(fixture(2))]
    games += [sheet(fixture(3), shown={"al": "red"})]
    games += [sheet(fixture(day)) for day in (4, 5, 6)]
    assert served(told(games, WORLD_CUP)) == [("red", ["A2"]), ("second_red", ["A4", "A5"])]


def test_a_red_of_a_house_without_games_suspends_nobody() -> None:
    red = [sheet(fixture(1), shown={"al": "red"}), sheet(fixture(2))]
    found = told(red, rules(red=0), fixture(3))
    assert (found.open, dict(found.barred)) == ((), {})


def test_a_player_waits_for_a_meeting_however_many_games_go_by() -> None:
    house = rules(meeting=True)
    games = [sheet(fixture(1), shown={"al": "red"}), sheet(fixture(2))]
    waiting = told(games, house, fixture(8), on=date(2026, 9, 3))
    assert [(one.left, one.waits) for one in waiting.open] == [(0, True)]
    assert [one.unless for one in waiting.barred[GameId("A8")]] == [()]
    held = Decision(number=1, day=date(2026, 9, 8), person=AL, ruled="meeting_held")
    after = told(games, house, fixture(7), fixture(8), decisions=(held,), on=date(2026, 9, 3))
    assert list(after.barred) == ["A7"]
