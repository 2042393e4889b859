"""Pools made of the sign-ups in a folder: places, wait list, offers, and what is written."""

import json
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.meadow import SEASON

BOOK = 'base = "laws-2025-26"\n[roster]\nref = "H 3.1"\nminimum = 6\nmaximum = 12\n'
BLOCKS = "block,division,weekday,from,until,places\nMon,Open,monday,19:00,22:00,4\n"
HEAD = "team,block,at,captain,players,colours,second_colours\n"
FOUR = "".join(
    f"{team},Mon,2026-08-2{day} 09:00,Cap,{players},{team.lower()},white\n"
    for team, day, players in (("Ash", 1, 9), ("Birch", 2, 4), ("Cedar", 3, 9), ("Elm", 4, 9))
)


def test_places_go_by_the_time_of_the_sign_up_and_the_next_waits(
    run: Run, tmp_path: Path
) -> None:
    late = "Dogwood,Mon,2026-08-25 09:00,Cap,9,,\n"
    told = run("pools", _folder(tmp_path, late + FOUR))
    assert told.status == 0
    assert told.out.splitlines() == [
        "Meadow: who plays with whom",
        "",
        "Mon (Open, Monday 19:00 to 22:00): 4 of 4 places taken.",
        "  Pool Mon, 4 teams:",
        "    Ash",
        "    Birch",
        "    Cedar",
        "    Elm",
        "  Waits, 1: Dogwood (came 2026-08-25 09:00).",
        "  Umaru Kealohana is offered to Birch, which is short.",
        "  Ondine Havenko is offered to Birch, which is short.",
        "  Nothing yet for Pavol Vasconde.",
        "",
        "Nothing is written yet: add --write.",
    ]


def test_what_is_written_is_read_back_and_written_once(run: Run, tmp_path: Path) -> None:
    folder = _folder(tmp_path, FOUR)
    assert run("pools", folder, "--write").status == 0
    written = (folder / "teams.csv").read_text()
    assert written.splitlines()[:2] == [
        "team,pool,colours,second_colours,division,block",
        "Ash,Mon,ash,white,Open,Mon",
    ]
    again = run("pools", folder, "--write")
    assert again.status == 1
    assert "teams.csv lists 4 teams already, and pools are made once." in again.err
    assert (folder / "teams.csv").read_text() == written
    assert run("check", folder, "--on", "2026-09-14").status == 0


@pytest.mark.parametrize(
    ("sign_ups", "says"),
    [
        (FOUR.replace("Elm", "Ash"), '"Ash" stands on row 2 too'),
        ("\n".join(FOUR.splitlines()[:3]) + "\n", "A pool needs 4 teams: Mon has 3."),
        (FOUR.replace("Elm,", "seed 3,"), "reads like a side of a play-off game"),
        ("", "sign_ups.csv lists nothing"),
    ],
)
def test_what_cannot_be_pools_is_refused_and_nothing_is_written(
    run: Run, tmp_path: Path, sign_ups: str, says: str
) -> None:
    folder = _folder(tmp_path, sign_ups)
    before = (folder / "teams.csv").read_bytes()
    refused = run("pools", folder, "--write")
    assert refused.status == 1
    assert says in refused.err
    assert (folder / "teams.csv").read_bytes() == before


def test_a_team_with_a_place_in_two_blocks_is_refused(run: Run, tmp_path: Path) -> None:
    second = FOUR.replace(",Mon,", ",Tue,").replace("Birch", "Fir").replace("Cedar", "Gum")
    folder = _folder(tmp_path, FOUR + second.replace("Elm", "Hazel"))
    blocks = f"{BLOCKS}Tue,Open,tuesday,19:00,22:00,4\n"
    (folder / "blocks.csv").write_text(blocks)
    refused = run("pools", folder, "--write")
    assert "Ash would have a place in two blocks." in refused.err


def test_the_size_of_a_pool_is_4_to_8(run: Run, tmp_path: Path) -> None:
    folder = _folder(tmp_path, FOUR)
    assert "Give a size of 4 to 8." in run("pools", folder, "--size", 3).err
    assert "Give a size of 4 to 8." in run("pools", folder, "--size", 9).err
    assert run("pools", folder, "--size", 8).status == 0


def test_values_name_pools_waiting_teams_and_offers(run: Run, tmp_path: Path) -> None:
    told = json.loads(run("pools", _folder(tmp_path, FOUR), "--json").out)
    assert told == {
        "league": "Meadow",
        "blocks": [
            {
                "block": "Mon",
                "division": "Open",
                "places": 4,
                "pools": [{"pool": "Mon", "teams": ["Ash", "Birch", "Cedar", "Elm"]}],
                "placed": ["Ash", "Birch", "Cedar", "Elm"],
                "waiting": [],
                "offers": [
                    {"person": "k-umaru", "name": "Umaru Kealohana", "team": "Birch"},
                    {"person": "k-ondine", "name": "Ondine Havenko", "team": "Birch"},
                ],
                "formed": [],
                "left": [{"person": "k-pavol", "name": "Pavol Vasconde"}],
            }
        ],
        "written": None,
    }


def _folder(tmp_path: Path, sign_ups: str) -> Path:
    folder = tmp_path / "season"
    folder.mkdir()
    files = {
        "season.toml": SEASON,
        "rulebook.toml": BOOK,
        "divisions.csv": "division\nOpen\n",
        "blocks.csv": BLOCKS,
        "teams.csv": "team,pool,colours,second_colours,division,block\n",
        "results.csv": "game,round,home,away,home_goals,away_goals\n",
        "sign_ups.csv": HEAD + sign_ups,
        "alone.csv": "person,name,block,at\n"
        "k-umaru,Umaru Kealohana,Mon,2026-08-20 08:00\n"
        "k-ondine,Ondine Havenko,Mon,2026-08-20 09:00\n"
        "k-pavol,Pavol Vasconde,Mon,2026-08-20 10:00\n",
    }
    for name, text in files.items():
        (folder / name).write_text(text)
    return folder
