"""A row of bracket.csv says who stands on a seed; every fault of a draw is named."""

from wholeball.files.bracket import read_brackets
from wholeball.files.row_faults import Known
from wholeball.kernel.identity import TeamId


def test_a_draw_may_be_in_any_order_and_of_several_brackets() -> None:
    teams = Known(("Reds", "Blues", "Pinks"), "Use a name of teams.csv.")
    data = b"seed,team,bracket\n2,Reds,Gold\n1,Pinks,\n1,Blues,Gold\n"
    brackets, table = read_brackets(data, teams)
    assert table.faults == []
    assert brackets == {"Gold": (TeamId("Blues"), TeamId("Reds")), "": (TeamId("Pinks"),)}


def test_a_bracket_begins_with_seed_1_whatever_another_has() -> None:
    teams = Known(("Reds", "Blues"), "Use a name of teams.csv.")
    table = read_brackets(b"seed,team,bracket\n1,Reds,Gold\n2,Blues,Silver\n", teams)[1]
    assert [(one.place.row, one.code, one.says) for one in table.faults] == [
        (3, "missing", "seed 2 is given, and seed 1 is not.")
    ]


def test_every_fault_of_a_draw_comes_at_once() -> None:
    teams = Known(("Reds", "Blues", "Pinks"), "Use a name of teams.csv.")
    data = b"seed,team\n1,Reds\n1,Blues\n3,Pinks\n4,Reds\n0,Blues\n6,Bleus\n"
    table = read_brackets(data, teams)[1]
    assert [
        (one.place.row, one.place.column, one.code, one.says, one.cure) for one in table.faults
    ] == [
        (6, "seed", "range", 'seed is "0".', "Give 1 to 256."),
        (3, "seed", "duplicate", '"1" stands on row 2 too.', "Take one out."),
        (5, "team", "duplicate", '"Reds" stands on row 2 too.', "Take one out."),
        (
            7,
            "team",
            "unknown_team",
            '"Bleus" is no team of teams.csv.',
            "Did you mean Blues?",
        ),
        (
            4,
            "seed",
            "missing",
            "seed 3 is given, and seed 2 is not.",
            "Seeds count from 1 without a gap.",
        ),
        (
            7,
            "seed",
            "missing",
            "seed 6 is given, and seed 5 is not.",
            "Seeds count from 1 without a gap.",
        ),
    ]
