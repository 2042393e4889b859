"""What the readers of a season find wrong with the play-offs of planning.toml, or doubt."""

from pathlib import Path
from typing import Final

import pytest

from cases.planned_season import GAMES, PLANNING, TEAMS, faults_of, write_folder
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord

APART: Final = {
    "teams_csv": "team,pool,division\nAsh,A,Open\nBirch,A,Open\nCedar,B,Mixed\nDogwood,B,Mixed\n",
    "divisions_csv": "division\nOpen\nMixed\n",
}


def games(*told: tuple[str, str, str]) -> str:
    """Return planning.toml with play-offs: their names and both sides."""
    return PLANNING + "".join(
        f'[[play_offs]]\ngame = "{game}"\nround = 9\nhome = "{home}"\naway = "{away}"\n'
        for game, home, away in told
    )


@pytest.mark.parametrize(
    ("told", "found"),
    [
        (
            [("P1", "seed 0", "seed 2")],
            (
                "unknown_value",
                'play_offs item 1.home is "seed 0": seed 1, winner of P1 or loser of P1.',
                "Use one of those.",
            ),
        ),
        (
            [("P1", "seed 1", "winner of P1")],
            ("unknown_game", "P1 would bring itself a side.", "Name an earlier game."),
        ),
        (
            [("P1", "seed 1", "Loser  of P2"), ("P2", "seed 2", "seed 3")],
            (
                "unknown_game",
                "loser of P2 is a side of P1, and P2 does not come before it.",
                "Earlier games come first, and no two wait for each other.",
            ),
        ),
        (
            [("P1", "seed 1", "seed 2"), ("P2", "seed 3", "winner of P9")],
            (
                "unknown_game",
                "winner of P9 is a side of P2, and there is no such game before it.",
                "Use one of: P1. Earlier games come first.",
            ),
        ),
        (
            [("P1", "seed 1", "seed 2"), ("P2", "Seed 1", "seed 3")],
            (
                "duplicate",
                "Seed 1 plays in P1 and in P2.",
                "A side plays one game; mend one of them.",
            ),
        ),
    ],
)
def test_sides_that_no_game_can_have_are_faults(
    tmp_path: Path, told: list[tuple[str, str, str]], found: tuple[str, str, str]
) -> None:
    (fault,) = faults_of(tmp_path, planning_toml=games(*told))
    assert (fault.code, fault.says, fault.cure) == found


def doubts(folder: Path, **changed: str) -> list[tuple[str, str, str]]:
    """Return what is doubted of planning.toml, with the value and the cure."""
    read = read_folder(FolderRecord(write_folder(folder, **changed)))
    about = [one for one in read.remarks if one.place.file == "planning.toml"]
    assert {one.level for one in about} <= {"doubt"}
    return [(one.value or "", one.says, one.cure) for one in about]


@pytest.mark.parametrize(
    ("side", "cure"),
    [
        ("seed 1 of Opne", "Did you mean Open?"),
        ("seed 3", "Write the division, such as seed 3 of Open."),
        ("seed 1 of Open", None),
    ],
)
def test_a_seed_names_the_division_it_plays_in_where_divisions_play_off_apart(
    tmp_path: Path, side: str, cure: str | None
) -> None:
    planning = games(("P1", side, "seed 2 of Open"))
    found = doubts(tmp_path, planning_toml=planning, **APART)
    says = f"game P1: no division plays for the bracket of {side}."
    assert found == ([] if cure is None else [(side, says, cure)])


def test_a_seed_of_a_season_with_one_bracket_names_none(tmp_path: Path) -> None:
    planning = games(("P1", "seed 1", "seed 2 of Open"))
    assert doubts(tmp_path, planning_toml=planning, teams_csv=TEAMS) == [
        (
            "seed 2 of Open",
            "game P1: no division plays for the bracket of seed 2 of Open.",
            "The season has one bracket: write seed 2.",
        )
    ]


def test_a_play_off_is_not_called_like_a_league_game(tmp_path: Path) -> None:
    rows = "7,1,2027-01-04,18:00,Meadow 1,Ash,Birch\n"
    planning = games(("7", "seed 1", "seed 2"), ("8", "seed 3", "seed 4"))
    assert doubts(tmp_path, planning_toml=planning, timetable_csv=GAMES + rows) == [
        (
            "7",
            "game 7 of the play-offs is called like a league game of timetable.csv.",
            "Give it another name: a plan leaves it out.",
        )
    ]


def test_a_play_off_that_the_timetable_lists_has_its_own_name(tmp_path: Path) -> None:
    head = GAMES.replace("away", "away,stage")
    rows = "7,1,2027-01-04,18:00,Meadow 1,Ash,Birch,play_off\n"
    planning = games(("7", "seed 1", "seed 2"))
    assert doubts(tmp_path, planning_toml=planning, timetable_csv=head + rows) == []
