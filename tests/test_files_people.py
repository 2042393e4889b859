"""What is known of people is read whole, or all that is wrong with it is named at once."""

from datetime import date

import pytest

from cases.table_faults import wrong
from wholeball.files.discipline import read_discipline
from wholeball.files.known_persons import KnownPersons
from wholeball.files.not_cleared import read_not_cleared
from wholeball.files.officials import read_officials
from wholeball.files.people import read_people
from wholeball.files.rosters import read_rosters
from wholeball.files.row_faults import Known
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.identity import GameId, PersonId, PoolId, TeamId
from wholeball.league.crew import Official
from wholeball.league.league import League, Team
from wholeball.league.person import NotCleared, Person
from wholeball.league.player import Player
from wholeball.rulebook.editions import edition
from wholeball.season.decision import Decision

LEAGUE = League(
    name="Lantern Hill",
    timezone="Europe/London",
    first_day=date(2026, 9, 1),
    last_day=date(2026, 12, 1),
    teams=tuple(Team(team=TeamId(name), pool=PoolId("A")) for name in ("Reds", "Blues")),
)
PERSONS = KnownPersons(("ana-1", "bo-2"), {})
GAMES = Known(("1", "P1"), "Use a game of timetable.csv.")


ROSTERS = {
    TeamId("Reds"): (
        Player(name="Ana", person=PersonId("ana-1")),
        Player(name="Cem"),
        Player(name="Dia", person=PersonId("dia-1")),
        Player(name="Dia", person=PersonId("dia-2")),
        Player(name="Eva", person=PersonId("eva-1")),
        Player(name="Eva"),
    ),
    TeamId("Blues"): (Player(name="Ana", person=PersonId("ana-9")),),
}
NAMED = KnownPersons(
    ("ana-1", "Reds: Cem", "dia-1", "dia-2", "eva-1", "Reds: Eva", "ana-9"), ROSTERS
)


def test_a_team_and_a_name_stand_for_the_code_of_the_one_row_they_fit() -> None:
    rows = (
        "Reds: Ana,2026-10-01\nblues: ana,2026-10-01\nReds: Cem,2026-10-01\ndia-2,2026-10-01\n"
    )
    found, table = read_not_cleared(f"person,since\n{rows}".encode(), NAMED)
    assert table.faults == []
    assert [one.person for one in found] == ["ana-1", "ana-9", "Reds: Cem", "dia-2"]
    people, table = read_people(b"person\nReds: Ana\nBlues: Ana\n", NAMED)
    assert ([one.person for one in people], table.faults) == (["ana-1", "ana-9"], [])


def test_a_team_and_a_name_that_fit_no_row_or_several_are_refused_with_the_cure() -> None:
    rows = "Reds: Anna\nGreens: Q\nReds: Dia\nReds: Eva\nana-1\nReds: Ana\n"
    found, table = read_people(f"person\n{rows}".encode(), NAMED)
    assert [one.person for one in found] == ["ana-1"]
    assert wrong(table) == [
        (
            "fault",
            2,
            "person",
            "unknown_person",
            '"Reds: Anna" fits no row of rosters.csv.',
            "Did you mean Reds: Ana?",
        ),
        (
            "fault",
            3,
            "person",
            "unknown_person",
            '"Greens: Q" fits no row of rosters.csv.',
            "Write the team and the name as rosters.csv has them, or the person's code.",
        ),
        (
            "fault",
            4,
            "person",
            "ambiguous",
            '"Reds: Dia" fits 2 persons of rosters.csv.',
            "Write the code of the one that is meant: dia-1 or dia-2.",
        ),
        (
            "fault",
            5,
            "person",
            "ambiguous",
            '"Reds: Eva" fits 2 persons of rosters.csv.',
            "Write the code eva-1, or give the other row a code too.",
        ),
        (
            "fault",
            7,
            "person",
            "duplicate",
            '"Reds: Ana" stands on row 6 too.',
            "Take one out.",
        ),
    ]


def test_a_person_may_leave_everything_empty_and_be_a_member_of_several() -> None:
    rows = "ana-1,Woman,2027-06-30,varsity  Club club\nbo-2,,,\n"
    head = "person,gender,waiver_until,member_of\n"
    found, table = read_people((head + rows).encode(), PERSONS)
    assert table.faults == []
    assert found == (
        Person(
            person=PersonId("ana-1"),
            gender="woman",
            waiver_until=date(2027, 6, 30),
            member_of=("club", "varsity"),
        ),
        Person(person=PersonId("bo-2")),
    )


def test_every_fault_of_the_people_comes_at_once_and_one_who_left_is_a_doubt() -> None:
    rows = "ana-1,f,,\nbo-2,,30/06/27,\nana-1,,,varsty\nbo-2,,,\nbo-2,,,\nbo-3,,,\n90210,,,\n"
    head = "person,gender,waiver_until,member_of\n"
    found, table = read_people((head + rows).encode(), PERSONS)
    assert [one.person for one in found] == ["bo-2", "bo-3"]
    assert wrong(table) == [
        (
            "fault",
            2,
            "gender",
            "unknown_value",
            'gender is "f".',
            "Use one of: woman, man, other.",
        ),
        (
            "fault",
            3,
            "waiver_until",
            "ambiguous",
            'waiver_until is "30/06/27".',
            "Write a day such as 2026-09-15.",
        ),
        (
            "fault",
            4,
            "member_of",
            "unknown_value",
            'member_of is "varsty".',
            "Did you mean varsity? Put a space between two.",
        ),
        (
            "fault",
            8,
            "person",
            "private",
            "person looks like a student id.",
            "Import the roster, which makes a code of it, or give a code of your own.",
        ),
        ("fault", 6, "person", "duplicate", '"bo-2" stands on row 5 too.', "Take one out."),
        (
            "doubt",
            7,
            "person",
            "unknown_person",
            '"bo-3" is no person of rosters.csv.',
            "Did you mean bo-2?",
        ),
    ]


def test_a_block_at_the_gate_may_be_for_a_day_and_again_and_without_an_end() -> None:
    rows = "ana-1,2026-10-01,2026-10-01\nana-1,2026-11-01,\n"
    found, table = read_not_cleared(f"person,since,until\n{rows}".encode(), PERSONS)
    assert table.faults == []
    assert found == (
        NotCleared(person=PersonId("ana-1"), since=date(2026, 10, 1), until=date(2026, 10, 1)),
        NotCleared(person=PersonId("ana-1"), since=date(2026, 11, 1)),
    )


def test_every_fault_of_the_blocks_at_the_gate_comes_at_once() -> None:
    rows = "ana-1,2026-10-02,2026-10-01\nana-1,2026-10-02,\nana-9,2026-10-02,\n"
    assert wrong(read_not_cleared(f"person,since,until\n{rows}".encode(), PERSONS)[1]) == [
        (
            "fault",
            2,
            "until",
            "contradiction",
            "the block ends on 2026-10-01, before it starts on 2026-10-02.",
            "Mend one of the two days.",
        ),
        ("fault", 3, "person", "duplicate", '"ana-1" stands on row 2 too.', "Take one out."),
        (
            "doubt",
            4,
            "person",
            "unknown_person",
            '"ana-9" is no person of rosters.csv.',
            "Did you mean ana-1?",
        ),
    ]


@pytest.mark.parametrize("column", ["reason", "Why", "note", "comments"])
def test_a_block_at_the_gate_has_no_column_for_its_reason(column: str) -> None:
    with pytest.raises(InputFaults) as refused:
        read_not_cleared(f"person,since,{column}\nana-1,2026-10-01,x\n".encode(), PERSONS)
    assert refused.value.faults == (
        Fault(
            code="private",
            place=Place(file="not_cleared.csv", row=1),
            says=(
                f"column '{column.lower()}': reasons are kept elsewhere; the gate sees the "
                "block alone."
            ),
            cure="Take the column out, and delete copies of the file that have it.",
        ),
    )


def test_an_official_may_play_or_not_and_is_listed_once() -> None:
    rows = b"official,person\nAda,ana-1\nBen,\nCleo,ana-1\nADA,\n"
    found, table = read_officials(rows)
    assert found == (
        Official(official="Ada", person=PersonId("ana-1")),
        Official(official="Ben"),
    )
    assert wrong(table) == [
        ("fault", 4, "person", "duplicate", '"ana-1" stands on row 2 too.', "Take one out."),
        ("fault", 5, "official", "duplicate", '"ADA" stands on row 2 too.', "Take one out."),
    ]


RULED = "ruling,date,person,game,ruled,games,until,ref,why\n"


def test_a_decision_suspends_for_games_or_to_a_day_or_ends_a_suspension() -> None:
    rows = (
        "1,2026-10-01,ana-1,1,games,2,,H 12.1,A red.\n"
        "2,2026-10-02,ana-1,,until,,2026-10-02,H 12.1,Too little.\n"
        "4,2026-10-03,ana-1,,meeting_held,,,H 12.2,Met.\n"
        "3,2026-10-04,bo-2,P1,Lifted,,,H 12.2,Mistaken.\n"
    )
    found, table = read_discipline((RULED + rows).encode(), LEAGUE, GAMES, PERSONS)
    assert table.faults == []
    assert found[0] == Decision(
        number=1,
        day=date(2026, 10, 1),
        person=PersonId("ana-1"),
        game=GameId("1"),
        ruled="games",
        games=2,
        ref="H 12.1",
        why="A red.",
    )
    assert [(one.number, one.ruled, one.until) for one in found[1:]] == [
        (2, "until", date(2026, 10, 2)),
        (4, "meeting_held", None),
        (3, "lifted", None),
    ]


def test_every_fault_of_the_decisions_comes_at_once() -> None:
    rows = (
        "1,2026-10-01,ana-1,1,games,,2026-10-08,H,x\n"
        "1,2026-10-01,ana-1,,until,3,,H,x\n"
        "2,2026-10-02,ana-1,,until,,2026-10-01,H,x\n"
        "3,2026-10-02,ana-2,P2,lifted,,,H,x\n"
        "4,2030-10-02,ana-1,,lifted,,,H,x\n"
        "5,2026-10-02,ana-1,,banned,0,,,\n"
    )
    found, table = read_discipline((RULED + rows).encode(), LEAGUE, GAMES, PERSONS)
    assert found == ()
    assert [one[:4] for one in wrong(table)] == [
        ("fault", 7, "ruled", "unknown_value"),
        ("fault", 7, "games", "range"),
        ("fault", 7, "ref", "missing"),
        ("fault", 7, "why", "missing"),
        ("fault", 2, "games", "missing"),
        ("fault", 2, "until", "contradiction"),
        ("fault", 3, "ruling", "duplicate"),
        ("fault", 3, "games", "contradiction"),
        ("fault", 3, "until", "missing"),
        ("fault", 4, "until", "contradiction"),
        ("fault", 5, "game", "unknown_game"),
        ("doubt", 5, "person", "unknown_person"),
        ("fault", 6, "date", "range"),
    ]
    assert [one[4:] for one in wrong(table)][4:6] == [
        ("games is empty.", "Write the number of games."),
        ("until is given, but ruled is games.", "Leave it empty, or rule until."),
    ]
    assert [one[4:] for one in wrong(table)][9:12] == [
        (
            "the suspension ends on 2026-10-01, before it was ruled.",
            "Mend one of the two days.",
        ),
        ('"P2" is no game of timetable.csv or results.csv.', "Use one of: 1, P1."),
        ('"ana-2" is no person of rosters.csv.', "Did you mean ana-1?"),
    ]


LISTED = "team,name,person,id_end,added\n"
RULES = edition("laws-2025-26").roster


def test_a_roster_knows_persons_and_one_person_may_be_on_two_teams() -> None:
    rows = "Reds,Ana,ana-1,042,2026-09-03\nBlues,Ana B,ana-1,,\nReds,Ana,bo-2,042,\n"
    found, table = read_rosters((LISTED + rows).encode(), LEAGUE, RULES)
    assert table.faults == []
    assert found == {
        TeamId("Reds"): (
            Player(name="Ana", person=PersonId("ana-1"), id_end="042", added=date(2026, 9, 3)),
            Player(name="Ana", person=PersonId("bo-2"), id_end="042"),
        ),
        TeamId("Blues"): (Player(name="Ana B", person=PersonId("ana-1")),),
    }


def test_a_person_twice_on_one_roster_and_more_of_an_id_than_its_end_are_refused() -> None:
    rows = (
        "Reds,Ana,ana-1,,\nReds,Anna,ana-1,,\nReds,Bo,,42,\nReds,Cy,,90210,\n"
        "Reds,Di,90210,,\nReds,Ed,,,3 Sep\n"
    )
    table = read_rosters((LISTED + rows).encode(), LEAGUE, RULES)[1]
    end = "Keep the last three digits only, with the noughts at their start."
    assert wrong(table) == [
        ("fault", 4, "id_end", "type", 'id_end is "42".', end),
        ("fault", 5, "id_end", "private", "id_end looks like a student id.", end),
        (
            "fault",
            6,
            "person",
            "private",
            "person looks like a student id.",
            "Import the roster, which makes a code of it, or give a code of your own.",
        ),
        (
            "fault",
            7,
            "added",
            "date",
            'added is "3 Sep".',
            "Write a day such as 2026-09-15.",
        ),
        (
            "fault",
            3,
            "person",
            "duplicate",
            '"ana-1" stands on row 2 of Reds too.',
            "A team lists a person once; take one out.",
        ),
    ]
    assert not any("90210" in f"{one}{one.value}" for one in table.faults)
