"""The page of a bracket says every game in words, whatever became of it."""

from datetime import datetime

import pytest

from wholeball.kernel.identity import GameId, TeamId
from wholeball.reports.bracket_page import BracketTold, bracket_page
from wholeball.reports.shell import Link, Shell
from wholeball.season.bracket import Moved, Seeding, bracket
from wholeball.season.bracket_run import run
from wholeball.season.result import Result

A, B, C, D = TEAMS = tuple(
    TeamId(name) for name in ("Alders", "Birch & Sons", "Cedars", "Docks")
)
SHELL = Shell(
    links=(Link(label="Season", href="index.html"),),
    rulebook="House rules",
    digest="0" * 64,
    printed=datetime(2027, 1, 1, 12, 0),  # noqa: DTZ001 - local time
)


def page(*results: Result, left: int = 0, seeding: Seeding | None = None) -> str:
    """Return the page of four teams."""
    lines = run(bracket(4, third_place=False), dict(enumerate(TEAMS, start=1)), results)
    told = BracketTold(
        league="Harbour",
        name="",
        lines=lines,
        teams=TEAMS,
        left=left,
        seeding=seeding,
        games={GameId("7"): "game-7.html"},
    )
    return bracket_page(told, shell=SHELL, here="bracket.html")


def test_sides_to_come_are_told_by_the_games_that_bring_them() -> None:
    told = page()
    assert "<bdi>winner of P1</bdi>" in told
    assert "<bdi>winner of P2</bdi>" in told
    assert '<span class="tick">' not in told


def test_kicks_and_the_winner_stand_under_the_sides_and_the_score_leads_to_its_game() -> None:
    kicked = Result(
        game=GameId("7"), round=1, home=A, away=D, home_goals=1, away_goals=1, kicks=(2, 3)
    )
    told = page(kicked)
    assert '<a href="game-7.html"><bdi>Alders</bdi>' in told
    assert "<bdi>Docks</bdi> won; kicks 2\N{EN DASH}3</small>" in told
    assert '<span class="tick">1\N{EN DASH}1</span>' in told


def test_a_forfeit_has_no_score_and_a_double_one_gives_the_next_a_walkover() -> None:
    given_up = Result(game=GameId("7"), round=1, home=A, away=D, how="forfeit", by="home")
    both = Result(game=GameId("8"), round=1, home=B, away=C, how="double_forfeit")
    told = page(given_up, both)
    assert "<bdi>Docks</bdi> won; by forfeit</small>" in told
    assert "P2, semi-final</bdi>; nobody goes on</small>" in told
    assert "P3, final</bdi>; goes on without a game</small>" in told
    assert '<span class="tick">' not in told


@pytest.mark.parametrize(
    ("left", "says"),
    [
        (0, "as the table stands."),
        (1, "as the table stands, and 1 game has no result yet."),
        (2, "as the table stands, and 2 games have no result yet."),
    ],
)
def test_a_bracket_that_was_not_drawn_says_so_and_what_is_to_come(left: int, says: str) -> None:
    moved = Seeding(teams=TEAMS, moved=(Moved(team=C, was=4, now=3),))
    told = page(left=left, seeding=moved)
    assert f"<strong>Not drawn yet: {says}</strong>" in told
    assert "Cedars is seed 3 instead of 4" in told
    assert "As it was drawn." not in told
