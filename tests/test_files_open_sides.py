"""Play-off games whose sides are still to be known are read, and filled as results come."""

from datetime import date, time
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.logged import log, played
from cases.open_sides import BOOK, HEAD, RESULTS, RULED, SEMIS, read, sides, written
from wholeball.files.open_sides import open_side
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import From, OpenFixture, OpenSide, Seeded
from wholeball.rulebook.load import load


def test_the_words_for_an_open_side_are_read_in_any_case_and_with_any_spaces() -> None:
    meant: dict[str, OpenSide | None] = {
        "seed 3": Seeded(seed=3),
        "SEED  12": Seeded(seed=12),
        "seed 2 of Gold cup": Seeded(seed=2, bracket="Gold cup"),
        "Winner of P 1": From(game=GameId("P 1")),
        "loser  OF P1": From(game=GameId("P1"), takes="loser"),
        "seed": None,
        "seed3": None,
        "winner P1": None,
        "winners of P1": None,
    }
    assert {words: open_side(words) for words in meant} == meant


@pytest.mark.parametrize("words", ["seed 3", "seed 2 of Gold", "winner of P1", "loser of P1"])
def test_an_open_side_is_shown_in_the_words_it_is_read_from(words: str) -> None:
    assert str(open_side(words)) == words


def test_before_the_draw_every_side_is_still_to_be_known(tmp_path: Path) -> None:
    found = read(tmp_path, {"bracket.csv": None})
    assert (found.timetable, found.remarks, found.bracket) == ((), (), ())
    assert found.open_fixtures[0] == OpenFixture(
        game=GameId("P1"),
        round=8,
        day=date(2026, 11, 10),
        start=time(19),
        field="1",
        home=Seeded(seed=1),
        away=Seeded(seed=4),
    )
    assert [one.game for one in found.open_fixtures] == ["P1", "P2", "P3", "P4"]


def test_the_draw_fills_the_first_games_and_results_of_every_kind_the_next(
    tmp_path: Path,
) -> None:
    found = read(tmp_path, {"results.csv": RESULTS + "P1,8,Reds,Greens,1,1,,,play_off,3,4\n"})
    assert found.bracket == ("Reds", "Blues", "Pinks", "Greens")
    assert sides(found) == {"P1": "Reds v Greens", "P2": "Blues v Pinks"}
    assert [one.game for one in found.open_fixtures] == ["P3", "P4"]
    book = load(BOOK.encode(), file="rulebook.toml").rulebook.digest
    log(tmp_path, "P2", played(0, 2), book=book)
    log(tmp_path, "P3", played(1, 0), book=book)
    again = read(
        tmp_path, {"results.csv": RESULTS + "P1,8,Reds,Greens,,,forfeit,home,play_off,,\n"}
    )
    assert sides(again) == {
        "P1": "Reds v Greens",
        "P2": "Blues v Pinks",
        "P3": "Greens v Pinks",
        "P4": "Reds v Blues",
    }
    assert again.open_fixtures == ()
    assert [(one.game, one.home, one.away) for one in again.season.play_offs] == [
        ("P1", "Reds", "Greens"),
        ("P2", "Blues", "Pinks"),
        ("P3", "Greens", "Pinks"),
    ]


def test_a_ruling_brings_a_side_to_a_game_that_was_never_played(tmp_path: Path) -> None:
    found = read(
        tmp_path,
        {
            "results.csv": RESULTS + "P1,8,Reds,Greens,2,1,,,play_off,,\n",
            "rulings.csv": RULED
            + "1,P1,awarded,,0,3,H,x\n2,P2,forfeit,away,,,H,x\n3,P3,forfeit,home,,,H,x\n",
        },
    )
    assert sides(found) == {
        "P1": "Reds v Greens",
        "P2": "Blues v Pinks",
        "P3": "Greens v Blues",
        "P4": "Reds v Pinks",
    }
    assert found.remarks == ()


@pytest.mark.parametrize(
    ("row", "why"),
    [
        ("P1,8,Reds,Greens,2,2,,,play_off,,\n", "ended level at 2-2"),
        ("P1,8,Reds,Greens,,,double_forfeit,,play_off,,\n", "was forfeited by both sides"),
        ("P1,8,Reds,Greens,,,annulled,,play_off,,\n", "is annulled"),
    ],
)
def test_a_game_that_nobody_won_brings_nobody_and_is_named(
    tmp_path: Path, row: str, why: str
) -> None:
    found = read(tmp_path, {"results.csv": RESULTS + row})
    says = f"is nobody: game P1, Reds v Greens, {why}."
    cure = "Rule on game P1 in rulings.csv, or write the team that plays here."
    assert found.remarks == tuple(
        Fault(
            code="no_winner",
            place=Place(file="timetable.csv", row=at, column="home"),
            says=f"{side} of P1 {says}",
            cure=cure,
            level="doubt",
        )
        for at, side in ((4, "winner"), (5, "loser"))
    )
    assert [one.game for one in found.open_fixtures] == ["P3", "P4"]


@pytest.mark.parametrize("words", [["game"], ["certify", "--by", "Kim"]])
def test_a_command_about_a_game_whose_sides_are_open_says_so(
    tmp_path: Path, run: Run, words: list[str]
) -> None:
    command, *more = words
    told = run(command, written(tmp_path, {}), "P3", *more)
    assert (told.status, " ".join(told.err.split())) == (
        1,
        (
            "Game P3 is winner of P1 v winner of P2, still to be known. Enter the games before it, "
            "or write its teams in timetable.csv."
        ),
    )
    assert "There is no game P9" in run(command, tmp_path, "P9", *more).err


def test_a_team_that_would_meet_itself_is_a_doubt_and_its_game_stays_open(
    tmp_path: Path,
) -> None:
    row = "P3,9,2026-11-17,19:00,1,winner of P1,Reds,play_off\n"
    found = read(
        tmp_path,
        {
            "timetable.csv": HEAD + SEMIS + row,
            "results.csv": RESULTS + "P1,8,Reds,Greens,2,1,,,play_off,,\n",
        },
    )
    assert [(one.code, one.says) for one in found.remarks] == [
        ("self", "game P3 would be Reds against itself: winner of P1 v Reds.")
    ]
    assert [one.game for one in found.open_fixtures] == ["P3"]


def test_a_side_may_come_from_a_play_off_game_that_only_results_list(tmp_path: Path) -> None:
    rows = "P3,9,2026-11-17,19:00,1,winner of P0,seed 1,play_off\n"
    found = read(
        tmp_path,
        {
            "timetable.csv": HEAD + rows,
            "results.csv": RESULTS + "P0,8,Blues,Greens,2,1,,,play_off,,\n",
        },
    )
    assert sides(found) == {"P3": "Blues v Reds"}
