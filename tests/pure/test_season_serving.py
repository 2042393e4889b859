"""What serves a suspension, who is barred where, and who broke one.

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

from cases.season_people import fixture, league, rosters, sheet
from cases.suspended import AL, LATER, WORLD_CUP, rules, served, told, yellows
from wholeball.kernel.identity import GameId
from wholeball.season.appearances import GameSheet
from wholeball.season.discipline import Played, discipline
from wholeball.season.result import How
from wholeball.season.ruling import Ruling


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
