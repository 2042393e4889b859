"""The results of a season as a person reads them, on the example season."""

import json
from datetime import date
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cases.people_season import write_people
from wholeball.cli.main import app
from wholeball.files.folder_record import FolderRecord
from wholeball.usecases.show_results import show_results

LANTERN_HILL = Path(__file__).resolve().parents[1] / "examples/lantern-hill"
LAST = date(2026, 10, 20)


def test_results_stand_in_the_order_in_which_they_were_played() -> None:
    shown = show_results(FolderRecord(LANTERN_HILL))
    days = [one.day for one in shown.lines if one.day is not None]
    assert days == sorted(days)
    assert len(shown.lines) == 31


def test_a_night_has_its_games_and_those_still_without_a_result() -> None:
    shown = show_results(FolderRecord(LANTERN_HILL), night=LAST)
    [line] = shown.lines
    assert (line.stage, line.score, line.goals) == (
        "play_off",
        "2\N{EN DASH}2 (3\N{EN DASH}2 on kicks)",
        (2, 2),
    )
    assert shown.open_games == ("P2", "P3", "P4")
    assert shown.changed == ()


@pytest.mark.parametrize(
    ("night", "says"),
    [
        ("2026-10-21", "No game is listed on Wednesday 21 October 2026.\n"),
        (None, "No game has a result.\n"),
    ],
)
def test_a_day_without_games_is_told_apart_from_games_without_a_result(
    tmp_path: Path, night: str | None, says: str
) -> None:
    folder = write_people(
        tmp_path / "empty", timetable="game,round,date,start,field,home,away\n"
    )
    typed = ["results", str(folder), *(() if night is None else ("--night", night))]
    assert CliRunner().invoke(app, typed).stdout == says


def test_a_night_whose_games_have_no_result_names_them(tmp_path: Path) -> None:
    folder = write_people(tmp_path / "to-come")
    told = CliRunner().invoke(app, ["results", str(folder), "--night", "2026-09-15"]).stdout
    assert told == (
        "No game of Tuesday 15 September 2026 has a result.\nWithout a result: A1.\n"
    )


def test_what_does_not_stand_as_played_is_told_with_its_reason() -> None:
    told = {
        str(one.result.game): f"{one.says}"
        for one in show_results(FolderRecord(LANTERN_HILL)).changed
        if one.result
    }
    assert told["W12"] == (
        "Game W12, The Overlapping Seminars v Library Fines: played 2\N{EN DASH}2; awarded 0\N{EN DASH}4 by ruling."
    )
    assert sorted(told) == ["F41", "W12", "W13", "W21"]


def test_a_forfeit_counts_as_the_rulebook_says_and_keeps_who_gave_it_up() -> None:
    result = CliRunner().invoke(app, ["results", str(LANTERN_HILL), "--json"])
    rows = {row["game"]: row for row in json.loads(result.stdout)["results"]}
    forfeited = rows["W21"]
    assert {key: forfeited[key] for key in ("home_goals", "away_goals", "how", "by")} == {
        "home_goals": 4,
        "away_goals": 0,
        "how": "forfeit",
        "by": "away",
    }
    assert (rows["F41"]["home_goals"], rows["F41"]["away_goals"]) == (0, 0)


def test_results_are_handed_out_as_tables(tmp_path: Path) -> None:
    csv, xlsx = tmp_path / "r.csv", tmp_path / "r.xlsx"
    args = ["results", str(LANTERN_HILL), "--csv", str(csv), "--xlsx", str(xlsx)]
    assert CliRunner().invoke(app, args).exit_code == 0
    lines = csv.read_text(encoding="utf-8").splitlines()
    assert len(lines) == 32
    assert lines[1] == (
        "W11,league,1,2026-09-15,18:30,Lower Meadow 1,Late Submissions,Corner Office Hours,4,0,"
        ",,played,,,,"
    )
    assert xlsx.read_bytes().startswith(b"PK")


def test_a_folder_that_is_not_there_is_refused_with_its_cure() -> None:
    result = CliRunner().invoke(app, ["results", "nowhere", "--json"])
    assert result.exit_code == 1
    assert json.loads(result.stdout)["faults"][0]["code"] == "path"
