"""A timetable is explained: what its rules cost, how good it is, why there is none, what helps."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.planned_season import BEFORE, GAMES, PLANNING, write_folder
from cases.tiny_season import question, rule
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.problem import problem_of
from wholeball.kernel.faults import Fault, Place
from wholeball.planning.answer import Cure, Impossible, Line, Plan, Proof, Reason
from wholeball.reports.timetable_words import cost_lines, infeasible, not_proved, proof_line


def test_check_doubts_a_timetable_that_breaks_a_rule(run: Run, tmp_path: Path) -> None:
    rows = (
        f"{GAMES}1,1,2027-01-04,18:00,Meadow 1,Ash,Birch\n"
        "2,1,2027-01-04,18:55,Meadow 1,Ash,Dogwood\n"
    )
    told = run("check", write_folder(tmp_path, timetable_csv=rows))
    assert told.status == 0
    assert "Ash has 2 games on Monday 4 January; 1 at most." in told.out


def test_explain_says_every_rule_and_what_the_present_timetable_costs(
    run: Run, tmp_path: Path
) -> None:
    rows = GAMES + "".join(
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
    assert proof_line(replace(made, proof="none")) == (
        "How much better a plan could be is not known."
    )
    assert proof_line(Plan(placements=(), total=0, bound=0.0, proof="optimal")) == (
        "No better plan exists."
    )


@pytest.mark.parametrize(
    ("proof", "bound", "says"),
    [
        ("gap", 1199.6, "the best one costs 1,200 at least."),
        ("gap", -1.0, "the best one costs 0 at least."),
        ("none", 0.0, "what the best one costs is not known."),
    ],
)
def test_a_plan_that_may_not_be_the_best_is_doubted(
    proof: Proof, bound: float, says: str
) -> None:
    made = Plan(placements=(), total=1300, bound=bound, proof=proof)
    assert list(not_proved(made)) == [
        Fault(
            code="not_proved",
            place=Place(file="timetable.csv"),
            says=f"the search ended with a plan that costs 1,300; {says}",
            value="1300",
            cure="Plan again with more --seconds, or take it as it is.",
            level="doubt",
        )
    ]
    assert list(not_proved(replace(made, proof="optimal"))) == []


@pytest.mark.parametrize(
    ("rules", "cure"),
    [
        ((), "Make one of the musts a wish, or open more slots."),
        (("capacity",), "Open more fields or nights in slots.csv."),
        (("lock", "rest"), "Give it a slot in slots.csv; or loosen: rest."),
        (tuple("abcdef"), "Loosen one of: a, b, c, d, e or f."),
        (tuple("abcdefg"), "Loosen one of: a, b, c, d, e or f."),
    ],
)
def test_a_reason_without_a_cure_names_what_to_loosen_of_at_most_six_rules(
    rules: tuple[str, ...], cure: str
) -> None:
    told = infeasible(Impossible(reasons=(Reason(rules=rules, says="Why."),)))
    assert [one.cure for one in told] == [cure]


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


def test_wishes_that_are_not_met_are_told_the_dearest_first() -> None:
    rules = ("open_start", "open_night", "idle_week")
    problem = question((), (), *(rule(kind, cost=1) for kind in rules))
    lines = tuple(
        Line(rule=kind, about="", times=1, cost=cost, says="")
        for kind, cost in zip(rules, (4, 4, 5), strict=True)
    )
    made = Plan(placements=(), total=13, bound=0.0, proof="none", lines=lines)
    assert list(cost_lines(made, problem)) == [
        "Every team plays every week. Not met 1 time: costs 5.",
        "As few nights as can be are opened. Not met 1 time: costs 4.",
        "As few starts as can be are opened. Not met 1 time: costs 4.",
    ]


EIGHT_PLACES = (
    "field,weekday,first_date,last_date,from,until\nMeadow 1,monday,,2027-01-25,18:00,19:50\n"
)
"""Places for the six games of four teams, and for two games more."""


def test_what_if_tells_how_many_more_teams_fit(run: Run, tmp_path: Path) -> None:
    """One pool more of four needs six places more, and there are two."""
    folder = write_folder(tmp_path, slots_csv=EIGHT_PLACES)
    told = run("plan", folder, "--what-if", "teams", *BEFORE, "--rain", "0")
    assert (told.status, told.out) == (
        0,
        (
            "No more pool of 4 teams with 3 games each fits, with 0 nights in a hundred kept for "
            "rain.\n"
        ),
    )


HELPS = ("--what-if", "helps", *BEFORE, "--seconds", "2")
MONDAYS = """
[[rules]]
rule = "Ash and Mondays"
kind = "absent"
strength = "wish"
cost = 9
teams = ["Ash"]
weekdays = ["monday"]
"""


def test_nothing_more_helps_a_timetable_that_costs_nothing(run: Run, tmp_path: Path) -> None:
    folder = write_folder(tmp_path, slots_csv=EIGHT_PLACES)
    assert json.loads(run("plan", folder, *HELPS, "--json").out) == {"helps": []}
    assert run("plan", folder, *HELPS).out == (
        "No single thing more makes the timetable better.\n"
    )


def test_what_helps_is_told_with_what_the_timetable_then_costs(
    run: Run, tmp_path: Path
) -> None:
    """Ash plays three games on Mondays at 9 each; on a Sunday more, one of them costs nothing."""
    folder = write_folder(tmp_path, slots_csv=EIGHT_PLACES, planning_toml=PLANNING + MONDAYS)
    says = "Play one night more, such as Sunday 14 February."
    assert json.loads(run("plan", folder, *HELPS, "--json").out) == {
        "helps": [{"says": says, "total": 18}]
    }
    assert run("plan", folder, *HELPS).out == (
        f"{says} The best timetable found then costs 18.\n"
    )
