"""Play-offs that a timetable lists are held to the bracket as it was drawn."""

from pathlib import Path

import pytest

from cases.command_line import Run
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import Fault, Place
from wholeball.usecases.check_bracket import bracket_remarks

HEAD = "game,round,date,start,field,home,away,stage\n"
RESULTS = "game,round,home,away,home_goals,away_goals,stage\n"
FILES = {
    "season.toml": 'schema = 1\nname = "Lantern Hill"\ntimezone = "Europe/London"\n'
    "first_day = 2026-09-01\nlast_day = 2026-12-01\n",
    "rulebook.toml": 'base = "laws-2025-26"\n[play_offs]\nqualify = "overall"\nplaces = 4\nthird_place = true\n',
    "teams.csv": "team,pool\nReds,A\nPinks,A\nBlues,B\nGreens,B\n",
    "results.csv": RESULTS,
    "bracket.csv": "seed,team\n1,Reds\n2,Blues\n3,Pinks\n4,Greens\n",
}
OF_FOUR = (
    ("P1", "seed 1", "seed 4"),
    ("P2", "seed 2", "seed 3"),
    ("T", "loser of P1", "loser of P2"),
    ("F", "winner of P1", "winner of P2"),
)
Rows = tuple[tuple[str, str, str], ...]


def doubts(folder: Path, rows: Rows, **changed: str | None) -> list[Fault]:
    """Write a season with play-offs, a day each, and return what is doubted of them."""
    timetable = HEAD + "".join(
        f"{game},8,2026-11-{day},19:00,1,{home},{away},play_off\n"
        for day, (game, home, away) in enumerate(rows, start=10)
    )
    names = {name.replace("_csv", ".csv"): text for name, text in changed.items()}
    for name, text in {**FILES, "timetable.csv": timetable, **names}.items():
        if text is not None:
            (folder / name).write_text(text, encoding="utf-8")
    return list(bracket_remarks(read_folder(FolderRecord(folder)), FolderRecord(folder)))


def with_row(row: tuple[str, str, str]) -> Rows:
    return tuple(row if row[0] == one[0] else one for one in OF_FOUR)


@pytest.mark.parametrize(
    "results", ["", "P1,8,Reds,Greens,1,0,play_off\n", "P1,8,Reds,Greens,0,2,play_off\n"]
)
def test_a_bracket_that_is_listed_as_it_was_drawn_is_not_doubted(
    tmp_path: Path, results: str
) -> None:
    turned = tuple((game, away, home) for game, home, away in OF_FOUR)
    assert doubts(tmp_path, OF_FOUR, results_csv=RESULTS + results) == []
    assert doubts(tmp_path, turned) == []


def test_any_bracket_may_be_listed_before_the_draw(tmp_path: Path) -> None:
    rows = (("P1", "seed 1", "seed 2"), ("F", "winner of P1", "seed 3"))
    assert doubts(tmp_path, rows, bracket_csv=None) == []


@pytest.mark.parametrize(
    ("rows", "says"),
    [
        # Each pair of seeds is told as the teams that they are.
        (
            (("P1", "seed 1", "seed 3"), ("P2", "seed 2", "seed 4")),
            ["P1, Reds v Pinks", "P2, Blues v Greens"],
        ),
        (with_row(("T", "winner of P1", "loser of P2"))[:3], ["T, winner of P1 v loser of P2"]),
        # A game that a doubted one feeds is not doubted for that.
        ((("P1", "seed 1", "seed 2"), ("F", "winner of P1", "seed 3")), ["P1, Reds v Blues"]),
        (
            (("P1", "seed 1", "seed 4"), ("F", "winner of P1", "seed 3")),
            ["F, winner of P1 v seed 3"],
        ),
        # Teams that are typed in place of seeds.
        ((("P1", "Reds", "Pinks"),), ["P1, Reds v Pinks"]),
    ],
)
def test_a_game_that_the_drawn_bracket_has_not_is_doubted(
    tmp_path: Path, rows: Rows, says: list[str]
) -> None:
    found = doubts(tmp_path, rows)
    assert [one.says for one in found] == [
        f"game {game}, is no game of the bracket as drawn." for game in says
    ]
    assert {(one.code, one.level, one.place) for one in found} == {
        ("contradiction", "doubt", Place(file="timetable.csv"))
    }


def test_a_finalist_that_did_not_win_is_doubted_once_the_winner_is_known(
    tmp_path: Path,
) -> None:
    rows = (*OF_FOUR[:2], ("F", "Greens", "Blues"))
    played = "P1,8,Reds,Greens,1,0,play_off\nP2,8,Blues,Pinks,1,0,play_off\n"
    (only,) = doubts(tmp_path, rows, results_csv=RESULTS + played)
    assert only.says == "game F, Greens v Blues, is no game of the bracket as drawn."
    other = played.replace("Greens,1,0", "Greens,0,1")
    assert doubts(tmp_path, rows, results_csv=RESULTS + other) == []


def test_a_game_for_third_place_is_doubted_where_the_rulebook_has_none(tmp_path: Path) -> None:
    assert doubts(tmp_path, OF_FOUR) == []
    rules = 'base = "laws-2025-26"\n[play_offs]\nqualify = "overall"\nplaces = 4\nthird_place = false\n'
    (tmp_path / "rulebook.toml").write_text(rules)
    (only,) = bracket_remarks(read_folder(FolderRecord(tmp_path)), FolderRecord(tmp_path))
    assert only.value == "T"


def test_check_tells_it_with_the_folder_to_look_at(run: Run, tmp_path: Path) -> None:
    assert doubts(tmp_path, (*OF_FOUR[:2], ("F", "winner of P1", "loser of P2")))
    told = run("check", tmp_path)
    assert told.status == 0
    assert (
        "game F, winner of P1 v loser of P2, is no game of the bracket as drawn. Mend its sides, "
        f"or compare the bracket: wholeball bracket {tmp_path}"
    ) in told.out
