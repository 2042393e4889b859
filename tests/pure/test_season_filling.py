"""The sides of a bracket's games come from the draw and from the games before them."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import From, OpenFixture, OpenSide, Seeded
from wholeball.season.filling import Filling, Nobody, Otherwise, loser_of, winner_of
from wholeball.season.result import Result

DAY = date(2026, 11, 10)
REDS, BLUES, GREENS = TeamId("Reds"), TeamId("Blues"), TeamId("Greens")
RESULT = Result(game=GameId("P1"), round=1, home=REDS, away=BLUES, home_goals=2, away_goals=1)
ANNULLED = replace(RESULT, how="annulled")


def game(name: str, home: TeamId | OpenSide, away: TeamId | OpenSide) -> OpenFixture:
    return OpenFixture(
        game=GameId(name),
        round=1,
        day=DAY,
        start=time(19),
        field="1",
        home=home,
        away=away,
    )


def won(name: str) -> From:
    return From(game=GameId(name))


def lost(name: str) -> From:
    return From(game=GameId(name), takes="loser")


def sides(filling: Filling) -> dict[str, tuple[str, str]]:
    return {str(one.game): (one.home, one.away) for one in filling.filled.values()}


@pytest.mark.parametrize(
    ("result", "winner"),
    [
        (RESULT, REDS),
        (replace(RESULT, home_goals=1), None),
        (replace(RESULT, home_goals=0), BLUES),
        (replace(RESULT, home_goals=1, kicks=(3, 2)), REDS),
        (replace(RESULT, home_goals=1, kicks=(3, 4)), BLUES),
        (replace(RESULT, how="forfeit", by="home"), BLUES),
        (replace(RESULT, how="default", by="away", home_goals=0), REDS),
        (replace(RESULT, how="awarded", home_goals=0, away_goals=3, ruling=1), BLUES),
        (replace(RESULT, how="double_forfeit"), None),
        (ANNULLED, None),
    ],
)
def test_a_game_is_won_by_goals_kicks_forfeit_default_or_ruling_or_by_nobody(
    result: Result, winner: TeamId | None
) -> None:
    loser = {REDS: BLUES, BLUES: REDS}.get(winner) if winner else None
    assert (winner_of(result), loser_of(result)) == (winner, loser)


QATAR: tuple[tuple[str, str, str, int, int, tuple[int, int] | None], ...] = (
    ("57", "Netherlands", "Argentina", 2, 2, (3, 4)),
    ("58", "Croatia", "Brazil", 1, 1, (4, 2)),
    ("59", "England", "France", 1, 2, None),
    ("60", "Morocco", "Portugal", 1, 0, None),
    ("61", "Argentina", "Croatia", 3, 0, None),
    ("62", "France", "Morocco", 2, 0, None),
    ("63", "Croatia", "Morocco", 2, 1, None),
    ("64", "Argentina", "France", 3, 3, (4, 2)),
)
"""The last eight of the World Cup of 2022 as FIFA published them, from memory; goals of overtime are in."""
LAST_FOUR = (
    game("61", won("57"), won("58")),
    game("62", won("59"), won("60")),
    game("63", lost("61"), lost("62")),
    game("64", won("61"), won("62")),
)


def published(names: Iterable[str]) -> list[Result]:
    return [
        Result(
            game=GameId(name),
            round=1,
            home=TeamId(home),
            away=TeamId(away),
            home_goals=goals,
            away_goals=against,
            kicks=kicks,
        )
        for name, home, away, goals, against, kicks in QATAR
        if name in names
    ]


def test_the_last_games_of_a_published_world_cup_fill_as_they_were_played() -> None:
    filling = Filling(fixtures=LAST_FOUR)
    assert [one.game for one in filling.take(published(["57", "58", "59"]))] == ["61"]
    assert [one.game for one in filling.take(published(["60", "61"]))] == ["62"]
    assert [one.game for one in filling.take(published(["62"]))] == ["63", "64"]
    assert filling.still_open() == []
    assert sides(filling) == {name: (home, away) for name, home, away, *_ in QATAR[4:]}


def test_a_seed_is_filled_by_the_draw_of_its_bracket_and_none_by_a_seed_beyond_it() -> None:
    fixtures = (
        game("P1", Seeded(seed=1), Seeded(seed=2)),
        game("P2", Seeded(seed=1, bracket="Silver"), REDS),
        game("P3", Seeded(seed=3), REDS),
    )
    filling = Filling(fixtures=fixtures, brackets={"": (REDS, BLUES), "Silver": (GREENS,)})
    filling.take(())
    assert sides(filling) == {"P1": ("Reds", "Blues"), "P2": ("Greens", "Reds")}
    assert filling.still_open() == [fixtures[2]]


def test_a_game_without_a_winner_brings_nobody_and_is_named() -> None:
    final = game("P3", won("P1"), GREENS)
    filling = Filling(fixtures=(final,))
    assert filling.take([ANNULLED]) == []
    assert list(filling.nobody()) == [Nobody(final, won("P1"), ANNULLED)]
    assert [one.home for one in filling.take([RESULT])] == ["Reds"]
    assert list(filling.nobody()) == []


def test_a_team_never_comes_to_play_itself() -> None:
    again = game("P2", won("P1"), REDS)
    filling = Filling(fixtures=(again,))
    assert filling.take([RESULT]) == []
    assert list(filling.against_itself()) == [(again, REDS)]


def test_sides_written_down_with_a_result_stand_and_are_told_apart_from_those_found() -> None:
    final = game("P3", won("P1"), won("P2"))
    stated = {final.game: (BLUES, GREENS)}
    filling = Filling(fixtures=(final,), stated=stated)
    filling.take(())
    assert (sides(filling), list(filling.otherwise())) == ({"P3": ("Blues", "Greens")}, [])
    filling.take([RESULT])
    assert sides(filling) == {"P3": ("Blues", "Greens")}
    assert list(filling.otherwise()) == [Otherwise(final, (BLUES, GREENS), (REDS, GREENS))]


@given(st.integers(1, 4), st.data())
def test_every_game_of_a_bracket_fills_once_and_the_last_is_of_teams_never_beaten(
    rounds: int, data: st.DataObject
) -> None:
    """Followed by hand: the teams left after each round, in the order of the bracket."""
    teams = [TeamId(f"T{number}") for number in range(2**rounds)]
    fixtures: list[OpenFixture] = []
    feeders: list[OpenSide] = [Seeded(seed=number + 1) for number in range(len(teams))]
    left, beaten = list(teams), set[TeamId]()
    results: list[Result] = []
    while len(feeders) > 1:
        pairs = list(zip(feeders[::2], feeders[1::2], strict=True))
        meeting = list(zip(left[::2], left[1::2], strict=True))
        names = [f"{len(left)}-{number}" for number in range(len(pairs))]
        fixtures += [game(name, *pair) for name, pair in zip(names, pairs, strict=True)]
        home_wins = [data.draw(st.booleans()) for _ in names]
        for name, (home, away), wins in zip(names, meeting, home_wins, strict=True):
            results.append(
                replace(
                    RESULT,
                    game=GameId(name),
                    home=home,
                    away=away,
                    home_goals=int(wins),
                    away_goals=int(not wins),
                )
            )
            beaten.add(away if wins else home)
        left = [team for team in left if team not in beaten]
        feeders = [won(name) for name in names]
    filling = Filling(fixtures=tuple(fixtures), brackets={"": tuple(teams)})
    by_game = {one.game: one for one in results}
    filled = [wave for wave in _waves(filling, by_game) if wave]
    assert [len(wave) for wave in filled] == [2 ** (rounds - at) for at in range(1, rounds + 1)]
    assert {(one.game, one.home, one.away) for wave in filled for one in wave} == {
        (one.game, one.home, one.away) for one in results
    }
    assert {*left} == {*teams} - beaten


def _waves(filling: Filling, by_game: dict[GameId, Result]) -> Iterable[list[Result]]:
    wave = filling.take(())
    while wave:
        played = [replace(by_game[one.game], home=one.home, away=one.away) for one in wave]
        yield played
        wave = filling.take(played)
