"""What a season folder says of its timetable to be, and every fault of it at once."""

from datetime import date, datetime, time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.planned_season import PLANNING, SEASON, SLOTS_HEAD, TEAMS, faults_of, write_folder
from cases.tiny_season import MONDAY
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.planning_rules import read_rules
from wholeball.files.problem import problem_of
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import BlockId, GameId, PoolId, SiteId, TeamId
from wholeball.kernel.refusals import Source
from wholeball.league.fixture import From, Seeded
from wholeball.planning.kinds import KINDS
from wholeball.planning.problem import Closed, Lock, Pairing, Placement, Slot, Start
from wholeball.planning.rule import Rule


@pytest.mark.parametrize(
    ("day", "start", "code"),
    [("2026-11-01", "01:30", "ambiguous"), ("2027-03-14", "02:30", "nonexistent")],
)
def test_a_game_at_a_time_that_comes_twice_or_never_is_refused(
    tmp_path: Path, day: str, start: str, code: str
) -> None:
    season = SEASON.replace("2027-01-04", "2026-10-01").replace("2027-02-14", "2027-04-01")
    rows = f"game,round,date,start,field,home,away\n1,1,{day},{start},Meadow 1,Ash,Birch\n"
    (fault,) = faults_of(tmp_path, season_toml=season, timetable_csv=rows)
    assert (fault.code, f"{fault.place}") == (code, "timetable.csv row 2, column start")


def test_a_closure_takes_the_slots_that_it_overlaps_and_names_itself(tmp_path: Path) -> None:
    closures = (
        "field,site,date,last_date,from,until,why\n"
        "Meadow 1,,2027-01-04,,18:55,19:50,drains\n"
        ",Meadow,2027-01-11,2027-01-18,,,holiday\n"
    )
    problem = problem_of(
        read_folder(FolderRecord(write_folder(tmp_path, closures_csv=closures)))
    )
    closed = [one for one in problem.closed if one.slot.night == MONDAY]
    slot = Slot(
        field="Meadow 1", site=SiteId("Meadow"), night=MONDAY, at=time(18, 55), minutes=55
    )
    assert closed == [Closed(slot=slot, by="closures.csv row 2 (drains)")]
    assert {one.by for one in problem.closed[1:]} == {"closures.csv row 3 (holiday)"}
    assert {slot.night for slot in problem.slots}.isdisjoint(
        {date(2027, 1, 11), date(2027, 1, 18)}
    )


@pytest.mark.parametrize(
    ("row", "code", "says"),
    [
        ("Meadow 1,Meadow,2027-01-04,,,,", "contradiction", "a field and a site"),
        ("Meadow 9,,2027-01-04,,,,", "unknown_field", "no field of fields.csv"),
        (",Long,2027-01-04,,,,", "unknown_site", "no site of sites.csv"),
        (",,2027-01-04,2027-01-03,,,", "contradiction", "is before date"),
        (",,2027-01-04,,19:00,19:00,", "contradiction", "from 19:00 until 19:00"),
    ],
)
def test_a_closure_that_makes_no_sense_is_told(
    tmp_path: Path, row: str, code: str, says: str
) -> None:
    head = "field,site,date,last_date,from,until,why\n"
    (fault,) = faults_of(tmp_path, closures_csv=f"{head}{row}\n")
    assert (fault.code, fault.place.file, fault.place.row) == (code, "closures.csv", 2)
    assert says in fault.says


def test_absences_become_rules_that_name_their_rows(tmp_path: Path) -> None:
    absences = (
        "team,weekday,date,from,until,strength,cost,why\n"
        "Ash,monday,,19:00,,,,choir\n"
        "Birch,,2027-01-11,,18:55,wish,3,\n"
    )
    assert read_folder(
        FolderRecord(write_folder(tmp_path, absences_csv=absences))
    ).planning.absences == (
        Rule(
            rule="absences.csv row 2",
            kind="absent",
            strength="must",
            teams=(TeamId("Ash"),),
            params={"weekdays": ("monday",), "from": "19:00"},
            why="choir",
        ),
        Rule(
            rule="absences.csv row 3",
            kind="absent",
            strength="wish",
            cost=3,
            teams=(TeamId("Birch"),),
            params={"nights": ("2027-01-11",), "until": "18:55"},
        ),
    )


def test_every_fault_of_every_file_is_told_at_once(tmp_path: Path) -> None:
    faults = faults_of(
        tmp_path,
        teams_csv=f"{TEAMS}Ash,B\n",
        absences_csv="team,weekday,strength,cost\nAshe,monday,wish,\nAsh,,,\nAsh,monday,,3\n",
        planning_toml=f"{PLANNING}spare = 1\n[pools.Z]\nmeetings = 2\n".replace(
            "most = 1", "most = 0.5"
        ),
        slots_csv=f"{SLOTS_HEAD}Meadow 1,monday,,,,18:00,18:10,,,\n",
    )
    assert [(one.code, one.place.file) for one in faults] == [
        ("duplicate", "teams.csv"),
        ("type", "planning.toml"),
        ("unknown_key", "planning.toml"),
        ("too_short", "slots.csv"),
        ("unknown_team", "absences.csv"),
        ("missing", "absences.csv"),
        ("missing", "absences.csv"),
        ("contradiction", "absences.csv"),
    ]


def test_names_that_planning_toml_has_and_the_folder_has_not_are_told(tmp_path: Path) -> None:
    planning = f"""{PLANNING}
[[rules]]
rule = "captain"
kind = "never_at_once"
strength = "must"
teams = ["Ash", "Birche"]
[pools.Z]
meetings = 2
"""
    faults = faults_of(tmp_path, planning_toml=f"spare_nights = [2027-03-01]\n{planning}")
    assert [(one.code, one.place.line, one.cure) for one in faults] == [
        ("unknown_team", 22, "Did you mean Birch?"),
        ("unknown_pool", 23, "Use one of: A."),
        ("range", 1, "Mend the night, or the season's days in season.toml."),
    ]
    folder = write_folder(
        tmp_path / "games",
        planning_toml=f'{PLANNING}\n[[rules]]\nrule = "x"\nkind = "not_at"\nstrength = "must"\n'
        'names = ["7"]\n',
    )
    with pytest.raises(InputFaults, match='rule "x" names game 7, which there is not'):
        problem_of(read_folder(FolderRecord(folder)))


def test_a_block_its_lengths_and_what_comes_after_become_rules(tmp_path: Path) -> None:
    planning = f"""{PLANNING}
[[play_offs]]
game = "P1"
round = 4
home = "seed 1"
away = "seed 2"
[[play_offs]]
game = "P2"
round = 5
home = "winner of P1"
away = "seed 3"
"""
    folder = write_folder(
        tmp_path,
        planning_toml=planning,
        teams_csv="team,pool,block\nAsh,,Monday\nBirch,,Monday\nCedar,,Monday\n",
        divisions_csv="division\nOpen\n",
        blocks_csv="block,division,weekday,from,until,places\nMonday,Open,monday,18:00,21:00,4\n",
    )
    problem = problem_of(read_folder(FolderRecord(folder)))
    assert problem.pairings[-2:] == (
        Pairing(game=GameId("P1"), home=Seeded(seed=1), away=Seeded(seed=2), round=4),
        Pairing(game=GameId("P2"), home=From(game=GameId("P1")), away=Seeded(seed=3), round=5),
    )
    said = {one.rule: KINDS[one.kind].sentence(one) for one in problem.rules[:4]}
    assert said == {
        "length of a league game": "A league game has 55 minutes at least, with its turnover.",
        "length of a play-off game": (
            "A play-off game has 72 minutes at least, with its turnover."
        ),
        "after what brings its sides": (
            "A game starts 72 minutes or more after the starts of those that bring its sides."
        ),
        "block Monday": (
            "Ash, Birch and Cedar each play in Monday: Monday, 18:00 to 21:00 in the league."
        ),
    }
    assert {one.block for one in problem.teams} == {BlockId("Monday")}


def test_what_was_played_stays_where_it_was_though_there_is_no_such_slot(
    tmp_path: Path,
) -> None:
    folder = write_folder(
        tmp_path,
        timetable_csv="game,round,date,start,field,home,away\n"
        "A1,1,2027-01-06,17:00,Meadow 1,Ash,Birch\n"
        "A2,1,2027-01-11,18:00,Meadow 1,Cedar,Dogwood\n",
        results_csv="game,round,date,home,away,home_goals,away_goals\n"
        "A1,1,2027-01-06,Ash,Birch,2,1\n",
    )
    problem = problem_of(
        read_folder(FolderRecord(folder)), on=datetime.combine(date(2027, 1, 12), time(9))
    )
    start = Start(date(2027, 1, 6), time(17))
    assert problem.locks == (
        Lock(game=GameId("A1"), start=start, field="Meadow 1", why="played"),
    )
    assert [one.game for one in problem.pairings] == ["A1", "A2"]
    assert {one.pool for one in problem.pairings} == {PoolId("A")}
    assert (start, "Meadow 1") in problem.slot_at
    assert min(slot.night for slot in problem.slots if slot.night > start.night) == date(
        2027, 1, 18
    )
    assert problem.announced[0] == Placement(game=GameId("A1"), start=start, field="Meadow 1")


@pytest.mark.parametrize(
    ("changed", "code", "says"),
    [
        ({"planning_toml": "schema = 1\ngames_each = 3\n", "teams_csv": "team,pool\nA,x\nB,x\nC,x\n"}, "infeasible", "3 teams of pool x cannot play 3 games each"),
        ({"teams_csv": "team,pool\nA,x\n"}, "infeasible", "Pool x has 1 team, and nobody to play."),
        ({"planning_toml": "schema = 1\nmeetings = 5\n"}, "infeasible", "30 games need 30 places, and there are 24: 6 too few."),
        ({"slots_csv": SLOTS_HEAD}, "missing_file", "There is no slot to play in"),
        ({"results_csv": "game,round,date,home,away,home_goals,away_goals\n1,1,2027-01-04,Ash,Birch,1,0\n"}, "contradiction", "results.csv has games"),
    ],
)  # fmt: skip
def test_a_folder_that_nothing_can_be_planned_of_says_why(
    tmp_path: Path, changed: dict[str, str], code: str, says: str
) -> None:
    read = read_folder(FolderRecord(write_folder(tmp_path, **changed)))
    with pytest.raises(WholeballError, match=says) as refused:
        problem_of(read)
    assert refused.value.code == code


def test_a_folder_without_planning_toml_names_the_page_that_has_an_example(
    tmp_path: Path,
) -> None:
    folder = write_folder(tmp_path)
    (folder / "planning.toml").unlink()
    with pytest.raises(WholeballError, match="the guide “Plan the timetable” has an example"):
        problem_of(read_folder(FolderRecord(folder)))


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers() | st.text(max_size=8),
        lambda inner: st.lists(inner, max_size=3).map(tuple),
        max_leaves=6,
    ),
    st.sampled_from(sorted(KINDS)),
    st.sampled_from(("most", "teams", "cost", "strength", "nights", "from", "names", "rule")),
)
def test_whatever_a_rule_holds_is_read_or_told(value: object, kind: str, key: str) -> None:
    record = {"rule": "r", "kind": kind, "strength": "must", key: value}
    rules, faults = read_rules([record], Source("planning.toml", {}))
    assert len(rules) == (not faults)
    for rule in rules:
        assert KINDS[kind].sentence(rule)
