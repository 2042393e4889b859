"""The check of a season folder tells what is doubtful about people who play or officiate.

No outside source: the stories are of an invented league with its own rules.
"""

import json
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.people_season import NOBODY_CAME, RULES, card, enter, ineligible, write_people
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.game.paper import PaperPlayer, PaperRating


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_people(tmp_path / "meadow")


def test_a_player_bound_to_another_team_is_found_with_what_the_rulebook_proposes(
    folder: Path, run: Run
) -> None:
    ineligible(folder)
    told = run("check", folder, "--on", "2026-09-28")
    assert (
        "games/A4.jsonl: Ondine Havenko appeared for Elder, and is bound to Birch. The rulebook "
        f"proposes a forfeit by Elder: wholeball award {folder} A4 --to away "
        '--ref "H 3.5" --why TEXT'
    ) in told.out
    late = run("check", folder, "--on", "2026-09-29")
    assert (
        "The result stands (H 3.5); it could be found until Monday 28 September 2026."
        in late.out
    )


def test_nothing_is_wrong_with_a_season_that_has_not_begun(tmp_path: Path, run: Run) -> None:
    people = "team,number,name\nAsh,4,Noor Zephirou\nBirch,4,Lior Zephirou\n"
    empty = write_people(tmp_path / "empty", rosters=people)
    assert run("check", empty).out == "Nothing is wrong.\n"


def test_two_spellings_without_a_code_are_doubted_within_one_league_only(
    tmp_path: Path, run: Run
) -> None:
    people = (
        "team,number,name\nAsh,4,Noor Zephirou\nBirch,5,Nour Zephiru\nCedar,6,Noor Zephirou\n"
    )
    found = write_people(tmp_path / "spelled", rosters=people)
    assert run("check", found).out == (
        "rosters.csv, column person: Noor Zephirou of Ash and Nour Zephiru of Birch may be one "
        "person. If so, give both rows the same code in the column person; if not, one each.\n"
    )


def test_a_low_rating_without_a_reason_is_told(folder: Path, run: Run) -> None:
    low = PaperRating(side="away", value=2)  # type: ignore[arg-type]
    fair = PaperRating(side="home", value=3)  # type: ignore[arg-type]
    enter(folder, "A1", card(ratings=(low, fair)))
    found = json.loads(run("check", folder, "--json").out)["remarks"]
    assert [one["says"] for one in found if one["code"] == "rating_without_reason"] == [
        "Birch is rated 2 without a reason (ratings)."
    ]


@pytest.mark.parametrize(
    ("waits", "captain"),
    [("true", ", and its captain may not play until it is settled"), ("false", "")],
)
def test_check_tells_what_a_team_owes_until_it_is_settled(
    tmp_path: Path, run: Run, waits: str, captain: str
) -> None:
    fee = f'[forfeit.fee]\nref = "H 10.5"\namount = 20\ncaptain_waits = {waits}\n'
    folder = write_people(tmp_path / "meadow", rules=RULES + fee)
    enter(folder, "A1", NOBODY_CAME)
    owed = f"fees.csv: Birch owes {{}} for game A1 (H 10.5){captain}."
    assert owed.format(20) in run("check", folder).out
    head = "date,team,game,what,amount,why\n2026-09-16,Birch,A1,paid,"
    (folder / "fees.csv").write_text(head + "12.5,\n")
    assert owed.format("7.50") in run("check", folder).out
    (folder / "fees.csv").write_text(head + "20,\n")
    assert "owes" not in run("check", folder).out


def test_an_official_whose_own_team_plays_is_doubted_in_that_game_and_at_its_start(
    tmp_path: Path, run: Run
) -> None:
    """Noor plays for Ash and for Cedar; the league games of A1 and C1 are on two days."""
    crews = "game,role,official\nA1,{0},Noor Z.\nA4,{0},Noor Z.\nA2,{0},Kim\n"
    people = "official,person\nNoor Z.,k-noor\nKim,\n"
    folder = write_people(tmp_path / "meadow", officials=people)
    role = read_folder(FolderRecord(folder)).season.rulebook.crew.roles[0]
    (folder / "crews.csv").write_text(crews.format(role))
    own = "crews.csv: Noor Z. works game A1 and is on the roster of Ash, which plays it"
    own += " (Competition rules)."
    told = run("check", folder, "--on", "2026-09-14").out
    assert [line for line in told.splitlines() if "Noor Z." in line] == [
        f"{own} Give the game to another official."
    ]
    timetable = folder / "timetable.csv"
    moved = timetable.read_text().replace(
        "2026-09-17,21:00,Field 1", "2026-09-24,19:00,Field 2"
    )
    timetable.write_text(moved)
    told = run("check", folder, "--on", "2026-09-14").out
    also = "Noor Z. works game A4 and is on the roster of Cedar, which plays game C2 at the same start."
    assert [line.partition(": ")[2] for line in told.splitlines() if "Noor Z." in line] == [
        f"{own.partition(': ')[2]} Give the game to another official.",
        f"{also} Give the game to another official.",
    ]


def test_somebody_written_down_for_both_sides_is_doubted(tmp_path: Path, run: Run) -> None:
    rosters = "team,number,name,person\nAsh,4,Noor Zephirou,k-noor\nBirch,14,Ondine,k-noor\n"
    folder = write_people(tmp_path / "meadow", rosters=rosters)
    enter(folder, "A1", card(home_players=(PaperPlayer(4),)))
    said = "Noor Zephirou is written down for Ash and for Birch."
    assert said not in run("check", folder).out
    both = card(home_players=(PaperPlayer(4),), away_players=(PaperPlayer(14),))
    enter(folder, "A1", both, batch=2)
    assert said in run("check", folder).out


def test_check_tells_every_fault_of_the_folder_at_once(folder: Path, run: Run) -> None:
    (folder / "teams.csv").write_text("team,pool\nAsh,A\nAsh,A\n")
    (folder / "rulings.csv").write_text("ruling,game,ruled,ref,why\n0,A1,lost,H 1,x\n")
    told = run("check", folder)
    assert told.status == 1
    assert {"teams.csv row 3", "rulings.csv row 2"} <= {
        line.split(",")[0] for line in told.err.splitlines()
    }
