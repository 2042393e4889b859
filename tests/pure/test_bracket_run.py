"""A bracket fills with results, forfeits advance, and conflicts of people show in time."""

from datetime import date, time

from wholeball.kernel.identity import GameId, PersonId, TeamId
from wholeball.league.crew import Official, OnCrew
from wholeball.league.player import Player
from wholeball.season.bracket import bracket
from wholeball.season.bracket_conflicts import Conflict, conflicts
from wholeball.season.bracket_run import Change, Line, changes, run
from wholeball.season.result import Result

A, B, C, D = (TeamId(name) for name in ("Alders", "Birches", "Cedars", "Dogwoods"))
SEEDS = {1: A, 2: B, 3: C, 4: D}
GAMES = bracket(4, third_place=True)


def test_before_any_game_the_final_is_open_to_all_four() -> None:
    final = run(GAMES, SEEDS, [])[-1]
    assert final == Line(
        game=GAMES[-1],
        possible_home=frozenset((A, D)),
        possible_away=frozenset((B, C)),
        state="open",
    )


def test_winners_meet_in_the_final_and_losers_for_third_place() -> None:
    lines = run(GAMES, SEEDS, [_game(A, D, 2, 1), _game(C, B, 3, 0)])
    assert [(line.home, line.away) for line in lines] == [(A, D), (B, C), (D, B), (A, C)]


def test_a_level_game_is_decided_by_kicks_and_waits_without_them() -> None:
    level = _game(A, D, 1, 1)
    assert run(GAMES, SEEDS, [level])[0].state == "level"
    kicked = Result(
        game=GameId("k"), round=1, home=A, away=D, home_goals=1, away_goals=1, kicks=(2, 3)
    )
    first = run(GAMES, SEEDS, [kicked])[0]
    assert (first.state, first.winner, first.loser) == ("decided", D, A)


def test_the_other_side_of_a_forfeit_goes_on() -> None:
    given_up = Result(game=GameId("f"), round=1, home=A, away=D, how="forfeit", by="home")
    first = run(GAMES, SEEDS, [given_up])[0]
    assert (first.winner, first.loser) == (D, A)


def test_where_both_forfeit_nobody_goes_on_and_the_next_opponents_have_a_walkover() -> None:
    both = Result(game=GameId("f"), round=1, home=A, away=D, how="double_forfeit")
    lines = run(GAMES, SEEDS, [both, _game(B, C, 2, 0)])
    assert [(line.state, line.winner) for line in lines] == [
        ("nobody", None),
        ("decided", B),
        ("walkover", C),
        ("walkover", B),
    ]


def test_an_annulled_game_is_still_to_be_played() -> None:
    gone = Result(game=GameId("x"), round=1, home=A, away=D, how="annulled")
    assert run(GAMES, SEEDS, [gone])[0].state == "open"


def test_a_bracket_is_known_before_its_teams() -> None:
    every = frozenset((A, B, C, D))
    first = run(GAMES, {1: A}, [], candidates={"": every})[0]
    assert (first.home, first.possible_away, first.state) == (A, every, "open")


def test_a_new_draw_would_let_one_in_for_another_and_exchange_two() -> None:
    assert changes((A, B, C), (B, A, D)) == (
        Change(team=A, drawn=1, now=2),
        Change(team=B, drawn=2, now=1),
        Change(team=C, drawn=3, now=None),
        Change(team=D, drawn=None, now=3),
    )
    assert changes((A, B), (A, B)) == ()


def test_a_player_of_two_teams_conflicts_with_the_game_in_which_they_could_meet() -> None:
    sam = PersonId("sam")
    rosters = {A: (_player("S", sam),), C: (_player("Sam", sam), _player("T", None))}
    found = conflicts(run(GAMES, SEEDS, []), rosters)
    assert found == (
        _both_sides("P3", (A, C), certain=False),
        _both_sides("P4", (A, C), certain=False),
    )
    known = run(GAMES, SEEDS, [_game(A, D, 2, 0), _game(B, C, 0, 1)])
    assert conflicts(known, rosters) == (_both_sides("P4", (A, C), certain=True),)


def test_two_of_one_name_without_a_code_are_never_taken_for_one_person() -> None:
    rosters = {A: (_player("S. Reed", None),), D: (_player("S. Reed", None),)}
    assert conflicts(run(GAMES, SEEDS, []), rosters) == ()


def test_an_official_conflicts_with_every_game_their_team_can_play() -> None:
    kim = PersonId("kim")
    found = conflicts(
        run(GAMES, SEEDS, []),
        {D: (_player("K", kim),)},
        officials=[Official(official="Kim", person=kim), Official(official="Lee")],
        crews=[
            OnCrew(game=GameId(game), role="referee", official=who)
            for game, who in (("P1", "Kim"), ("P2", "Kim"), ("P4", "Kim"), ("P4", "Lee"))
        ],
    )
    assert [(one.games, one.teams, one.is_certain, one.official) for one in found] == [
        ((GameId("P1"),), (D,), True, "Kim"),
        ((GameId("P4"),), (D,), False, "Kim"),
    ]


def test_a_player_of_two_teams_cannot_play_two_games_at_one_start() -> None:
    sam = PersonId("sam")
    rosters = {A: (_player("S", sam),), B: (_player("S", sam),)}
    tonight = date(2027, 5, 4), time(19)
    starts = {GameId("P1"): tonight, GameId("P2"): tonight}
    found = conflicts(run(GAMES, SEEDS, []), rosters, starts=starts)
    assert [one for one in found if one.kind == "same_start"] == [
        Conflict(
            kind="same_start",
            games=(GameId("P1"), GameId("P2")),
            person=sam,
            teams=(A, B),
            is_certain=True,
        )
    ]
    apart = starts | {GameId("P2"): (tonight[0], time(20))}
    found = conflicts(run(GAMES, SEEDS, []), rosters, starts=apart)
    assert all(one.kind == "both_sides" for one in found)


def _game(home: TeamId, away: TeamId, goals: int, against: int) -> Result:
    return Result(
        game=GameId(f"{home} {away}"),
        round=9,
        home=home,
        away=away,
        home_goals=goals,
        away_goals=against,
    )


def _player(name: str, person: PersonId | None) -> Player:
    return Player(name=name, person=person)


def _both_sides(game: str, teams: tuple[TeamId, ...], *, certain: bool) -> Conflict:
    return Conflict(
        kind="both_sides",
        games=(GameId(game),),
        person=PersonId("sam"),
        teams=teams,
        is_certain=certain,
    )
