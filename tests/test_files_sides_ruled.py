"""A ruling that comes after a play-off game was played leaves its sides as they were, and says so."""

from pathlib import Path

import pytest

from cases.command_line import Run
from cases.logged import log, played
from cases.open_sides import BOOK, HEAD, LAST, RESULTS, RULED, SEMIS, read, sides, written
from wholeball.kernel.faults import Fault, Place
from wholeball.rulebook.load import load


def test_a_ruling_about_a_game_whose_sides_are_open_is_a_doubt(tmp_path: Path) -> None:
    found = read(tmp_path, {"rulings.csv": RULED + "1,P3,annulled,,,,H,x\n"})
    assert [(one.level, one.code, one.says) for one in found.remarks] == [
        ("doubt", "open_side", "ruling 1 is about game P3, whose sides are still to be known.")
    ]


def test_a_result_that_was_written_down_keeps_its_sides_whatever_a_later_ruling_changes(
    tmp_path: Path,
) -> None:
    rows = (
        "P1,8,Reds,Greens,2,1,,,play_off,,\nP2,8,Blues,Pinks,2,1,,,play_off,,\n"
        "P3,9,Reds,Blues,1,0,,,play_off,,\n"
    )
    before = read(tmp_path, {"results.csv": RESULTS + rows})
    assert (before.remarks, sides(before)["P3"]) == ((), "Reds v Blues")
    after = read(
        tmp_path,
        {"results.csv": RESULTS + rows, "rulings.csv": RULED + "1,P1,forfeit,home,,,H,x\n"},
    )
    assert sides(after) == {**sides(before), "P4": "Reds v Pinks"}
    assert after.remarks == (
        Fault(
            code="contradiction",
            place=Place(file="results.csv", row=4, column="home"),
            says=(
                "game P3 is Reds v Blues here; by the draw and the games before it, it would be "
                "Greens v Blues."
            ),
            cure="It stays as it was played; mend it if a name is wrong.",
            level="doubt",
        ),
    )


@pytest.mark.parametrize(
    ("day", "final"),
    [
        ("2026-11-17", "Greens v Blues"),
        ("2026-11-18", "Reds v Blues"),
        ("", "Reds v Blues"),
    ],
)
def test_a_game_with_a_log_is_of_those_who_came_by_the_rulings_up_to_its_day(
    tmp_path: Path, day: str, final: str
) -> None:
    """P3 is of the 17th: whoever is shown yellow in it plays for a team that was there."""
    rows = "P1,8,Reds,Greens,2,1,,,play_off,,\nP2,8,Blues,Pinks,2,1,,,play_off,,\n"
    book = load(BOOK.encode(), file="rulebook.toml").rulebook.digest
    log(tmp_path, "P3", played(1, 0), book=book)
    dated = RULED.replace("game,", "date,game,") + f"1,{day},P1,forfeit,home,,,H,x\n"
    found = read(tmp_path, {"results.csv": RESULTS + rows, "rulings.csv": dated})
    assert sides(found) == {
        "P1": "Reds v Greens",
        "P2": "Blues v Pinks",
        "P3": final,
        "P4": "Reds v Pinks",
    }
    [result] = [one for one in found.season.play_offs if one.game == "P3"]
    assert f"{result.home} v {result.away}" == final
    doubted = Fault(
        code="contradiction",
        place=Place(file="games/P3.jsonl"),
        says="game P3 was played by Reds v Blues; by a ruling since, it would be Greens v Blues.",
        cure="It stays so. A ruling made before it has an earlier day in rulings.csv.",
        level="doubt",
    )
    doubts = [one for one in found.remarks if one.level == "doubt"]
    assert doubts == ([] if final == "Greens v Blues" else [doubted])


def test_whoever_rules_reads_which_later_game_it_would_have_changed(
    tmp_path: Path, run: Run
) -> None:
    rows = "P1,8,Reds,Greens,2,1,,,play_off,,\nP2,8,Blues,Pinks,2,1,,,play_off,,\n"
    book = load(BOOK.encode(), file="rulebook.toml").rulebook.digest
    log(tmp_path, "P3", played(1, 0), book=book)
    folder = written(tmp_path, {"results.csv": RESULTS + rows})
    words = ("award", folder, "P1", "--to", "away", "--why", "x", "--ref", "H", "--on")
    said = "game P3 was played by Reds v Blues; by a ruling since, it would be Greens v Blues."
    assert said in run(*words, "2026-11-18").err
    assert said not in run(*words, "2026-11-18").err
    (folder / "rulings.csv").unlink()
    assert said not in run(*words, "2026-11-17").err


def test_what_a_game_was_played_by_brings_the_next_its_side(tmp_path: Path) -> None:
    """The ruling came after P3 and before P5, which P3 brings a side."""
    rows = "P1,8,Reds,Greens,2,1,,,play_off,,\nP2,8,Blues,Pinks,2,1,,,play_off,,\n"
    more = "P5,10,2026-11-24,19:00,1,winner of P3,winner of P4,play_off\n"
    book = load(BOOK.encode(), file="rulebook.toml").rulebook.digest
    for game in ("P3", "P4", "P5"):
        log(tmp_path, game, played(1, 0), book=book)
    dated = RULED.replace("game,", "date,game,")
    found = read(
        tmp_path,
        {
            "timetable.csv": HEAD + SEMIS + LAST + more,
            "results.csv": RESULTS + rows,
            "rulings.csv": dated
            + "1,2026-11-20,P2,forfeit,home,,,H,x\n2,2026-11-30,P3,forfeit,home,,,H,x\n",
        },
    )
    assert sides(found) == {
        "P1": "Reds v Greens",
        "P2": "Blues v Pinks",
        "P3": "Reds v Blues",
        "P4": "Greens v Pinks",
        "P5": "Reds v Greens",
    }
