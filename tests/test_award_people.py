"""Awards a game in which somebody played who might not, from a season folder.

No outside source: the stories are of an invented league with its own rules.
"""

import csv
import json
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.people_season import NOBODY_CAME, RULES, enter, ineligible, write_people
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_people(tmp_path / "meadow")


def test_the_game_is_awarded_with_both_scores_shown_and_yellow_standing(
    folder: Path, run: Run
) -> None:
    ineligible(folder)
    words = ("award", folder, "A4", "--to", "away", "--ref", "H 3.5", "--why", "Bound to Birch")
    tried = run(*words, "--on", "2026-09-28", "--dry-run", "--json")
    assert not (folder / "rulings.csv").exists()
    said = json.loads(tried.out)
    assert (said["written"], said["played"], said["before"], said["after"]) == (
        False,
        [3, 2],
        [3, 2],
        [0, 4],
    )
    moved = {
        one["team"]: (one["before"]["points"], one["after"]["points"])
        for one in said["standings"]
    }
    assert moved == {"Elder": (3, 0), "Birch": (0, 3)}
    told = run(*words, "--on", "2026-09-28")
    assert "Played: 3\N{EN DASH}2. Counted until now: 3\N{EN DASH}2." in told.out
    assert "Yellow and red stand: Elder 1 yellow; Birch 1 yellow." in told.out
    rows = list(csv.DictReader((folder / "rulings.csv").read_text().splitlines()))
    assert [(one["ruling"], one["ruled"], one["by"], one["date"]) for one in rows] == [
        ("1", "forfeit", "home", "2026-09-28")
    ]
    sheet = next(
        one for one in read_folder(FolderRecord(folder)).sheets if one.fixture.game == "A4"
    )
    assert [(one.person, one.colour) for one in sheet.cards] == [
        ("k-ondine", "yellow"),
        ("k-rangi", "yellow"),
    ]
    assert sheet.result is not None
    assert (sheet.result.home_cards, sheet.result.played_score) != (None, None)
    assert "Ruling 1 is about this game." in run("check", folder, "--on", "2026-09-28").out


OUT_AFTER_TWO = """[forfeit.removal]
ref = "H 10.4"
after_forfeits = 2
results = "annulled"
"""
RULED = ("--ref", "H 3.5", "--why", "Bound", "--on", "2026-09-28")
ELDER_FORFEITS = ("A4", "--to", "away", *RULED)


def test_a_forfeit_that_is_not_the_last_one_allowed_puts_nobody_out(
    tmp_path: Path, run: Run
) -> None:
    folder = write_people(tmp_path / "once", rules=RULES + OUT_AFTER_TWO)
    ineligible(folder)
    told = run("award", folder, *ELDER_FORFEITS, "--dry-run")
    assert "the league" not in told.out
    said = json.loads(run("award", folder, *ELDER_FORFEITS, "--dry-run", "--json").out)
    assert (said["out"], said["back"]) == ([], [])


def test_a_ruling_says_which_team_it_puts_out_of_the_league_and_which_it_takes_back_in(
    tmp_path: Path, run: Run
) -> None:
    folder = write_people(tmp_path / "twice", rules=RULES + OUT_AFTER_TWO)
    ineligible(folder)
    enter(folder, "A3", NOBODY_CAME)
    told = run("award", folder, *ELDER_FORFEITS)
    assert (
        "By this ruling Elder is out of the league after 2 forfeits, by H 10.4; "
        "its games do not count.\n"
    ) in told.out
    stands = ("A4", "--to", "as_played", *RULED)
    assert "By this ruling Elder is in the league again.\n" in run("award", folder, *stands).out


KEPT = "\ufeffruling;date;game;ruled;by;ref;why;home_goals;away_goals\r\n4;;A1;annulled;;H 1;Fog;;\r\n"
AWARDED = ("--to", "away", "--goals", "0-3", *RULED)


def test_a_second_ruling_gets_the_next_number_and_leaves_the_first_as_it_stands(
    folder: Path, run: Run
) -> None:
    ineligible(folder)
    (folder / "rulings.csv").write_bytes(KEPT.encode())
    assert run("award", folder, "A4", *AWARDED).status == 0
    written = (folder / "rulings.csv").read_bytes().decode()
    assert written == f"{KEPT}5;2026-09-28;A4;awarded;;H 3.5;Bound;0;3\r\n"


def test_a_column_that_the_ruling_needs_and_the_file_lacks_is_named(
    folder: Path, run: Run
) -> None:
    ineligible(folder)
    (folder / "rulings.csv").write_text("ruling,date,game,ruled,ref,why\n")
    told = run("award", folder, "A4", *AWARDED)
    assert (told.status, told.err.split(".csv")[1].split(",")[0]) == (
        1,
        " has no column home_goals",
    )
    assert (folder / "rulings.csv").read_text() == "ruling,date,game,ruled,ref,why\n"


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("A9", "--to", "away"), "unknown_game"),
        (("A4", "--to", "winner"), "unknown_value"),
        (("A4", "--to", "away", "--goals", "3-0"), "contradiction"),
        (("A4", "--to", "draw"), "contradiction"),
        (("A4", "--to", "nobody", "--goals", "0-0"), "contradiction"),
        (("A4", "--to", "home", "--goals", "three"), "type"),
        (("A4", "--to", "home", "--why", " "), "missing"),
    ],
)
def test_a_ruling_that_cannot_be_meant_writes_nothing(
    folder: Path, run: Run, words: tuple[str, ...], code: str
) -> None:
    ineligible(folder)
    given = words if "--why" in words else (*words, "--why", "Bound")
    told = run("award", folder, *given, "--ref", "H 3.5", "--json")
    assert (told.status, json.loads(told.out)["faults"][0]["code"]) == (1, code)
    assert not (folder / "rulings.csv").exists()


def test_a_ruling_that_cites_an_article_that_is_none_writes_nothing(
    folder: Path, run: Run
) -> None:
    """Words that are no reference at all are free: a house may cite its handbook."""
    ineligible(folder)
    told = run("award", folder, "A4", "--to", "away", "--why", "B", "--ref", "H 3.55", "--json")
    fault = json.loads(told.out)["faults"][0]
    assert (told.status, fault["code"]) == (1, "unknown_article")
    assert fault["cure"].startswith("Nothing was written. Did you mean H 3.")
    assert not (folder / "rulings.csv").exists()
    free = ("A4", "--to", "away", "--why", "B", "--ref", "handbook, page 4")
    assert run("award", folder, *free).status == 0
