"""A timetable is read whole, or everything that is wrong with it is named at once."""

from datetime import date, time

import pytest

from wholeball.files.table import Table, write_table
from wholeball.files.timetable import COLUMNS, read_timetable
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.league.fixture import Fixture, of_night
from wholeball.league.league import League, Team
from wholeball.season.result import Result

LEAGUE = League(
    name="Lantern Hill",
    timezone="Europe/London",
    first_day=date(2026, 9, 1),
    last_day=date(2026, 12, 1),
    teams=tuple(
        Team(team=TeamId(name), pool=PoolId(pool))
        for name, pool in (("Reds", "A"), ("Blues", "A"), ("Zo\u00eb", "B"), ("Pinks", "B"))
    ),
)
HEAD = "game,round,date,start,field,home,away,stage\n"
ROW = "1,1,2026-10-13,19:05,Field 1,Reds,Blues,\n"
GAME = Fixture(
    game=GameId("1"),
    round=1,
    day=date(2026, 10, 13),
    start=time(19, 5),
    field="Field 1",
    home=TeamId("Reds"),
    away=TeamId("Blues"),
)


def read(
    data: bytes | str, played: tuple[Result, ...] = ()
) -> tuple[tuple[Fixture, ...], Table]:
    found, table = read_timetable(
        data.encode() if isinstance(data, str) else data, LEAGUE, played
    )
    return found.known, table


def faults(rows: str, played: tuple[Result, ...] = ()) -> list[tuple[int | None, str, str]]:
    found = read(HEAD + rows, played)[1].faults
    return [(one.place.row, f"{one.place.column}", one.code) for one in found]


@pytest.mark.parametrize(
    "data",
    [
        HEAD + ROW,
        "\ufeff" + HEAD + ROW,
        (HEAD + ROW).replace(",", ";"),
        (HEAD + ROW).replace("\n", "\r\n"),
        HEAD.replace(",stage", "") + ROW.replace(",\n", "\n"),
        HEAD + ROW.replace(",\n", ",League\n"),
    ],
)
def test_a_game_is_read_however_a_spreadsheet_writes_it(data: str) -> None:
    fixtures, table = read(data)
    assert (fixtures, table.faults) == ((GAME,), [])


def test_a_play_off_may_cross_pools_and_a_league_game_may_not() -> None:
    rows = (
        "1,1,2026-10-13,9:30,1,Reds,Zo\u00eb,play_off\n2,1,2026-10-14,19:00,1,Reds,Zo\u00eb,\n"
    )
    fixtures, table = read(HEAD + rows)
    assert [(one.stage, one.start) for one in fixtures] == [("play_off", time(9, 30))]
    assert table.faults == [
        Fault(
            code="pools",
            place=Place(file="timetable.csv", row=3, column="away"),
            says="Reds plays in pool A, Zo\u00eb in B.",
            value="Zo\u00eb",
            cure="Write play_off as its stage, or mend the teams or their pools.",
        )
    ]


@pytest.mark.parametrize(
    ("row", "column", "code"),
    [
        (ROW.replace("2026-10-13", "13/10/2026"), "date", "ambiguous"),
        (ROW.replace("19:05", "7 pm"), "start", "time"),
        (ROW.replace("19:05", "24:00"), "start", "time"),
        (ROW.replace("19:05", ""), "start", "missing"),
        (ROW.replace("Field 1", "=1+1"), "field", "formula"),
        (ROW.replace("Blues", "Blu"), "away", "unknown_team"),
        (ROW.replace("Blues", "Reds"), "away", "self"),
        (ROW.replace(",\n", ",cup\n"), "stage", "unknown_value"),
        (ROW.replace("1,1,", "1,0,"), "round", "range"),
        (ROW.replace("2026", "2025"), "date", "range"),
    ],
)
def test_each_mistake_in_a_row_gets_its_fault(row: str, column: str, code: str) -> None:
    assert (2, column, code) in faults(row)
    assert [one.level for one in read(HEAD + row)[1].faults][:1] == (
        ["doubt"] if (column, code) == ("date", "range") else ["fault"]
    )


def test_a_second_game_on_a_field_or_of_a_team_at_one_start_is_a_clash() -> None:
    other = "2,1,2026-10-13,19:05,field 1,Pinks,Zo\u00eb,\n"
    again = "3,2,2026-10-13,19:05,Field 2,Blues,Reds,\n"
    later = "4,2,2026-10-13,19:06,Field 1,Reds,Blues,\n"
    assert faults(ROW + other + again + later) == [
        (3, "field", "clash"),
        (4, "home", "clash"),
        (4, "away", "clash"),
    ]


def test_a_game_stands_once_and_has_the_sides_of_its_result() -> None:
    result = Result(
        game=GameId("1"), round=1, home=TeamId("Blues"), away=TeamId("Reds"), home_goals=1
    )
    rows = ROW + ROW.replace("13,", "14,")
    assert faults(rows) == [(3, "game", "duplicate")]
    found = read(HEAD + ROW, (result,))[1].faults
    assert [one.says for one in found] == [
        "game 1 is Reds v Blues here and Blues v Reds in results.csv."
    ]


def test_a_field_that_reads_like_a_formula_comes_back_as_it_was_written() -> None:
    cells = ["1", 1, "2026-10-13", "19:05", "=Field 1", "Reds", "Blues", None]
    written = write_table([column.name for column in COLUMNS], [cells])
    assert b"'=Field 1" in written
    assert read(written)[0][0].field == "=Field 1"


def test_a_header_without_what_is_needed_is_refused_with_every_column() -> None:
    with pytest.raises(InputFaults) as refused:
        read("game,round,when,home,away\n")
    assert [one.code for one in refused.value.faults] == [
        "unknown_column",
        "missing_column",
        "missing_column",
        "missing_column",
    ]


def test_a_night_is_in_the_order_of_starts_and_field_2_before_field_10() -> None:
    rows = (
        "1,1,2026-10-13,20:00,Field 1,Reds,Blues,\n"
        "2,1,2026-10-13,19:00,Field 10,Reds,Blues,\n"
        "3,1,2026-10-13,19:00,Field 2,Pinks,Zo\u00eb,\n"
        "4,1,2026-10-14,18:00,Field 1,Reds,Blues,\n"
    )
    fixtures, table = read(HEAD + rows)
    assert table.faults == []
    assert [one.game for one in of_night(fixtures, date(2026, 10, 13))] == ["3", "2", "1"]
