"""Players are added all or none, ids are never kept, and a person is known by the id alone."""

import csv
import io
import threading
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.roster_season import GRAVEL, KITES, MOTHS, season_of_three
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.given_list import read_list
from wholeball.files.more_rows import with_rows
from wholeball.files.rosters import COLUMNS
from wholeball.files.student_ids import CHECK_FILE, IdKey
from wholeball.kernel.faults import Fault, InputFaults, WholeballError
from wholeball.kernel.identity import TeamId
from wholeball.league.player import Player
from wholeball.usecases.add_to_roster import Added, add_to_roster

KEY = IdKey(b"a key for tests, and for nothing else")
DAY = date(2026, 9, 2)
WIDE = "team,number,name,captain,person,id_end,added"
NARROW = "team,name,number,captain,person,id_end,added"
Add = Callable[..., Added]


@pytest.fixture
def season(tmp_path: Path) -> Path:
    """A season of three teams in two divisions."""
    return season_of_three(tmp_path / "season")


@pytest.fixture
def add(season: Path, tmp_path: Path) -> Add:
    """Return what adds rows of student_id, name, number and captain to a team."""

    def added(*rows: str, team: str = MOTHS, day: date = DAY, key: IdKey = KEY) -> Added:
        file = tmp_path / "list.csv"
        file.write_text("student_id,name,number,captain\n" + "".join(f"{r}\n" for r in rows))
        return add_to_roster(FolderRecord(season), read_list(file), team=team, key=key, day=day)

    return added


def refused(add: Add, *rows: str, team: str = MOTHS) -> tuple[Fault, ...]:
    with pytest.raises(InputFaults) as error:
        add(*rows, team=team)
    return error.value.faults


def told(faults: tuple[Fault, ...]) -> list[tuple[str, int | None, str | None]]:
    return [(one.code, one.place.row, one.place.column) for one in faults]


def change(folder: Path, old: str, new: str) -> None:
    book = folder / "rulebook.toml"
    text = book.read_text()
    assert old in text
    book.write_text(text.replace(old, new))


def test_a_player_stands_on_the_roster_with_a_code_and_no_id(season: Path, add: Add) -> None:
    add("00 4711 23,Ana Brandreth,7,yes", "ab-12345,Wim,,")
    assert read_folder(FolderRecord(season)).rosters[TeamId(MOTHS)] == (
        Player(
            name="Ana Brandreth",
            number=7,
            is_captain=True,
            person=KEY.code_of("00471123"),
            id_end="123",
            added=DAY,
        ),
        Player(name="Wim", person=KEY.code_of("ab-12345"), id_end="345", added=DAY),
    )
    kept = b"".join(file.read_bytes() for file in season.rglob("*") if file.is_file())
    assert b"4711" not in kept
    assert b"12345" not in kept


def test_the_same_list_again_changes_nothing_and_is_counted(season: Path, add: Add) -> None:
    add("0012,Ann,,", "0013,Bob,,")
    before = (season / "rosters.csv").read_bytes()
    again = add("00 12,Ann,,", "0013,Bob,,", day=date(2026, 10, 1))
    assert (again.new, again.already, again.players) == ((), 2, 2)
    assert again.remarks == ()
    assert (season / "rosters.csv").read_bytes() == before


def test_who_is_listed_with_another_name_stays_as_listed(add: Add) -> None:
    add("0012,Ann Lee,3,")
    again = add("0012,Ann L.,3,")
    assert (again.new, again.already) == ((), 1)
    assert [(one.level, one.code) for one in again.remarks] == [("note", "listed")]


def test_two_persons_of_one_name_are_both_taken_without_a_doubt(add: Add) -> None:
    assert add("1,Zoe\u0308,,", "2,Zo\u00eb,,").remarks == ()


def test_a_name_that_stands_without_a_code_is_doubted(season: Path, add: Add) -> None:
    (season / "rosters.csv").write_text(f"team,name\n{MOTHS},Ann\n")
    added = add("0012,ANN,,")
    assert [(one.level, one.code) for one in added.remarks] == [("doubt", "duplicate")]


def test_a_number_and_a_captain_are_had_once_a_team(season: Path, add: Add) -> None:
    add("1,Ann,7,yes")
    found = told(refused(add, "2,Bob,07,yes", "3,Cy,8,", "4,Di,8,"))
    assert found == [
        ("duplicate", 2, "number"),
        ("duplicate", 2, "captain"),
        ("duplicate", 4, "number"),
    ]
    assert [one.name for one in read_folder(FolderRecord(season)).rosters[TeamId(MOTHS)]] == [
        "Ann"
    ]


def test_the_fifteenth_player_is_taken_and_the_sixteenth_finds_the_roster_full(
    add: Add,
) -> None:
    add(*(f"{number},Ann,," for number in range(100, 114)))
    assert told(refused(add, "200,Bob,,", "201,Cy,,")) == [("full", 3, "student_id")]
    assert add("200,Bob,,").players == 15
    assert told(refused(add, "201,Cy,,")) == [("full", 2, "student_id")]


def test_a_person_on_two_teams_of_a_division_is_refused_with_both_and_the_day(
    add: Add,
) -> None:
    add("0012,Ann,,")
    (fault,) = refused(add, "0013,Bob,,", "0012,Ann,,", team=GRAVEL)
    assert (fault.code, fault.place.row) == ("eligibility", 3)
    assert MOTHS in fault.says
    assert GRAVEL in fault.says
    assert "since 2026-09-02" in fault.says
    assert "H 3.1" in fault.cure


def test_an_id_that_is_anothers_elsewhere_is_told_as_that_and_never_as_nothing_to_do(
    season: Path, add: Add
) -> None:
    add("0012,Cal Thorn,,")
    (fault,) = refused(add, "0012,Lea Dunn,,", team=GRAVEL)
    assert fault.says.startswith(
        f'"Lea Dunn" has the id of "Cal Thorn", who is on the roster of {MOTHS}'
    )
    assert fault.cure.startswith("If they are two people, mend the id.")
    change(season, "teams_each = 1\n", "teams_each = 2\n")
    (doubt,) = add("0012,Lea Dunn,,", team=GRAVEL).remarks
    assert (doubt.level, doubt.says) == ("doubt", fault.says)
    assert "Nothing to do" not in doubt.cure


def test_what_no_roster_can_have_is_told_beside_what_this_one_cannot(add: Add) -> None:
    assert told(refused(add, "0012,Ann,7,", "0013,,,", "0014,Bob,7,")) == [
        ("missing", 3, "name"),
        ("duplicate", 4, "number"),
    ]


def test_another_division_does_not_count_where_the_rulebook_counts_in_one(add: Add) -> None:
    add("0012,Ann,,")
    assert add("0012,Ann,,", team=KITES).remarks == ()


def test_another_division_counts_where_the_rulebook_counts_in_the_league(
    season: Path, add: Add
) -> None:
    change(season, 'teams_each_in = "division"', 'teams_each_in = "league"')
    add("0012,Ann,,")
    assert told(refused(add, "0012,Ann,,", team=KITES)) == [("eligibility", 2, "student_id")]


def test_a_second_team_is_noted_where_two_are_allowed_and_a_third_refused(
    season: Path, add: Add
) -> None:
    change(season, "teams_each = 1", "teams_each = 2")
    change(season, 'teams_each_in = "division"', 'teams_each_in = "league"')
    add("0012,Ann,,")
    second = add("0012,Ann,,", team=GRAVEL)
    assert [(one.level, one.code) for one in second.remarks] == [("note", "eligibility")]
    assert told(refused(add, "0012,Ann,,", team=KITES)) == [("eligibility", 2, "student_id")]


def test_another_key_is_refused_rather_than_everybody_taken_for_new(add: Add) -> None:
    add("0012,Ann,,")
    with pytest.raises(WholeballError) as error:
        add("0012,Ann,,", key=IdKey(b"some other key, just as long"))
    assert error.value.code == "key"


def test_codes_of_which_no_key_is_told_are_doubted(season: Path, add: Add) -> None:
    add("0012,Ann,,")
    (season / CHECK_FILE).unlink()
    assert [(one.level, one.code) for one in add("0012,Ann,,").remarks] == [("doubt", "key")]


def test_an_unknown_team_is_refused_with_the_one_meant(add: Add) -> None:
    with pytest.raises(WholeballError, match="Did you mean Paper Moths") as error:
        add("0012,Ann,,", team="Paper Moth")
    assert error.value.code == "unknown_team"


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("team,name\nLoose Gravel,Old\n", f"{NARROW}\nLoose Gravel,Old,,,,,\n"),
        (
            '\ufeffName;Team\r\n\r\n"O;ld";Loose Gravel',
            '\ufeffName;Team;number;captain;person;id_end;added\r\n\r\n"O;ld";Loose Gravel;;;;;\r\n',
        ),
        (f"{WIDE}\nLoose Gravel, 07 ,'-Old,,,,\n\n",) * 2,
    ],
)
def test_rows_that_stand_there_stay_byte_for_byte(
    season: Path, add: Add, before: str, after: str
) -> None:
    (season / "rosters.csv").write_bytes(before.encode())
    add("00471123,Ana,,")
    written = (season / "rosters.csv").read_bytes().decode()
    assert written.startswith(after)
    rosters = read_folder(FolderRecord(season)).rosters
    assert [one.name for one in rosters[TeamId(MOTHS)]] == ["Ana"]
    assert len(rosters[TeamId(GRAVEL)]) == 1


NAMES = st.text(min_size=1, max_size=20).filter(lambda name: "\x00" not in name)


@given(st.lists(st.tuples(NAMES, NAMES), max_size=5))
def test_rows_are_written_as_a_writer_of_csv_writes_them(rows: list[tuple[str, str]]) -> None:
    cells = [(team, "", name, "", "code", "123", "2026-09-02") for team, name in rows]
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(cells)
    assert (
        with_rows(b"", cells, columns=COLUMNS).decode("utf-8", "surrogatepass")
        == f"{WIDE}\n{out.getvalue()}"
    )


def test_two_who_add_at_once_follow_one_another(season: Path, tmp_path: Path, add: Add) -> None:
    """Two captains and one place: exactly one gets it."""
    add(*(f"{number},Ann,," for number in range(100, 114)))
    ended: list[str] = []

    def one(name: str) -> None:
        file = tmp_path / f"{name}.csv"
        file.write_text(f"student_id,name\n{name},{name}\n")
        try:
            add_to_roster(FolderRecord(season), read_list(file), team=MOTHS, key=KEY, day=DAY)
            ended.append("added")
        except InputFaults as error:
            ended.append(error.code)

    threads = [threading.Thread(target=one, args=(name,)) for name in ("Ann", "Bob")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(ended) == ["added", "full"]
    assert len(read_folder(FolderRecord(season)).rosters[TeamId(MOTHS)]) == 15
