"""Timetables of a coordinator's worst weeks: what is said, what is written, and what is kept."""

import json
import signal
from pathlib import Path
from typing import Any

import pytest

from cases.command_line import Run
from cases.planned_season import (
    BEFORE,
    PLANNING,
    QUICK,
    TABLE,
    TEAMS,
    done,
    unbroken,
    write_folder,
)
from wholeball.planning.problem import TimetableProblem
from wholeball.solvers.timetable.budget import Budget, Progress
from wholeball.solvers.timetable.plan import plan

ROSTERS = (
    "team,number,name,captain,person\n"
    "Ash,1,Lo Vane,yes,p-1\nElder,1,Lo Vane,yes,p-1\n"
    "Birch,4,Mira Sol,,p-2\nFir,4,Mira Sol,,p-2\nBirch,5,Ada Roe,,p-3\nFir,5,Ada Roe,,p-3\n"
    "Cedar,7,Jo Low,,\nHazel,7,Jo Low,,\n"
)


def two_divisions(folder: Path, planning: str) -> Path:
    """Write a season of two divisions on one evening, with starts half an hour apart."""
    return write_folder(
        folder,
        teams_csv=(
            "team,pool,division\nAsh,A,Open\nBirch,A,Open\nCedar,A,Open\n"
            "Elder,B,Mixed\nFir,B,Mixed\nHazel,B,Mixed\n"
        ),
        divisions_csv="division\nOpen\nMixed\n",
        rosters_csv=ROSTERS,
        planning_toml=planning,
        slots_csv=(
            "field,weekday,last_date,from,until\nMeadow 1,monday,2027-01-25,18:00,18:55\n"
            "Meadow 2,monday,2027-01-25,18:00,18:55\nMeadow 3,monday,2027-01-25,18:30,19:25\n"
        ),
        fields_csv="field,site\nMeadow 1,Meadow\nMeadow 2,Meadow\nMeadow 3,Meadow\n",
    )


def test_teams_that_share_players_or_a_captain_never_play_at_once_where_that_is_asked(
    run: Run, tmp_path: Path
) -> None:
    """Four nights for six games: Ash and Birch meet on a night alone, as do Elder and Fir."""
    asked = PLANNING.replace("schema = 1\n", 'schema = 1\nshared_players = "never_at_once"\n')
    folder = two_divisions(tmp_path, asked)
    told = done(run, "explain", folder, *BEFORE)
    for says in (
        "Ash and Elder start 55 minutes apart at least where they play on one night (1 person is",
        "Birch and Fir start 55 minutes apart at least where they play on one night (2 persons are",
    ):
        assert f"  {says} on both rosters)." in told.out.splitlines()
    assert "Cedar and Hazel" not in told.out
    done(run, "plan", folder, *QUICK, *BEFORE)
    nights: dict[str, set[str]] = {}
    for one in unbroken(folder).timetable:
        nights.setdefault(f"{one.day}", set()).update((f"{one.home}", f"{one.away}"))
    assert sorted(map(sorted, nights.values())) == [
        ["Ash", "Birch"],
        ["Ash", "Cedar", "Fir", "Hazel"],
        ["Birch", "Cedar", "Elder", "Hazel"],
        ["Elder", "Fir"],
    ]
    fewer = two_divisions(tmp_path / "fewer", asked)
    slots = fewer / "slots.csv"
    slots.write_text(slots.read_text().replace("2027-01-25", "2027-01-18"))
    told = run("plan", fewer, *QUICK, *BEFORE)
    assert told.status == 1
    assert "Birch and Fir start 55 minutes apart at least" in told.err


def test_teams_that_share_players_play_at_once_where_nobody_asked(
    run: Run, tmp_path: Path
) -> None:
    told = done(run, "explain", two_divisions(tmp_path, PLANNING), *BEFORE)
    assert "apart" not in told.out


def test_what_else_shared_players_could_say_is_refused(run: Run, tmp_path: Path) -> None:
    wrong = PLANNING.replace("schema = 1\n", 'schema = 1\nshared_players = "never"\n')
    told = run("check", two_divisions(tmp_path, wrong))
    assert told.status == 1
    says = 'planning.toml line 2: shared_players is "never". Use one of: never_at_once.'
    assert says in told.err


NIGHTS = ("monday", "tuesday", "wednesday", "thursday", "friday", "sunday")


def six_blocks(folder: Path, *, last_pools: tuple[int, int] = (4, 5), sunday: str = "") -> Path:
    """Write six divisions, each on its evening and in two pools; lights and a permit end early."""
    teams, divisions, blocks = "team,pool,division,block\n", "division\n", ""
    slots = "field,weekday,from,until,lights_off,permit_until\n"
    for night in NIGHTS:
        sizes = last_pools if night == "sunday" else (4, 5)
        divisions += f"{night}s\n"
        blocks += f"{night} evening,{night}s,{night},18:00,23:00,{sum(sizes)}\n"
        for pool, size in zip("AB", sizes, strict=True):
            for number in range(1, size + 1):
                teams += f"{night} {pool}{number},{night} {pool},{night}s,{night} evening\n"
        every = (
            f"Meadow 1,{night},18:00,22:45,,\nMeadow 2,{night},18:00,,22:30,\n"
            f"Meadow 3,{night},18:00,,,21:00\n"
        )
        slots += sunday if night == "sunday" and sunday else every
    return write_folder(
        folder,
        teams_csv=teams,
        divisions_csv=divisions,
        blocks_csv=f"block,division,weekday,from,until,places\n{blocks}",
        slots_csv=slots,
        fields_csv="field,site\nMeadow 1,Meadow\nMeadow 2,Meadow\nMeadow 3,Meadow\n",
    )


def test_six_blocks_keep_their_evenings_the_lights_and_equal_byes(
    run: Run, tmp_path: Path
) -> None:
    """By plain arithmetic: 6 and 10 games a block, 55 minutes each, one a team and night."""
    folder = six_blocks(tmp_path)
    done(run, "plan", folder, *QUICK, *BEFORE)
    played: dict[str, set[str]] = {}
    timetable = unbroken(folder).timetable
    for one in timetable:
        ends = one.start.hour * 60 + one.start.minute + 55
        latest = {"Meadow 1": 22 * 60 + 45, "Meadow 2": 22 * 60 + 30, "Meadow 3": 21 * 60}
        assert one.start.hour >= 18
        assert ends <= latest[one.field]
        for team in (one.home, one.away):
            assert f"{one.day:%A}".lower() == team.split()[0]
            played.setdefault(team, set()).add(f"{one.day}")
    assert len(timetable) == 6 * (6 + 10)
    assert {team.split()[1][0]: len(nights) for team, nights in played.items()} == {
        "A": 3,
        "B": 4,
    }


def test_two_teams_too_many_for_an_evening_are_told_with_nights_that_would_do(
    run: Run, tmp_path: Path
) -> None:
    """Seven teams that all meet need seven evenings; the season has six Sundays."""
    folder = six_blocks(tmp_path, last_pools=(4, 7))
    told = run("plan", folder, *QUICK, *BEFORE, "--json")
    (fault,) = json.loads(told.out)["faults"]
    assert (told.status, fault["value"]) == (1, "3")
    assert fault["says"] == (
        "Pool sunday B has 7 teams of 1 game a night at most, which play 18 games at most on 6 "
        "nights, and 21 are to be played: 3 too few."
    )
    assert fault["cure"].startswith(
        "There is a plan if you do this: Play 1 night more: Sunday 21 February, after the "
        "season's last day, Let go of one rule: "
    )
    assert not (folder / TABLE).exists()
    season = folder / "season.toml"
    season.write_text(season.read_text().replace("2027-02-14", "2027-02-21"))
    done(run, "plan", folder, *QUICK, *BEFORE)
    assert len(unbroken(folder).timetable) == 5 * (6 + 10) + 6 + 21
    assert " or Let go of one rule: Every team plays 1 game a night at most." in fault["cure"]
    other = six_blocks(tmp_path / "other", last_pools=(4, 7))
    path = other / "planning.toml"
    path.write_text(path.read_text().replace("most = 1\n", "most = 2\n", 1))
    done(run, "plan", other, *QUICK, *BEFORE)
    assert len(unbroken(other).timetable) == 5 * (6 + 10) + 6 + 21


def test_once_the_first_sunday_is_over_seven_teams_are_one_evening_short_each(
    run: Run, tmp_path: Path
) -> None:
    folder = six_blocks(tmp_path, last_pools=(4, 7))
    told = run("plan", folder, *QUICK, "--now", "2027-01-10T23:30", "--json")
    assert json.loads(told.out)["faults"][0]["says"] == (
        "sunday B1, sunday B2, sunday B3, sunday B4 and 3 other teams have 6 games each and can "
        "play 5: The 11 teams of the block play in sunday evening: Sunday, 18:00 to 23:00 in the "
        "league; Every team plays 1 game a night at most."
    )


def test_an_evening_with_too_few_places_is_told_with_its_shortage_and_the_cures_work(
    run: Run, tmp_path: Path
) -> None:
    """Six Sundays of two starts on one field have 12 places for 16 games: four too few."""
    short = "Meadow 1,sunday,18:00,19:50,,\n"
    folder = six_blocks(tmp_path / "short", sunday=short)
    told = run("plan", folder, *QUICK, *BEFORE, "--json")
    (fault,) = json.loads(told.out)["faults"]
    assert (told.status, fault["value"]) == (1, "4")
    assert fault["says"] == (
        "16 games (all of pools sunday A and sunday B) can only be played on Sunday 10 January, "
        "Sunday 17 January, Sunday 24 January, Sunday 31 January and 2 other nights, in 12 "
        "places: 4 too few."
    )
    assert fault["cure"].startswith(
        "There is a plan if you do this: Use one field more at every start, Play one start more "
        "at the end of every night or Play 2 nights more: Sunday 21 February and "
    )
    field = six_blocks(tmp_path / "field", sunday=f"{short}{short.replace('1', '2', 1)}")
    done(run, "plan", field, *QUICK, *BEFORE)
    start = six_blocks(tmp_path / "start", sunday="Meadow 1,sunday,18:00,20:45,,\n")
    done(run, "plan", start, *QUICK, *BEFORE)


def test_a_holiday_on_a_monday_is_kept_free(run: Run, tmp_path: Path) -> None:
    """The third Monday of January is a federal holiday of the United States (5 U.S.C. 6103)."""
    folder = write_folder(tmp_path, closures_csv="date,why\n2027-01-18,Holiday\n")
    done(run, "plan", folder, *QUICK, *BEFORE)
    assert "2027-01-18" not in {f"{one.day}" for one in unbroken(folder).timetable}


AUTUMN = (
    'schema = 1\nname = "Harbour autumn"\ntimezone = "America/New_York"\n'
    "first_day = 2026-10-25\nlast_day = 2026-11-08\n"
)


def test_games_are_played_on_the_evening_after_the_clocks_go_back(
    run: Run, tmp_path: Path
) -> None:
    """1 November 2026 has an hour twice, from 1:00 on (IANA time zone database)."""
    sundays = "field,weekday,from,until\nMeadow 1,sunday,18:00,19:50\n"
    folder = write_folder(tmp_path / "sundays", season_toml=AUTUMN, slots_csv=sundays)
    done(run, "plan", folder, *QUICK, "--now", "2026-10-20T10:00")
    days = [f"{one.day}" for one in unbroken(folder).timetable]
    assert sorted(set(days)) == ["2026-10-25", "2026-11-01", "2026-11-08"]
    night = "field,date,from,until\nMeadow 1,2026-11-01,00:10,03:00\n"
    told = run("check", write_folder(tmp_path / "night", season_toml=AUTUMN, slots_csv=night))
    assert told.status == 1
    assert "slots.csv row 2, column from: 01:05 on 2026-11-01 happens twice. The clocks go" in (
        told.err
    )


def test_everything_wrong_with_what_is_to_be_planned_is_told_at_once(
    run: Run, tmp_path: Path
) -> None:
    folder = write_folder(
        tmp_path,
        teams_csv=f"{TEAMS}Ash,B\n",
        slots_csv=(
            "field,weekday,date,from,until\nMeadow 1,monday,,18:00,21:00\n"
            "Meadow 1,,2027-01-11,19:30,21:00\nMeadow 9,monday,,18:00,21:00\n"
            "Meadow 2,,,18:00,21:00\nMeadow 2,mondays,,25:00,21:00\n"
        ),
        closures_csv="field,date\nMeadow 1,2029-01-11\n",
        absences_csv="team,date\nAshe,2027-01-11\n",
        planning_toml=PLANNING + "[pools.Z]\nmeetings = 2\n",
    )
    told = run("plan", folder, *QUICK, *BEFORE)
    assert told.status == 1
    assert told.err.splitlines() == [
        'teams.csv row 6, column team: "Ash" stands on row 2 too. Take one out.',
        'planning.toml line 16: "Z" is no pool of teams.csv. Use one of: A.',
        (
            "slots.csv row 3, column from: Meadow 1 has a slot on Monday 11 January from 18:55 to "
            "19:50, and another begins at 19:30 (rows 2 and 3). Let one end before the other begins."
        ),
        (
            'slots.csv row 4, column field: "Meadow 9" is no field of fields.csv. Did you mean '
            "Meadow 2?"
        ),
        "slots.csv row 5, column weekday: the row names no day. Give a weekday, or one date.",
        'slots.csv row 6, column weekday: weekday is "mondays". Did you mean monday?',
        'slots.csv row 6, column from: from is "25:00". There is no such time.',
        (
            "closures.csv row 2, column date: 2029-01-11 is outside the season, 2027-01-04 to "
            "2027-02-14. Mend the day, or the season's days in season.toml."
        ),
        'absences.csv row 2, column team: "Ashe" is no team of teams.csv. Did you mean Ash?',
        "Mend what is listed and try again.",
        "Nothing was written.",
    ]
    assert not (folder / TABLE).exists()


def test_no_game_is_placed_on_a_night_outside_the_season(run: Run, tmp_path: Path) -> None:
    slots = (
        "field,weekday,date,first_date,last_date,from,until\n"
        "Meadow 1,monday,,2027-01-01,2027-06-01,18:00,18:55\nMeadow 2,,2027-05-02,,,18:00,21:00\n"
    )
    folder = write_folder(tmp_path, slots_csv=slots)
    told = done(run, "explain", folder, *BEFORE)
    assert told.out.startswith("6 games, 6 places to play them in.\n")
    told = done(run, "plan", folder, *QUICK, *BEFORE)
    says = "slots.csv row 3, column date: 2027-05-02 is outside the season, 2027-01-04 to"
    assert says in told.err
    assert max(f"{one.day}" for one in unbroken(folder).timetable) == "2027-02-08"


def test_ctrl_c_takes_the_best_plan_so_far(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write_folder(tmp_path)

    pressed: list[bool] = []

    def stopped(problem: TimetableProblem, budget: Budget, **watch: Any) -> object:
        """Press Ctrl-C as soon as there is a plan."""

        def press(told: Progress) -> None:
            if told.best is not None and not pressed:
                signal.raise_signal(signal.SIGINT)
                pressed.append(watch["stop"]())

        return plan(problem, budget, on_progress=press, stop=watch["stop"])

    monkeypatch.setattr("wholeball.usecases.plan_timetable.plan", stopped)
    done(run, "plan", folder, "--seconds", "60", *BEFORE)
    assert pressed == [True]
    assert len(unbroken(folder).timetable) == 6
