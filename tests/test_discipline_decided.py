"""A decision in discipline.csv names a person of the rosters, and gives games or days.

No outside source: the stories are of an invented league with its own rules.
"""

import json
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.people_season import RED, THURSDAY, card, enter, served, write_people
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.usecases.season_people import discipline_of

DECISIONS = "ruling,date,person,game,ruled,games,until,ref,why\n"


@pytest.mark.parametrize(
    ("person", "cure"),
    [
        ("n. zefirou", "Write the code that rosters.csv has for that name: k-noor."),
        (
            "Ondine Havenko",
            "Write the code that rosters.csv has for that name: k-ondine.",
        ),
        ("k-nour", "Did you mean k-noor?"),
        ("Somebody Else", "Copy the code from rosters.csv."),
    ],
)
def test_a_name_in_place_of_a_code_is_answered_with_the_code(
    tmp_path: Path, run: Run, person: str, cure: str
) -> None:
    rows = f"{DECISIONS}1,2026-09-16,{person},,games,1,,H 11.4,Fought\n"
    folder = write_people(tmp_path / "named", discipline=rows)
    assert f'"{person}" is no person of rosters.csv. {cure}\n' in run("check", folder).out


@pytest.mark.parametrize("person", ["k-noor", "Ash: Noor Zephirou", "ash: noor zephirou"])
def test_a_decision_names_a_person_by_code_or_by_team_and_name(
    tmp_path: Path, run: Run, person: str
) -> None:
    rows = f"{DECISIONS}1,2026-09-16,{person},,games,1,,H 11.4,Fought\n"
    folder = write_people(tmp_path / "named", discipline=rows)
    assert run("check", folder).out == "Nothing is wrong.\n"
    assert [(who, cause) for who, cause, _ in served(folder)] == [("k-noor", "ruling")]


@pytest.mark.parametrize(("person", "told_of"), [("k-noor", 0), ("k-nour", 1)])
def test_a_decision_about_nobody_is_named_with_the_suspensions(
    tmp_path: Path, run: Run, person: str, told_of: int
) -> None:
    rows = f"{DECISIONS}1,2026-09-16,{person},,meeting_held,,,H 11.4,Met\n"
    folder = write_people(tmp_path / "met", discipline=rows)
    told = run("suspensions", folder, "--on", "2026-09-17").out
    says = (
        'Decisions to look at\n  discipline.csv row 2, column person: "k-nour" is no person of '
        "rosters.csv. Did you mean k-noor?\n"
    )
    assert (told.count(says), told.count("Decisions to look at")) == (told_of, told_of)
    said = json.loads(run("suspensions", folder, "--on", "2026-09-17", "--json").out)
    assert [one["code"] for one in said["remarks"]] == ["unknown_person"] * told_of


def test_two_persons_of_one_name_are_left_for_people_to_tell_apart(
    tmp_path: Path, run: Run
) -> None:
    people = "team,number,name,person\nAsh,4,Noor Zephirou,k-1\nBirch,4,Noor Zephirou,k-2\n"
    rows = f"{DECISIONS}1,2026-09-16,Noor Zephirou,,games,1,,H 11.4,Fought\n"
    folder = write_people(tmp_path / "two", rosters=people, discipline=rows)
    told = run("check", folder).out
    assert "2 persons are called so: copy the right code from rosters.csv.\n" in told


def test_a_decision_in_discipline_csv_gives_other_games(tmp_path: Path) -> None:
    decided = f"{DECISIONS}1,2026-09-16,k-noor,A1,games,2,,H 11.4,Struck an opponent\n"
    folder = write_people(tmp_path / "decided", discipline=decided)
    enter(folder, "A1", RED)
    enter(folder, "C1", card())
    found = discipline_of(read_folder(FolderRecord(folder)), THURSDAY)
    assert [(one.games, one.left, one.rulings) for one in found.open] == [(2, 1, (1,))]


def test_a_suspension_by_day_speaks_of_no_games(tmp_path: Path, run: Run) -> None:
    decided = (
        f"{DECISIONS}1,2026-09-16,k-noor,,until,,2026-09-20,H 11.4,Struck an opponent\n"
        "2,2026-09-16,k-umaru,,games,1,,H 11.4,Struck an opponent\n"
    )
    folder = write_people(tmp_path / "by-day", discipline=decided)
    told = run("suspensions", folder, "--on", "2026-10-20").out.splitlines()
    assert [line for line in told if "ruling" in line and line.startswith("  ")] == [
        "  until Sunday 20 September 2026. By ruling 1.",
        "  1 game; served in none yet; 1 game left. By ruling 2.",
    ]
