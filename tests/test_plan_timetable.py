"""A timetable is planned, checked and repaired as a coordinator types it."""

import json
import re
from datetime import UTC, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from cases.command_line import Run
from cases.planned_season import PLANNING, RESULTS, SLOTS, TEAMS, write_folder
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.local_times import moment_of
from wholeball.files.problem import problem_of
from wholeball.kernel.faults import WholeballError
from wholeball.planning.answer import Cure, Impossible, Line, Plan, Reason
from wholeball.planning.check import check
from wholeball.planning.problem import Placement, TimetableProblem
from wholeball.reports.timetable_words import cost_lines, infeasible, proof_line
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.plan import plan
from wholeball.solvers.timetable.question import Question
from wholeball.usecases.plan_timetable import plan_timetable

BEFORE = ("--now", "2026-12-01T10:00")
QUICK = ("--seconds", "5", "--reproducible")
TABLE = "timetable.csv"


def planned(run: Run, folder: Path, *words: str) -> TimetableProblem:
    """Plan a folder, and return the question with its timetable, which the check passes."""
    told = run("plan", folder, *QUICK, *BEFORE, *words)
    assert told.status == 0, told.err
    problem = problem_of(read_folder(FolderRecord(folder)))
    assert check(problem, problem.announced).broken == ()
    return problem


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


def test_rounds_are_weeks_and_a_repair_keeps_those_of_the_games_that_stay(
    run: Run, tmp_path: Path
) -> None:
    """Four teams of one game a week: two games a round, as the calendar has them."""
    weekly = PLANNING.replace("games_a_night", "games_a_week")
    folder = write_folder(tmp_path, planning_toml=weekly)
    planned(run, folder)
    before = {one.game: one for one in read_folder(FolderRecord(folder)).timetable}
    in_time = sorted(before.values(), key=lambda one: (one.day, one.start, one.field))
    weeks = {one.day: one.round for one in in_time}
    assert [one.round for one in in_time] == sorted(one.round for one in in_time)
    assert sorted(weeks.values()) == list(range(1, len(weeks) + 1))
    lost = next(day for day, number in weeks.items() if number == 2)
    told = run("repair", folder, "--lost-night", lost, *QUICK, "--now", "2027-01-03T12:00")
    assert told.status == 0, told.err
    after = sorted(read_folder(FolderRecord(folder)).timetable, key=lambda one: one.day)
    stay = [one for one in after if one == before[one.game]]
    assert {one.day for one in before.values()} - {one.day for one in stay} == {lost}
    assert [one.round for one in after] == sorted(one.round for one in after)


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
    assert [one.rule for one in planning.said.rules] == ["one game a night", "late games"]
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
        "game,round,date,start,field,home,away\n"
        "1,1,2027-01-04,18:00,Meadow 1,Ash,Birch\n"
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


def test_check_doubts_a_timetable_that_breaks_a_rule(run: Run, tmp_path: Path) -> None:
    rows = (
        "game,round,date,start,field,home,away\n"
        "1,1,2027-01-04,18:00,Meadow 1,Ash,Birch\n"
        "2,1,2027-01-04,18:55,Meadow 1,Ash,Dogwood\n"
    )
    told = run("check", write_folder(tmp_path, timetable_csv=rows))
    assert told.status == 0
    assert "Ash has 2 games on Monday 4 January; 1 at most." in told.out


def test_explain_says_every_rule_and_what_the_present_timetable_costs(
    run: Run, tmp_path: Path
) -> None:
    rows = "game,round,date,start,field,home,away\n" + "".join(
        f"{n},1,2027-01-{day},19:50,Meadow 1,{sides}\n"
        for n, day, sides in ((1, "04", "Ash,Birch"), (2, "18", "Ash,Cedar"))
    )
    folder = write_folder(tmp_path, timetable_csv=rows)
    told = run("explain", folder, *BEFORE)
    assert told.status == 0
    for line in (
        "2 games, 24 places to play them in.",
        "  Every team plays 1 game a night at most.",
        "Nothing speaks against a timetable.",
        "The timetable in the folder costs 5.",
        "  Ash plays late 2 times; 1 would be its share. Costs 5.",
    ):
        assert line in told.out.splitlines()
    values = json.loads(run("explain", folder, *BEFORE, "--json").out)
    assert (values["reasons"], values["present"]["total"]) == ([], 5)


def test_a_lost_night_moves_its_games_and_no_other(run: Run, tmp_path: Path) -> None:
    folder = write_folder(tmp_path)
    before = {one.game: one for one in planned(run, folder).announced}
    lost = min(one.start.night for one in before.values())
    told = run(
        "repair", folder, "--lost-night", lost, *QUICK, "--now", "2027-01-03T12:00", "--json"
    )
    assert told.status == 0, told.err
    values = json.loads(told.out)
    moved = {one["game"] for one in values["moved"]}
    assert values["is_least"]
    assert moved >= {one.game for one in before.values() if one.start.night == lost}
    problem = problem_of(read_folder(FolderRecord(folder)))
    assert check(problem, problem.announced).broken == ()
    after = {one.game: one for one in problem.announced}
    assert lost not in {one.start.night for one in after.values()}
    assert {game for game in before if before[game] != after[game]} == moved


def test_a_team_that_leaves_takes_its_games_along_and_one_that_comes_brings_some(
    run: Run, tmp_path: Path
) -> None:
    folder = write_folder(tmp_path)
    planned(run, folder)
    now = ("--now", "2027-01-03T12:00")
    told = run("repair", folder, "--withdraw", "Dogwood", *QUICK, *now)
    assert told.status == 0, told.err
    assert len(read_folder(FolderRecord(folder)).timetable) == 3
    write_folder(folder, teams_csv=f"{TEAMS}Elder,A\n")
    told = run("repair", folder, "--add", "Elder", *QUICK, *now)
    assert told.status == 0, told.err
    games = read_folder(FolderRecord(folder)).timetable
    assert {
        one.home if one.away == "Elder" else one.away
        for one in games
        if "Elder" in (one.home, one.away)
    } == {"Ash", "Birch", "Cedar"}
    assert len({one.game for one in games}) == len(games) == 6
    again = run("repair", folder, "--add", "Elder", *now)
    assert again.status == 1
    assert "Elder has 3 games in timetable.csv already." in again.err


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "Nothing has happened."),
        (("--lost-night", "2027-01-05"), "2027-01-05 is no night of slots.csv."),
        (("--lost-night", "2027-01-04@Marsh"), "Marsh is no site of slots.csv."),
        (("--lost-field", "Meadow 9"), "Meadow 9 is no field of slots.csv. Did you mean"),
        (("--withdraw", "Ashe"), "Ashe is no team of teams.csv. Did you mean Ash?"),
        (("--lost-night", "soon"), "'soon' is no day."),
    ],
)
def test_what_did_not_happen_changes_nothing(
    run: Run, tmp_path: Path, words: tuple[str, ...], says: str
) -> None:
    rows = "game,round,date,start,field,home,away\n1,1,2027-01-04,18:00,Meadow 1,Ash,Birch\n"
    folder = write_folder(tmp_path, timetable_csv=rows)
    told = run("repair", folder, *words, *BEFORE)
    assert told.status == 1
    assert says in told.err
    assert (folder / TABLE).read_text() == rows


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


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("2026-11-01 00:59", None),
        ("2026-11-01 01:00", "ambiguous"),
        ("2026-11-01 01:59", "ambiguous"),
        ("2026-11-01 02:00", None),
        ("2027-03-14 01:59", None),
        ("2027-03-14 02:00", "nonexistent"),
        ("2027-03-14T02:59", "nonexistent"),
        ("2027-03-14T03:00", None),
        ("2026-11-01T01:30-04:00", None),
        ("2026-11-01T01:30+14:01", "date"),
        ("tomorrow", "date"),
    ],
)
def test_a_local_time_that_comes_twice_or_never_is_no_moment(
    text: str, code: str | None
) -> None:
    """The clocks of New York change at 2:00 on these nights (IANA time zone database)."""
    zone = ZoneInfo("America/New_York")
    if code is None:
        assert moment_of(text, zone).at.tzinfo is UTC
        return
    with pytest.raises(WholeballError) as refused:
        moment_of(text, zone)
    assert refused.value.code == code


def test_how_good_a_plan_is_reads_plainly() -> None:
    lines = (
        Line(rule="late", about="Ash", times=2, cost=10, says="Ash plays late 2 times."),
        Line(rule="late", about="Birch", times=1, cost=5, says="Birch plays late 2 times."),
    )
    made = Plan(placements=(), total=200, bound=199.0, proof="gap", lines=lines)
    assert proof_line(made) == "At most 1 % of its cost could be saved; that was not proved."
    assert proof_line(Plan(placements=(), total=3, bound=-1.0, proof="gap")).startswith(
        "At most 100 % "
    )
    assert proof_line(Plan(placements=(), total=0, bound=0.0, proof="optimal")) == (
        "No better plan exists."
    )


def test_reasons_come_with_cures_or_with_what_to_loosen(tmp_path: Path) -> None:
    reason = Reason(rules=("rest", "capacity"), says="Why.", shortage=2)
    assert [one.cure for one in infeasible(Impossible(reasons=(reason,)))] == [
        "Open more fields or nights in slots.csv; or loosen: rest."
    ]
    cured = Impossible(
        reasons=(reason,),
        cures=(Cure(says="One night more.", changes="n"), Cure(says="No rest.", changes="r")),
    )
    assert infeasible(cured)[0].cure == (
        "There is a plan if you do this: One night more or No rest."
    )
    (nobody,) = infeasible(Impossible(reasons=()))
    assert nobody.says == "There is no timetable that keeps every rule that must hold."
    problem = problem_of(
        read_folder(FolderRecord(write_folder(tmp_path, planning_toml=PLANNING)))
    )
    line = Line(rule="late", about="Ash", times=2, cost=10, says="")
    made = Plan(placements=(), total=10, bound=0.0, proof="none", lines=(line,))
    assert list(cost_lines(made, problem)) == [
        "Every team plays late no more often than a fair share. Not met 2 times: costs 10."
    ]


def test_what_if_tells_how_many_more_teams_fit_and_what_helps(run: Run, tmp_path: Path) -> None:
    """Eight places for six games: one pool more of four needs six more, and there are two."""
    slots = "field,weekday,first_date,last_date,from,until\nMeadow 1,monday,,2027-01-25,18:00,19:50\n"
    folder = write_folder(tmp_path, slots_csv=slots)
    told = run("plan", folder, "--what-if", "teams", *BEFORE, "--rain", "0")
    assert (told.status, told.out) == (
        0,
        (
            "No more pool of 4 teams with 3 games each fits, with 0 nights in a hundred kept for "
            "rain.\n"
        ),
    )
    values = json.loads(
        run("plan", folder, "--what-if", "helps", *BEFORE, "--seconds", "2", "--json").out
    )
    present = json.loads(run("plan", folder, *BEFORE, "--seconds", "5", "--json").out)["total"]
    assert all(one["total"] < present for one in values["helps"])
