"""A timetable is planned as a coordinator types it: whole, or not at all."""

import json
import re
from datetime import UTC, datetime
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.planned_season import (
    BEFORE,
    GAMES,
    PLANNING,
    QUICK,
    RESULTS,
    SLOTS,
    TABLE,
    TEAMS,
    planned,
    write_folder,
)
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import WholeballError
from wholeball.planning.problem import Placement, TimetableProblem
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.plan import plan
from wholeball.solvers.timetable.question import Question
from wholeball.usecases.plan_timetable import plan_timetable


def test_a_plan_is_written_that_breaks_nothing_and_places_every_game(
    run: Run, tmp_path: Path
) -> None:
    problem = planned(run, write_folder(tmp_path))
    assert {one.game for one in problem.announced} == {f"{n}" for n in range(1, 7)}
    assert not (tmp_path / "timetables").exists()
    told = run("check", tmp_path)
    assert (told.status, told.out) == (0, "Nothing is wrong.\n")


def test_the_timetable_that_is_replaced_is_kept_by_the_local_time_of_that(
    run: Run, tmp_path: Path
) -> None:
    folder = write_folder(tmp_path)
    planned(run, folder)
    first = (folder / TABLE).read_bytes()
    closed = "site,date,why\nMeadow,2027-01-04,frost\n"
    write_folder(folder, closures_csv=closed)
    told = run("plan", folder, *QUICK, "--now", "2026-12-02T09:05")
    assert told.status == 0
    kept = folder / "timetables" / "2026-12-02T090500.csv"
    assert kept.read_bytes() == first
    assert (folder / TABLE).read_bytes() != first
    assert told.out.splitlines()[-2:] == [str(folder / TABLE), str(kept)]


def sides(folder: Path) -> list[tuple[str, ...]]:
    read = read_folder(FolderRecord(folder))
    league = [(f"{one.home}", f"{one.away}") for one in read.timetable]
    bracket = [(f"{one.home}", f"{one.away}") for one in read.open_fixtures]
    return sorted(tuple(sorted(pair)) for pair in (*league, *bracket))


def test_until_a_game_is_played_a_plan_has_the_games_that_planning_toml_asks_for(
    run: Run, tmp_path: Path
) -> None:
    folder = write_folder(tmp_path)
    planned(run, folder)
    all_meet = sides(folder)
    write_folder(folder, planning_toml=f"meetings = 2\n{PLANNING}")
    told = run("check", folder)
    says = (
        "planning.toml asks for 6 games of each team of pool A, and timetable.csv has 3. Plan "
        f"again: wholeball plan {folder}"
    )
    assert (told.status, says in told.out) == (0, True)
    assert run("explain", folder, *BEFORE).out.startswith(
        "12 games, 24 places to play them in."
    )
    planned(run, folder)
    assert sides(folder) == sorted(2 * all_meet)
    final = '[[play_offs]]\ngame = "F"\nround = 9\nhome = "seed 1"\naway = "seed 2"\n'
    long = f"{SLOTS}Meadow 1,,2027-02-12,,,18:00,19:30,,,90\n"
    write_folder(folder, planning_toml=PLANNING + final, slots_csv=long)
    planned(run, folder)
    assert sides(folder) == sorted([*all_meet, ("seed 1", "seed 2")])
    third = PLANNING + final.replace("seed 2", "seed 3")
    write_folder(folder, planning_toml=third, slots_csv=long)
    planned(run, folder)
    assert sides(folder) == sorted([*all_meet, ("seed 1", "seed 3")])


def test_once_a_game_is_played_a_plan_of_other_games_is_refused(
    run: Run, tmp_path: Path
) -> None:
    folder = write_folder(tmp_path)
    planned(run, folder)
    before = (folder / TABLE).read_bytes()
    one = min(read_folder(FolderRecord(folder)).timetable, key=lambda each: each.day)
    row = f"{one.game},{one.round},{one.day},{one.home},{one.away},2,0\n"
    write_folder(
        folder, results_csv=f"{RESULTS}{row}", planning_toml=f"games_each = 2\n{PLANNING}"
    )
    told = run("plan", folder, *QUICK, "--now", "2027-01-12T12:00")
    assert told.status == 1
    assert (
        "Games have been played, and planning.toml asks for 2 games of each team of pool A, and "
        "timetable.csv has 3. Let planning.toml say what timetable.csv has, or write the games "
        "that come or go into timetable.csv, and plan again. Nothing was written."
    ) in " ".join(told.err.split())
    assert (folder / TABLE).read_bytes() == before
    write_folder(folder, planning_toml=f"games_each = 3\n{PLANNING}")
    assert run("plan", folder, *QUICK, "--now", "2027-01-12T12:00").status == 0


def test_a_team_that_left_before_the_first_game_is_not_planned_again(
    run: Run, tmp_path: Path
) -> None:
    folder = write_folder(tmp_path)
    planned(run, folder)
    now = ("--now", "2027-01-03T12:00")
    assert run("repair", folder, "--withdraw", "Dogwood", *QUICK, *now).status == 0
    assert run("plan", folder, *QUICK, *now).status == 0
    assert {"Dogwood"}.isdisjoint(name for pair in sides(folder) for name in pair)
    assert len(sides(folder)) == 3


def test_a_new_season_says_what_to_fill_in_until_it_can_be_planned(
    run: Run, tmp_path: Path
) -> None:
    folder = tmp_path / "autumn"
    assert run("new", folder, "--first-day", "2027-01-18").status == 0
    told = run("plan", folder, *QUICK, *BEFORE)
    assert told.status == 1
    assert (
        "There is no slot to play in: slots.csv is missing or has no row. Give it a row for each "
        "field and weekday, such as: Meadow 1,monday,,,,18:00,21:00,,,"
    ) in told.err
    slots = folder / "slots.csv"
    slots.write_text(f"{slots.read_text()}Meadow 1,monday,,,,18:00,21:00,,,\n")
    told = run("plan", folder, *QUICK, *BEFORE)
    assert "There is no team to plan for: teams.csv has no row. Give it a row for" in told.err
    (folder / "teams.csv").write_text(TEAMS)
    assert run("plan", folder, *QUICK, *BEFORE).status == 0
    assert len(sides(folder)) == 6


def test_every_example_in_the_planning_toml_of_a_new_season_can_be_used(
    run: Run, tmp_path: Path
) -> None:
    folder = tmp_path / "autumn"
    assert run("new", folder, "--first-day", "2027-01-18").status == 0
    path = folder / "planning.toml"
    examples = [
        line.removeprefix("# ") if re.match(r"# (\[|[a-z_]+ = )", line) else line
        for line in path.read_text().splitlines()
    ]
    path.write_text("\n".join(examples))
    (folder / "teams.csv").write_text(TEAMS)
    planning = read_folder(FolderRecord(folder)).planning
    assert planning.said is not None
    assert [one.rule for one in planning.said.rules] == [
        "one game a night",
        "round by round",
        "every week",
        "no gap in a night",
        "few starts",
        "late games",
        "early games",
    ]
    assert [one.game for one in planning.said.play_offs] == ["F"]
    assert planning.said.entry.games_each == 5
    assert planning.said.entry.pools["A"].meetings == 2
    assert [f"{one}" for one in planning.said.entry.spare_nights] == ["2027-04-11"]


def test_a_plan_that_is_only_tried_writes_nothing(run: Run, tmp_path: Path) -> None:
    folder = write_folder(tmp_path)
    told = run("plan", folder, *QUICK, *BEFORE, "--dry-run", "--json")
    values = json.loads(told.out)
    assert (values["ok"], values["proof"], values["total"], values["written"]) == (
        True,
        "optimal",
        0,
        [],
    )
    assert len(values["games"]) == 6
    assert not (folder / TABLE).exists()


def test_where_there_is_no_plan_nothing_is_written_and_the_cures_are_told(
    run: Run, tmp_path: Path
) -> None:
    absences = "team,date\nAsh,2027-01-04\nAsh,2027-01-11\nAsh,2027-01-18\nAsh,2027-01-25\n"
    folder = write_folder(tmp_path, absences_csv=absences)
    told = run("plan", folder, *QUICK, *BEFORE, "--json")
    (fault,) = json.loads(told.out)["faults"]
    assert told.status == 1
    assert (fault["code"], fault["value"]) == ("infeasible", "1")
    assert fault["says"].startswith("Ash has 3 games and can play 2: ")
    assert fault["cure"].startswith("There is a plan if you do this: ")
    assert not (folder / TABLE).exists()
    values = json.loads(run("explain", folder, *BEFORE, "--json").out)
    assert [one["shortage"] for one in values["reasons"]] == [1]
    assert {one["is_tried"] for one in values["cures"]} == {True}
    assert all(one["says"].removesuffix(".") in fault["cure"] for one in values["cures"])


def test_once_the_season_has_begun_what_was_played_stays_and_the_rest_comes_later(
    run: Run, tmp_path: Path
) -> None:
    rows = (
        f"{GAMES}1,1,2027-01-04,18:00,Meadow 1,Ash,Birch\n"
        "2,1,2027-01-04,18:55,Meadow 1,Cedar,Dogwood\n"
        "3,2,2027-01-11,18:00,Meadow 1,Ash,Cedar\n"
        "4,2,2027-01-11,18:55,Meadow 1,Birch,Dogwood\n"
        "5,3,2027-01-25,18:00,Meadow 1,Ash,Dogwood\n"
        "6,3,2027-01-25,18:55,Meadow 1,Birch,Cedar\n"
    )
    folder = write_folder(
        tmp_path,
        timetable_csv=rows,
        results_csv=f"{RESULTS}1,1,2027-01-04,Ash,Birch,2,0\n",
    )
    told = run("plan", folder, *QUICK, "--now", "2027-01-19T12:00")
    assert told.status == 0, told.err
    days = {f"{one.game}": f"{one.day}" for one in read_folder(FolderRecord(folder)).timetable}
    assert days["1"] == "2027-01-04"
    assert {days["2"] > "2027-01-19", days["3"] > "2027-01-19"} == {True}


def test_a_folder_that_changes_while_it_is_planned_is_left_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write_folder(tmp_path)

    def meanwhile(problem: TimetableProblem, budget: Budget, **rest: object) -> object:
        found = plan(problem, budget)
        assert rest
        write_folder(folder, slots_csv=SLOTS.replace("21:00", "22:00"))
        return found

    monkeypatch.setattr("wholeball.usecases.plan_timetable.plan", meanwhile)
    now = datetime(2026, 12, 1, tzinfo=UTC)
    with pytest.raises(WholeballError, match="was changed while") as refused:
        plan_timetable(FolderRecord(folder), Budget(work=1.0), now=now, writes=True)
    assert refused.value.code == "conflict"
    assert not (folder / TABLE).exists()


def test_a_plan_that_breaks_a_must_is_never_written(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The models are made to be wrong: all games at the first start, which has one field."""
    folder = write_folder(tmp_path)
    planned(run, folder)
    before = (folder / TABLE).read_bytes()

    def wrong(question: Question, *rest: object, **named: object) -> tuple[Placement, ...]:
        assert rest
        assert named
        start, (slot, *_) = next(iter(question.problem.starts.items()))
        return tuple(
            Placement(game=game, start=start, field=slot.field) for game in question.free
        )

    monkeypatch.setattr("wholeball.solvers.timetable.plan.fields.placements", wrong)
    with pytest.raises(ValueError, match="breaks what must hold"):
        run("plan", folder, *QUICK, *BEFORE)
    with pytest.raises(ValueError, match="breaks what must hold"):
        run("repair", folder, "--lost-night", "2027-01-11", *QUICK, *BEFORE)
    assert (folder / TABLE).read_bytes() == before
    assert not (folder / "timetables").exists()
    assert not (folder / "closures.csv").exists()
