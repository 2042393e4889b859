"""Two who write rosters of different teams at once are brought together; of one team, not."""

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from django.db import connection

from cases.stored import a_season, written_by
from wholeball.kernel.faults import WholeballError
from wholeball.store.models import Change, Season
from wholeball.store.record import DatabaseRecord

HEAD = b"team,number,name\n"
ROSTERS = HEAD + b"Ash,7,Noor Abernwy\nBay,4,Hoku Lindqvar\n"
MOST = 99_999


@pytest.fixture
def season() -> Season:
    made = a_season()
    written_by(made).write({"rosters.csv": ROSTERS, "key.txt": b"one\n"})
    return made


def adds(record: DatabaseRecord, row: str, **more: bytes) -> None:
    """Add a row behind what stands there now, as a list is added to a roster."""
    with record.held():
        stands = record.read("rosters.csv", MOST)
        others = {name.replace("_", "."): data for name, data in more.items()}
        record.write({"rosters.csv": stands + row.encode(), **others})


def stands(season: Season) -> list[str]:
    return written_by(season).read("rosters.csv", MOST).decode().splitlines()[1:]


@pytest.mark.django_db
def test_rows_of_other_teams_that_came_meanwhile_are_no_conflict(season: Season) -> None:
    first, second = written_by(season, version=1), written_by(season, version=1)
    adds(first, "Ash,8,Ines Vale\n", key_txt=b"two\n")
    adds(second, "Bay,5,Kim Oduya\n", key_txt=b"two\n")
    assert stands(season) == [
        "Ash,7,Noor Abernwy",
        "Bay,4,Hoku Lindqvar",
        "Ash,8,Ines Vale",
        "Bay,5,Kim Oduya",
    ]
    assert [one.version for one in Change.objects.filter(name="key.txt")] == [1, 2]


@pytest.mark.django_db
@pytest.mark.parametrize("row", ["Ash,9,Kim Oduya\n", "Bay,5,Kim Oduya\nAsh,9,Kim Oduya\n"])
def test_rows_of_the_same_team_that_came_meanwhile_are_a_conflict(
    season: Season, row: str
) -> None:
    adds(written_by(season, version=1), "Ash,8,Ines Vale\n")
    before = stands(season)
    with pytest.raises(WholeballError, match="changed while you worked on it") as refused:
        adds(written_by(season, version=1), row)
    assert (refused.value.code, stands(season)) == ("conflict", before)
    assert "Ines" not in str(refused.value)


@pytest.mark.django_db
def test_of_two_who_begin_one_file_the_second_is_told() -> None:
    made = a_season()
    first, second = written_by(made, version=0), written_by(made, version=0)
    first.write({"teams.csv": b"team\nAsh\n"})
    with pytest.raises(WholeballError) as refused:
        second.write({"teams.csv": b"team\nBay\n"})
    assert refused.value.code == "conflict"


@pytest.mark.django_db
def test_a_text_that_takes_out_what_came_meanwhile_is_a_conflict(season: Season) -> None:
    adds(written_by(season, version=1), "Ash,8,Ines Vale\n")
    before = stands(season)
    stale = ROSTERS + b"Bay,5,Kim Oduya\n"
    with pytest.raises(WholeballError) as refused:
        written_by(season, version=1).write({"rosters.csv": stale})
    assert (refused.value.code, stands(season)) == ("conflict", before)


@pytest.mark.django_db
def test_what_cannot_be_kept_beside_what_came_meanwhile_is_told_as_a_conflict(
    season: Season,
) -> None:
    adds(written_by(season, version=1), "Ash,8,Ines Vale\n")
    with pytest.raises(WholeballError) as refused:
        adds(written_by(season, version=1), "Ash,8,Kim Oduya\n")
    assert refused.value.code == "conflict"


@pytest.mark.django_db
def test_another_file_is_not_brought_together_though_its_rows_are_apart(
    season: Season,
) -> None:
    written_by(season).write({"teams.csv": b"team\nAsh\nBay\n"})
    written_by(season, version=2).write({"teams.csv": b"team\nAsh\nBay\nCedar\n"})
    with pytest.raises(WholeballError) as refused:
        written_by(season, version=2).write({"teams.csv": b"team\nAsh\nBay\nCedar\nDale\n"})
    assert refused.value.code == "conflict"


@pytest.mark.django_db(transaction=True)
def test_captains_of_two_teams_who_add_at_one_moment_both_succeed() -> None:
    season = a_season()
    written_by(season).write({"rosters.csv": ROSTERS})
    ready = Barrier(2)

    def add(row: str) -> str:
        try:
            record = written_by(season, version=1)
            ready.wait(10)
            adds(record, row)
        finally:
            connection.close()
        return row.strip()

    with ThreadPoolExecutor(2) as pool:
        added = list(pool.map(add, ("Ash,8,Ines Vale\n", "Bay,5,Kim Oduya\n")))
    assert sorted(stands(season)[2:]) == sorted(added)
