"""Divisions, blocks, teams and sign-ups are read whole, or all that is wrong is named at once."""

from datetime import datetime, time

import pytest

from cases.table_faults import wrong
from wholeball.files.alone import read_alone
from wholeball.files.blocks import read_blocks
from wholeball.files.divisions import read_divisions
from wholeball.files.row_faults import Known
from wholeball.files.sign_ups import read_sign_ups
from wholeball.files.teams import read_teams
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.identity import BlockId, DivisionId, PersonId, PoolId, TeamId
from wholeball.league.division import Block, Division
from wholeball.league.league import Team
from wholeball.league.sign_up import Alone, SignUp

GOLD, SILVER = DivisionId("Gold"), DivisionId("Silver")
DIVISIONS = (Division(division=GOLD, league="Tuesday"), Division(division=SILVER, league="T"))
TUESDAY = Block(
    block=BlockId("Tue"),
    division=GOLD,
    weekday="tuesday",
    opens=time(19),
    closes=time(22),
    places=2,
)
BLOCKS = (TUESDAY,)
KNOWN_DIVISIONS = Known(("Gold", "Silver"), "Use a name of divisions.csv.")
KNOWN_BLOCKS = Known(("Tue", "Wed"), "Use a name of blocks.csv.")


def test_a_division_is_of_the_season_and_open_unless_it_says_otherwise() -> None:
    data = b"division,league,level,kind\nGold,,Competitive,\nSilver,Tuesday,,Women\n"
    found, table = read_divisions(data, "Lantern Hill")
    assert table.faults == []
    assert found == (
        Division(division=GOLD, league="Lantern Hill", level="Competitive"),
        Division(division=SILVER, league="Tuesday", kind="women"),
    )


def test_every_fault_of_the_divisions_comes_at_once() -> None:
    data = b"division,kind\nGold,open\ngold,open\nSilver,ladies\n,men\n"
    assert [one[:4] for one in wrong(read_divisions(data, "x")[1])] == [
        ("fault", 4, "kind", "unknown_value"),
        ("fault", 5, "division", "missing"),
        ("fault", 3, "division", "duplicate"),
    ]


HEAD = "block,division,weekday,from,until,places\n"


def test_a_block_is_a_weekday_and_a_window_with_places() -> None:
    row = "Tue,Gold,Tuesday,19:00,22:00,2\n"
    assert read_blocks((HEAD + row).encode(), KNOWN_DIVISIONS)[0] == (TUESDAY,)


def test_a_block_of_a_minute_is_read_and_every_fault_of_others_comes_at_once() -> None:
    rows = (
        "Short,Gold,friday,19:00,19:01,1\nTue,Glod,Tuesday,22:00,22:00,1\n"
        "tue,Gold,tuesday,19:00,20:00,1\n"
        "Wed,Gold,wensday,7pm,22:00,0\n"
    )
    found, table = read_blocks((HEAD + rows).encode(), KNOWN_DIVISIONS)
    assert [one.block for one in found] == ["Short"]
    assert wrong(table)[:3] == [
        (
            "fault",
            5,
            "weekday",
            "unknown_value",
            'weekday is "wensday".',
            "Did you mean wednesday?",
        ),
        (
            "fault",
            5,
            "from",
            "time",
            'from is "7pm".',
            "Write a time such as 19:05, on the 24-hour clock.",
        ),
        ("fault", 5, "places", "range", 'places is "0".', "Give 1 to 99."),
    ]
    assert wrong(table)[3:] == [
        (
            "fault",
            3,
            "division",
            "unknown_division",
            '"Glod" is no division of divisions.csv.',
            "Did you mean Gold?",
        ),
        (
            "fault",
            3,
            "until",
            "contradiction",
            "the block is from 22:00 until 22:00.",
            "A block ends later on the same day.",
        ),
        ("fault", 4, "block", "duplicate", '"tue" stands on row 3 too.', "Take one out."),
    ]


def test_nothing_is_said_of_divisions_that_cannot_be_read() -> None:
    row = "Tue,Glod,Tuesday,19:00,22:00,2\n"
    assert read_blocks((HEAD + row).encode(), None)[1].faults == []


def test_a_team_takes_the_division_of_its_block_and_the_pool_of_its_division() -> None:
    data = b"team,pool,division,block\nReds,,,Tue\nBlues,P,Silver,\nPinks,,Silver,\n"
    found, table = read_teams(data, DIVISIONS, BLOCKS)
    assert table.faults == []
    assert found == (
        Team(team=TeamId("Reds"), pool=PoolId("Gold"), division=GOLD, block=BlockId("Tue")),
        Team(team=TeamId("Blues"), pool=PoolId("P"), division=SILVER),
        Team(team=TeamId("Pinks"), pool=PoolId("Silver"), division=SILVER),
    )


def test_teams_of_a_pool_are_of_one_division_and_of_their_block() -> None:
    data = (
        b"team,pool,division,block\nReds,A,Gold,Tue\nBlues,A,Silver,\nPinks,A,,\n"
        b"Greens,B,Silver,Tue\nGreys,B,Sliver,\nWhites,B,Silver,Thu\n"
    )
    found, table = read_teams(data, DIVISIONS, BLOCKS)
    assert len(found) == 6
    cure = "Teams of a pool are of one division: mend it, or name another pool."
    assert wrong(table) == [
        (
            "fault",
            3,
            "pool",
            "contradiction",
            "pool A is of division Gold on row 2, and of division Silver here.",
            cure,
        ),
        (
            "fault",
            4,
            "pool",
            "contradiction",
            "pool A is of division Gold on row 2, and of no division here.",
            cure,
        ),
        (
            "fault",
            5,
            "block",
            "contradiction",
            "block Tue is of division Gold, the team of Silver.",
            "Mend the block, or the division.",
        ),
        (
            "fault",
            6,
            "division",
            "unknown_division",
            '"Sliver" is no division of divisions.csv.',
            "Did you mean Silver?",
        ),
        (
            "fault",
            7,
            "block",
            "unknown_block",
            '"Thu" is no block of blocks.csv.',
            "Did you mean Tue?",
        ),
    ]


def test_a_third_team_in_a_block_for_two_is_a_doubt_and_the_second_is_none() -> None:
    rows = b"team,block\nReds,Tue\nBlues,Tue\n"
    assert read_teams(rows, DIVISIONS, BLOCKS)[1].faults == []
    found, table = read_teams(rows + b"Pinks,Tue\nGreys,Tue\n", DIVISIONS, BLOCKS)
    assert len(found) == 4
    assert wrong(table) == [
        (
            "doubt",
            4,
            "block",
            "limits",
            "block Tue has 2 places, and this team is one too many.",
            "Give it another block, or mend its places in blocks.csv.",
        )
    ]


@pytest.mark.parametrize(
    "name", ["seed 3", "Winner of P1", "LOSER OF the cup", "Seed 1 of Gold"]
)
def test_a_team_is_not_named_like_a_side_still_to_be_known(name: str) -> None:
    assert wrong(read_teams(f"team\n{name}\n".encode())[1]) == [
        (
            "fault",
            2,
            "team",
            "ambiguous",
            f'"{name}" reads like a side of a play-off game still to be known.',
            "Give the team another name.",
        )
    ]


@pytest.mark.parametrize("name", ["Seeds 3", "Top Seed", "Winners of P1", "seed three"])
def test_a_team_may_be_named_nearly_like_one(name: str) -> None:
    assert read_teams(f"team\n{name}\n".encode())[1].faults == []


SIGNED = "team,block,at,captain,players,colours,second_colours\n"


def test_a_team_signs_up_for_a_block_before_it_is_in_any_pool() -> None:
    rows = "Reds,Tue,2026-08-20 09:05,Ana,11,red,white\nBlues,Wed,2026-08-20T23:59,,,,\n"
    found, table = read_sign_ups((SIGNED + rows).encode(), KNOWN_BLOCKS)
    assert table.faults == []
    assert found == (
        SignUp(
            team=TeamId("Reds"),
            block=BlockId("Tue"),
            at=datetime(2026, 8, 20, 9, 5),  # noqa: DTZ001 - local time, as the folder has it
            captain="Ana",
            players=11,
            colours="red",
            second_colours="white",
        ),
        SignUp(
            team=TeamId("Blues"),
            block=BlockId("Wed"),
            at=datetime(2026, 8, 20, 23, 59),  # noqa: DTZ001 - local time
        ),
    )


def test_every_fault_of_the_sign_ups_comes_at_once_and_a_second_block_is_a_doubt() -> None:
    rows = (
        "Reds,Tue,2026-08-20 09:05,,,,\nreds,Tue,2026-08-21 09:05,,,,\n"
        "Reds,Wed,2026-08-22 09:05,,,,\nBlues,Thu,2026-08-22 09:05,,,,\n"
        "Pinks,Tue,20/08/2026 9am,,,,\nGreys,Tue,2026-08-20 24:00,,100,,\n"
    )
    found, table = read_sign_ups((SIGNED + rows).encode(), KNOWN_BLOCKS)
    assert [(one.team, one.block) for one in found] == [("Reds", "Tue"), ("Reds", "Wed")]
    when = "a day and a time such as 2026-08-20 09:05"
    assert wrong(table) == [
        ("fault", 6, "at", "date", 'at is "20/08/2026 9am".', f"Write {when}."),
        (
            "fault",
            7,
            "at",
            "date",
            'at is "2026-08-20 24:00".',
            "There is no such day or time.",
        ),
        ("fault", 7, "players", "range", 'players is "100".', "Give 0 to 99."),
        ("fault", 3, "team", "duplicate", '"reds" stands on row 2 too.', "Take one out."),
        (
            "doubt",
            4,
            "team",
            "duplicate",
            '"Reds" asks for another block on row 2.',
            "Take one out, or give the teams names that differ if they are two.",
        ),
        (
            "fault",
            5,
            "block",
            "unknown_block",
            '"Thu" is no block of blocks.csv.',
            "Did you mean Tue?",
        ),
    ]


ALONE = "person,name,block,at\n"


def test_a_player_alone_may_ask_for_two_blocks_and_not_for_one_twice() -> None:
    rows = (
        "k-7,Ana,Tue,2026-08-20 09:05\nk-7,Ana,Wed,2026-08-20 09:06\n"
        "k-7,Ana,Tue,2026-08-20 09:07\n"
    )
    found, table = read_alone((ALONE + rows).encode(), KNOWN_BLOCKS)
    assert found[0] == Alone(
        person=PersonId("k-7"),
        name="Ana",
        block=BlockId("Tue"),
        at=datetime(2026, 8, 20, 9, 5),  # noqa: DTZ001 - local time
    )
    assert len(found) == 2
    assert wrong(table) == [
        ("fault", 4, "person", "duplicate", '"k-7" stands on row 2 too.', "Take one out.")
    ]


@pytest.mark.parametrize("code", ["30291", "3029 1", "302-914-7"])
def test_a_code_of_five_digits_is_taken_for_a_student_id_and_never_repeated(code: str) -> None:
    data = f"{ALONE}{code},Ana,Tue,2026-08-20 09:05\n".encode()
    assert read_alone(data, KNOWN_BLOCKS)[1].faults == [
        Fault(
            code="private",
            place=Place(file="alone.csv", row=2, column="person"),
            says="person looks like a student id.",
            allowed="a code that is no student id",
            cure="Import the roster, which makes a code of it, or give a code of your own.",
        )
    ]


@pytest.mark.parametrize("code", ["3029", "a30291", "9f86d081884c7d65", "Reds: Ana"])
def test_four_digits_a_digest_and_a_name_on_a_team_are_codes(code: str) -> None:
    data = f"{ALONE}{code},Ana,Tue,2026-08-20 09:05\n".encode()
    assert [one.person for one in read_alone(data, KNOWN_BLOCKS)[0]] == [code]


def test_a_column_of_student_ids_is_refused_wherever_people_are_listed() -> None:
    with pytest.raises(InputFaults) as refused:
        read_alone(b"person,name,block,at,student_id\n", KNOWN_BLOCKS)
    assert [one.code for one in refused.value.faults] == ["private"]
