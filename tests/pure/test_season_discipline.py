"""Suspensions: what brings them, what serves them, who is barred where.

Sources: NCAA soccer, five cautions make a suspension of one game (published summary of the rules,
read); FIFA World Cup 2022 regulations, two cautions in different matches or a red make one match,
and single cautions are cleared during the play-offs (from memory). Other values are common
practice, no source.
"""

from dataclasses import replace
from datetime import date
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.season_people import book, fixture, league, rosters, sheet
from wholeball.kernel.identity import GameId, PersonId
from wholeball.league.fixture import Fixture
from wholeball.rulebook.book import Rulebook
from wholeball.season.appearances import GameSheet
from wholeball.season.decision import Decision
from wholeball.season.discipline import Played, discipline
from wholeball.season.result import How
from wholeball.season.ruling import Ruling
from wholeball.season.suspension import Discipline, Served, Suspension

LATER = date(2026, 11, 1)
AL = PersonId("al")


def rules(
    *,
    yellows: str | int = 5,
    caution_games: int = 1,
    cleared: str = "never",
    red: int = 1,
    second_red: int = 2,
    meeting: bool = False,
    games: str = "played_and_forfeits",
    leagues: str = "same_league",
) -> Rulebook:
    number = f'"{yellows}"' if isinstance(yellows, str) else yellows
    return book(f"""
[discipline]
cautions_for_suspension = {number}
caution_games = {caution_games}
cautions_cleared = "{cleared}"
[discipline.red]
games = {red}
until_meeting = {str(meeting).lower()}
second_games = {second_red}
[discipline.serving]
games = "{games}"
leagues = "{leagues}"
""")


NCAA = rules()
WORLD_CUP = rules(yellows=2, cleared="before_play_offs")


def told(
    sheets: list[GameSheet],
    house: Rulebook,
    *coming: Fixture,
    decisions: tuple[Decision, ...] = (),
    rulings: tuple[Ruling, ...] = (),
    on: date = LATER,
    split: bool = True,
) -> Discipline:
    season = Played(
        league=league(split=split),
        rosters=rosters(),
        fixtures=[*(one.fixture for one in sheets), *coming],
        sheets=sheets,
        decisions=decisions,
        rulings=rulings,
    )
    return discipline(season, house, on=on)


def served(found: Discipline) -> list[tuple[str, list[str]]]:
    return [(one.cause, [game.game for game in one.served]) for one in found.suspensions]


def yellows(*days: int) -> list[GameSheet]:
    return [sheet(fixture(day), shown={"al": "yellow"}) for day in days]


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


@pytest.mark.parametrize(
    ("serving", "counted"),
    [
        ("played_only", ["A6"]),
        ("played_and_forfeits", ["A2", "A3", "A4", "A6"]),
        ("any_scheduled", ["A2", "A3", "A4", "A5", "A6", "A7"]),
    ],
)
def test_only_games_that_the_house_names_serve(serving: str, counted: list[str]) -> None:
    games = [
        sheet(fixture(1), shown={"al": "red"}),
        sheet(fixture(2), how="forfeit", by="away", is_played=False),
        sheet(fixture(3), how="default", by="home", is_played=False),
        sheet(fixture(4), how="double_forfeit", is_played=False),
        sheet(fixture(5), how="annulled", is_played=True),
        sheet(fixture(6), how="awarded"),
    ]
    found = told(games, rules(red=9, second_red=9, games=serving), fixture(7))
    assert served(found) == [("red", counted)]


def test_a_scheduled_game_serves_only_once_its_day_is_over() -> None:
    red = [sheet(fixture(1), shown={"al": "red"})]
    house = rules(games="any_scheduled")
    assert served(told(red, house, fixture(2), on=date(2026, 9, 2))) == [("red", [])]
    assert served(told(red, house, fixture(2), on=date(2026, 9, 3))) == [("red", ["A2"])]


def test_a_game_broken_off_serves_nothing_until_it_has_a_result() -> None:
    games = [sheet(fixture(1), shown={"al": "red"}), sheet(fixture(2), how=None)]
    assert served(told(games, WORLD_CUP)) == [("red", [])]


def test_a_game_of_another_league_serves_only_where_players_are_barred_everywhere() -> None:
    games = [
        sheet(fixture(1), shown={"al": "red"}),
        sheet(fixture(2, "Cedar Dogwood")),
        sheet(fixture(3)),
    ]
    assert served(told(games, rules())) == [("red", ["A3"])]
    assert served(told(games, rules(leagues="all_leagues"))) == [("red", ["C2"])]
    assert served(told(games, rules(), split=False)) == [("red", ["C2"])]


def test_sent_off_with_the_other_game_forfeited_bars_everywhere_on_thursday() -> None:
    """A red on Tuesday; on Wednesday the opponents forfeit; forfeits serve nothing."""
    games = [
        sheet(fixture(1), shown={"al": "red"}),
        sheet(fixture(2, "Cedar Dogwood"), how="forfeit", by="away", is_played=False),
    ]
    thursday = (fixture(3), fixture(3, "Cedar Dogwood", hour=21))
    house = rules(games="played_only", leagues="all_leagues")
    found = told(games, house, *thursday, on=date(2026, 9, 3))
    assert {
        game: [(one.person, one.team) for one in barred]
        for game, barred in found.barred.items()
    } == {
        "A3": [("al", "Ash")],
        "C3-21": [("al", "Cedar")],
    }
    assert served(found) == [("red", [])]


def test_a_player_not_on_a_roster_by_a_game_is_not_served_by_it() -> None:
    people = {**rosters()}
    [al, ed] = people[fixture(1, "Cedar Dogwood").home]
    late = type(al)(name=al.name, number=al.number, person=AL, added=date(2026, 9, 3))
    people[fixture(1, "Cedar Dogwood").home] = (late, ed)
    games = [
        sheet(fixture(1), shown={"al": "red"}),
        sheet(fixture(2, "Cedar Dogwood")),
        sheet(fixture(3, "Cedar Dogwood")),
    ]
    season = Played(
        league=league(),
        rosters=people,
        fixtures=[one.fixture for one in games],
        sheets=games,
    )
    found = discipline(season, rules(leagues="all_leagues"), on=LATER)
    assert served(found) == [("red", ["C3"])]


def test_a_game_of_a_team_whose_roster_lacks_the_player_serves_nothing() -> None:
    games = [
        sheet(fixture(1), shown={"bo": "red"}),
        sheet(
            fixture(2, "Cedar Dogwood"),
            how="forfeit",
            by="away",
            is_played=False,
            appeared=["bo"],
        ),
        sheet(fixture(3)),
    ]
    assert served(told(games, rules(leagues="all_leagues"))) == [("red", ["A3"])]


def test_a_game_between_two_teams_of_one_player_serves_one_game() -> None:
    both = rosters({"Ash": "al", "Birch": "al"})
    games = [sheet(fixture(1), shown={"al": "red"}), sheet(fixture(2)), sheet(fixture(3))]
    season = Played(
        league=league(),
        rosters=both,
        fixtures=[one.fixture for one in games],
        sheets=games,
    )
    found = discipline(season, rules(red=3, second_red=3), on=LATER)
    assert served(found) == [("red", ["A2", "A3"])]


def test_several_suspensions_are_served_one_after_the_other() -> None:
    """Common practice, no source."""
    games = [sheet(fixture(1), shown={"al": "yellow red"})]
    games += [sheet(fixture(day)) for day in (2, 3, 4)]
    house = rules(yellows=1, caution_games=2)
    assert served(told(games, house)) == [("red", ["A4"]), ("yellows", ["A2", "A3"])]


def test_yellows_of_an_annulled_game_lapse_and_its_red_does_not() -> None:
    """FIFA Disciplinary Code, from memory."""
    games = [
        *yellows(1),
        sheet(fixture(2), how="annulled", is_played=True, shown={"al": "yellow", "bo": "red"}),
        sheet(fixture(3)),
    ]
    found = told(games, WORLD_CUP)
    assert [(one.person, one.cause) for one in found.suspensions] == [("bo", "red")]


def test_yellow_and_red_of_a_game_awarded_later_stand() -> None:
    games = [*yellows(1), sheet(fixture(2), how="awarded", shown={"al": "yellow", "bo": "red"})]
    found = told(games, WORLD_CUP)
    assert [(one.person, one.cause) for one in found.suspensions] == [
        ("al", "yellows"),
        ("bo", "red"),
    ]


def test_whoever_plays_while_suspended_is_found_and_that_game_serves_nothing() -> None:
    games = [
        sheet(fixture(1), shown={"al": "red"}),
        sheet(fixture(2), appeared=["al", "bo"]),
        sheet(fixture(3), appeared=["bo"]),
    ]
    found = told(games, WORLD_CUP)
    assert [(one.person, one.game, one.team, one.side) for one in found.breaches] == [
        ("al", "A2", "Ash", "home")
    ]
    assert served(found) == [("red", ["A3"])]


@pytest.mark.parametrize(
    ("ruled", "breaches"), [(date(2026, 9, 3), ["A3"]), (date(2026, 9, 4), []), (None, [])]
)
def test_whom_a_game_had_served_that_is_annulled_later_broke_nothing_until_then(
    ruled: date | None, breaches: list[str]
) -> None:
    """The third is of 3 September; what it had not served is left. Common practice, no source."""
    undone = sheet(fixture(2), how="annulled", is_played=True)
    assert undone.result is not None
    games = [
        sheet(fixture(1), shown={"al": "red"}),
        replace(undone, result=replace(undone.result, ruling=1)),
        sheet(fixture(3), appeared=["al"]),
        sheet(fixture(4)),
    ]
    ruling = Ruling(number=1, game=GameId("A2"), day=ruled, ruled="annulled")
    found = told(games, WORLD_CUP, rulings=(ruling,))
    assert [one.game for one in found.breaches] == breaches
    assert served(found) == [("red", ["A4"])]


GIVEN_UP = Ruling(number=1, game=GameId("A2"), ruled="forfeit", by="away")
FIRST_ANNULLED = Ruling(number=1, game=GameId("A2"), day=date(2026, 9, 2), ruled="annulled")


@pytest.mark.parametrize(
    ("before", "earlier", "games", "breaches"),
    [
        ("forfeit", (), "played_and_forfeits", []),
        ("default", (), "played_and_forfeits", []),
        (None, (GIVEN_UP,), "played_and_forfeits", []),
        ("forfeit", (), "played_only", ["A3"]),
        (None, (), "played_and_forfeits", ["A3"]),
        ("forfeit", (FIRST_ANNULLED,), "played_and_forfeits", ["A3"]),
    ],
)
def test_a_forfeit_that_is_annulled_later_broke_nothing_where_forfeits_serve(
    before: How | None, earlier: tuple[Ruling, ...], games: str, breaches: list[str]
) -> None:
    """Nobody played the second; a ruling annuls it on the ninth. Common practice, no source."""
    undone = sheet(fixture(2), how="annulled", is_played=False)
    assert undone.result is not None
    season = [
        sheet(fixture(1), shown={"al": "red"}),
        replace(undone, result=replace(undone.result, ruling=2, before=before)),
        sheet(fixture(3), appeared=["al"]),
        sheet(fixture(4)),
    ]
    annulled = Ruling(number=2, game=GameId("A2"), day=date(2026, 9, 9), ruled="annulled")
    found = told(season, rules(games=games), rulings=(*earlier, annulled))
    assert [one.game for one in found.breaches] == breaches
    assert served(found) == [("red", ["A4"])]


def test_of_two_suspensions_an_annulled_game_undoes_one_game_of_either() -> None:
    """By the games as they counted, the second and the third had served both."""
    undone = sheet(fixture(2), how="annulled", is_played=True)
    assert undone.result is not None
    games = [
        sheet(fixture(1), shown={"al": "yellow red"}),
        replace(undone, result=replace(undone.result, ruling=1)),
        sheet(fixture(3)),
        sheet(fixture(4), appeared=["al"]),
    ]
    ruling = Ruling(number=1, game=GameId("A2"), day=date(2026, 9, 9), ruled="annulled")
    house = rules(yellows=1, caution_games=1)
    assert told(games, house, rulings=(ruling,)).breaches == ()
    assert [one.game for one in told(games, house).breaches] == ["A4"]


def test_whoever_is_checked_in_for_a_game_that_the_opponents_forfeit_did_not_play() -> None:
    games = [
        sheet(fixture(1), shown={"al": "red"}),
        sheet(fixture(2), how="forfeit", by="away", is_played=False, appeared=["al"]),
    ]
    found = told(games, WORLD_CUP)
    assert (found.breaches, served(found)) == ((), [("red", ["A2"])])


def decided(number: int, day: int, ruled: str, **keys: object) -> Decision:
    return Decision(number=number, day=date(2026, 9, day), person=AL, ruled=ruled, **keys)  # type: ignore[arg-type]


def test_a_ruling_about_the_red_gives_another_number_of_games() -> None:
    games = [sheet(fixture(1), shown={"al": "red"})]
    games += [sheet(fixture(day)) for day in (2, 3, 4)]
    three = decided(1, 2, "games", games=2, game=GameId("A1"), ref="H 11.4")
    assert served(told(games, WORLD_CUP, decisions=(three,))) == [("red", ["A2", "A3"])]


def test_a_ruling_never_reaches_back_to_games_played_before_it() -> None:
    games = [
        sheet(fixture(1), shown={"al": "red"}),
        sheet(fixture(2), appeared=["bo"]),
        sheet(fixture(3), appeared=["al", "bo"]),
        sheet(fixture(5), appeared=["bo"]),
    ]
    longer = decided(1, 4, "games", games=3, game=GameId("A1"))
    found = told(games, WORLD_CUP, decisions=(longer,))
    assert (served(found), found.breaches) == ([("red", ["A2", "A5"])], ())
    assert [one.left for one in found.open] == [1]


def test_a_suspension_until_a_day_holds_on_that_day_and_not_on_the_next() -> None:
    until = decided(1, 1, "until", until=date(2026, 9, 5))
    found = told([], rules(), fixture(5), fixture(6), decisions=(until,), on=date(2026, 9, 2))
    assert list(found.barred) == ["A5"]
    assert [(one.cause, one.until) for one in found.open] == [("ruling", date(2026, 9, 5))]


def test_what_is_lifted_ends_on_that_day() -> None:
    games = [sheet(fixture(1), shown={"al": "red"})]
    lifted = decided(1, 3, "lifted", game=GameId("A1"))
    found = told(
        games,
        rules(red=9, second_red=9),
        fixture(2),
        fixture(3),
        decisions=(lifted,),
        on=date(2026, 9, 2),
    )
    assert list(found.barred) == ["A2"]


def test_a_ruling_about_a_game_without_a_red_suspends_from_its_own_day() -> None:
    games = [sheet(fixture(1)), sheet(fixture(2)), sheet(fixture(3)), sheet(fixture(4))]
    one = decided(1, 3, "games", games=1, game=GameId("A1"), ref="H 11.4")
    found = told(games, rules(), decisions=(one,))
    assert served(found) == [("ruling", ["A3"])]
    assert [(kept.article, kept.league) for kept in found.suspensions] == [("H 11.4", None)]


def test_a_ruling_about_the_game_of_the_last_yellow_shapes_that_suspension_alone() -> None:
    games = [*yellows(1, 2), *(sheet(fixture(day)) for day in (3, 4, 5))]
    two = decided(1, 2, "games", games=2, game=GameId("A2"))
    assert served(told(games, WORLD_CUP, decisions=(two,))) == [("yellows", ["A3", "A4"])]


@given(st.integers(0, 10_000))
def test_adding_a_later_game_never_changes_where_an_earlier_one_was_served(seed: int) -> None:
    chance = Random(seed)
    house = rules(
        yellows=chance.randint(1, 3),
        red=chance.randint(0, 2),
        second_red=3,
        games=chance.choice(["played_only", "played_and_forfeits", "any_scheduled"]),
        leagues=chance.choice(["same_league", "all_leagues"]),
    )
    games = [_at_random(day, chance) for day in range(1, 15)]
    some = told(games[:-1], house)
    more = told(games, house)
    last = games[-1].fixture.game
    before = [
        (
            one.person,
            one.cause,
            one.game,
            tuple(each for each in one.served if each.game != last),
        )
        for one in more.suspensions
        if one.game != last
    ]
    assert before == [(one.person, one.cause, one.game, one.served) for one in some.suspensions]
    assert [one for one in more.breaches if one.game != last] == list(some.breaches)


def _at_random(day: int, chance: Random) -> GameSheet:
    teams = chance.choice(["Ash Birch", "Cedar Dogwood", "Birch Ash"])
    how = chance.choice(["played", "played", "forfeit", "annulled"])
    shown = {
        person: chance.choice(["yellow", "yellow", "red", "yellow yellow second"])
        for person in ("al", "bo")
        if chance.random() < 0.4
    }
    return sheet(
        fixture(day, teams),
        how=how,  # type: ignore[arg-type]
        by="away" if how == "forfeit" else None,
        shown={} if how == "forfeit" else shown,
        appeared=[*shown, "ed"] if chance.random() < 0.5 else [],
    )


@given(st.integers(0, 10_000))
def test_games_serve_once_after_their_cause_and_none_that_can_serve_is_passed_over(
    seed: int,
) -> None:
    chance = Random(seed)
    games = [_at_random(day, chance) for day in range(1, 15)]
    found = told(games, rules(yellows=2, red=2, second_red=3, leagues="all_leagues"))
    people = rosters()
    appeared = {(one.person, one.game) for one in found.breaches}
    for person in {one.person for one in found.suspensions}:
        mine = [one for one in found.suspensions if one.person == person]
        counted = [game.game for one in mine for game in one.served]
        assert len(counted) == len(set(counted))
        assert all(len(one.served) <= one.games for one in mine)
        assert all(one.day < game.day for one in mine for game in one.served)
        for game in games:
            of, result = game.fixture, game.result
            teams = (*people[of.home], *people[of.away])
            may_serve = (
                any(one.person == person for one in teams)
                and result is not None
                and result.how != "annulled"
                and (person, of.game) not in appeared
            )
            due = sum(one.games for one in mine if one.day < of.day)
            before = sum(each.day < of.day for one in mine for each in one.served)
            assert (of.game in counted) == (may_serve and before < due)
