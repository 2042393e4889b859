"""A side of a play-off game that cannot come is refused, and says why."""

from pathlib import Path

import pytest

from cases.logged import log, played
from cases.open_sides import HEAD, RESULTS, SEMIS, faults, read


def test_the_log_of_a_game_whose_sides_are_open_is_refused_with_faults_elsewhere(
    tmp_path: Path,
) -> None:
    log(tmp_path, "P3", played(1, 0), book="0" * 64)
    assert faults(tmp_path, {"rosters.csv": "team,name\nRedz,Ana\n"}) == [
        (
            "rosters.csv row 2, column team",
            "unknown_team",
            '"Redz" is no team of teams.csv.',
            "Did you mean Reds?",
        ),
        (
            "games/P3.jsonl",
            "contradiction",
            "game P3 is winner of P1 v winner of P2, and has a log already.",
            "Write the teams that play it in timetable.csv, or take the log out.",
        ),
    ]


def at(row: int, column: str) -> str:
    return f"timetable.csv row {row}, column {column}"


EARLIER = "Mend the days or starts, or the game named."
CASES: dict[str, tuple[str, list[tuple[str, str, str, str]]]] = {
    "an unknown game": (
        "P3,9,2026-11-17,19:00,1,winner of p01,seed 1,play_off\n",
        [
            (
                at(4, "home"),
                "unknown_game",
                '"p01" is no play-off game of timetable.csv.',
                "Did you mean P1?",
            ),
            (
                at(4, "away"),
                "duplicate",
                "seed 1 stands on row 2 too.",
                "A side plays one game; mend one of them.",
            ),
        ],
    ),
    "a game of the league": (
        (
            "7,7,2026-11-03,19:00,1,Reds,Pinks,\n"
            "P3,9,2026-11-17,19:00,1,winner of 7,loser of P1,play_off\n"
        ),
        [
            (
                at(5, "home"),
                "contradiction",
                "game 7 is a game of the league, and brings no side.",
                "Name a play-off game, or write play_off as the stage of that one.",
            )
        ],
    ),
    "an open side in the league": (
        "7,7,2026-11-17,19:00,1,winner of P1,Pinks,\n",
        [
            (
                at(4, "home"),
                "contradiction",
                "winner of P1 is a side of a play-off game, and this is a game of the league.",
                "Write play_off as its stage.",
            )
        ],
    ),
    "itself": (
        "P3,9,2026-11-17,19:00,1,winner of P3,winner of P1,play_off\n",
        [
            (
                at(4, "home"),
                "contradiction",
                "game P3 would bring itself a side.",
                "Name an earlier game.",
            )
        ],
    ),
    "games that wait for each other": (
        (
            "P3,9,2026-11-17,19:00,1,winner of P4,winner of P1,play_off\n"
            "P4,9,2026-11-17,20:00,1,winner of P3,winner of P2,play_off\n"
        ),
        [
            (
                at(4, "home"),
                "contradiction",
                (
                    "game P4 on row 5 is at 2026-11-17 20:00, and brings a side of this game at "
                    "2026-11-17 19:00."
                ),
                EARLIER,
            )
        ],
    ),
    "a game at the same start": (
        "P3,9,2026-11-10,19:00,3,winner of P1,winner of P2,play_off\n",
        [
            (
                at(4, column),
                "contradiction",
                (
                    f"game {game} on row {row} is at 2026-11-10 19:00, and brings a side of this "
                    "game at 2026-11-10 19:00."
                ),
                EARLIER,
            )
            for column, game, row in (("home", "P1", 2), ("away", "P2", 3))
        ],
    ),
    "a seed beyond the draw": (
        "P3,9,2026-11-17,19:00,1,seed 5,seed 0,play_off\n",
        [
            (
                at(4, "home"),
                "range",
                "there is no seed 5; bracket.csv has 4 seeds.",
                "Seeds count from 1; mend it, or the draw.",
            ),
            (
                at(4, "away"),
                "range",
                "there is no seed 0; bracket.csv has 4 seeds.",
                "Seeds count from 1; mend it, or the draw.",
            ),
        ],
    ),
    "a bracket that was not drawn": (
        "P3,9,2026-11-17,19:00,1,seed 1 of Gold,winner of P1,play_off\n",
        [
            (
                at(4, "home"),
                "unknown_bracket",
                'seed 1 of Gold is of "Gold", which bracket.csv has not drawn.',
                "There is none to choose from.",
            )
        ],
    ),
    "one side twice": (
        (
            "P3,9,2026-11-17,19:00,1,winner of P1,Winner of P1,play_off\n"
            "P4,9,2026-11-17,19:00,2,winner of P2,winner of P1,play_off\n"
        ),
        [
            (
                at(4, "away"),
                "self",
                "winner of P1 cannot play itself.",
                "Name the opponents.",
            ),
            (
                at(5, "away"),
                "duplicate",
                "winner of P1 stands on row 4 too.",
                "A side plays one game; mend one of them.",
            ),
        ],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_a_side_that_cannot_come_is_refused(tmp_path: Path, case: str) -> None:
    rows, expected = CASES[case]
    assert faults(tmp_path, {"timetable.csv": HEAD + SEMIS + rows}) == expected


def test_a_game_a_minute_later_may_wait_for_one_and_two_may_meet_again(tmp_path: Path) -> None:
    rows = (
        "P3,9,2026-11-10,19:01,1,winner of P1,loser of P1,play_off\n"
        "P4,9,2026-11-10,19:01,2,winner of P2,Reds,play_off\n"
    )
    assert read(tmp_path, {"timetable.csv": HEAD + SEMIS + rows}).remarks == ()


def test_a_game_of_the_bracket_is_of_the_bracket_in_results_too(tmp_path: Path) -> None:
    assert faults(tmp_path, {"results.csv": RESULTS + "P1,8,Reds,Pinks,2,1,,,,,\n"}) == [
        (
            at(2, "game"),
            "contradiction",
            "game P1 is of the bracket here, and not in results.csv.",
            "Write play_off as its stage there.",
        )
    ]
