"""The rows of slots.csv are cut into slots, and what is wrong with them is told."""

import itertools
from datetime import date, time, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.planned_season import SEASON, SLOTS_HEAD, faults_of, told, write_folder
from cases.tiny_season import MONDAY
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.slots import Ground, read_slots
from wholeball.kernel.identity import PoolId, SiteId, TeamId
from wholeball.league.league import League, Team
from wholeball.planning.problem import Slot


def test_slots_are_cut_from_the_start_to_the_earliest_end(tmp_path: Path) -> None:
    """Forty minutes, a break of five, ten of turnover: three slots until nine, one left over."""
    slots = read_folder(FolderRecord(write_folder(tmp_path))).planning.slots
    assert [one.at for one in slots if one.night == MONDAY] == [
        time(18),
        time(18, 55),
        time(19, 50),
    ]
    assert slots[0] == Slot(
        field="Meadow 1", site=SiteId("Meadow"), night=MONDAY, at=time(18), minutes=55
    )
    second = [one for one in slots if one.field == "Meadow 2"]
    assert {one.night for one in second} == {MONDAY + timedelta(days=n) for n in (7, 14, 21)}
    assert [one.at for one in second[:2]] == [time(18), time(19)]
    assert len(second) == 6


@pytest.mark.parametrize(
    ("row", "code", "says"),
    [
        ("Meadow 1,monday,,,,18:00,18:54,,,", "too_short", "needs 55 minutes, and until is 18:54."),
        ("Meadow 1,monday,,,,18:00,,18:54,,", "too_short", "and lights_off is 18:54."),
        ("Meadow 1,monday,,,,18:00,,,18:54,", "too_short", "and permit_until is 18:54."),
        ("Meadow 1,monday,,,,18:00,21:00,,,54", "too_short", "a slot has 54 minutes;"),
        ("Meadow 1,monday,,,,18:00,,,,", "missing", "does not say until when"),
        ("Meadow 1,,,,,18:00,21:00,,,", "missing", "the row names no day."),
        ("Meadow 1,monday,2027-01-04,,,18:00,21:00,,,", "contradiction", "a weekday and a date"),
        ("Meadow 1,,2027-01-04,2027-01-04,,18:00,21:00,,,", "contradiction", "for a weekday."),
        ("Meadow 1,monday,,2027-01-11,2027-01-04,18:00,21:00,,,", "contradiction", "is before"),
        ("Meadow 1,monday,,2027-01-05,2027-01-06,18:00,21:00,,,", "range", "no such day"),
        ("Meadow 1,monday,,,,18:00,17:00,,,", "contradiction", "until is 17:00, and the row"),
        ("Meadow 9,monday,,,,18:00,21:00,,,", "unknown_field", '"Meadow 9" is no field'),
        ("Meadow 1,,2028-03-01,,,18:00,21:00,,,", "range", "is outside the season"),
        ("Meadow 1,mondy,,,,18:00,21:00,,,", "unknown_value", 'weekday is "mondy".'),
    ],
)  # fmt: skip
def test_a_row_into_which_no_game_fits_is_told(
    tmp_path: Path, row: str, code: str, says: str
) -> None:
    (fault,) = faults_of(tmp_path, slots_csv=f"{SLOTS_HEAD}{row}\n")
    assert (fault.code, fault.place.file, fault.place.row) == (code, "slots.csv", 2)
    assert says in fault.says


@pytest.mark.parametrize(("begins", "is_clash"), [("18:55", False), ("18:54", True)])
def test_slots_of_one_field_that_overlap_are_told_with_both_rows(
    tmp_path: Path, begins: str, *, is_clash: bool
) -> None:
    rows = (
        "Meadow 1,,2027-01-04,,,18:00,19:00,,,\n"
        f"Meadow 1,,2027-01-04,,,{begins},20:00,,,\n"
        "Meadow 2,,2027-01-04,,,18:10,20:00,,,\n"
    )
    if not is_clash:
        read = read_folder(FolderRecord(write_folder(tmp_path, slots_csv=SLOTS_HEAD + rows)))
        assert len(read.planning.slots) == 4
        return
    assert told(faults_of(tmp_path, slots_csv=SLOTS_HEAD + rows)) == [
        (
            "clash",
            "slots.csv row 3, column from",
            (
                "Meadow 1 has a slot on Monday 4 January from 18:00 to 18:55, and another begins at "
                "18:54 (rows 2 and 3)."
            ),
        )
    ]


@pytest.mark.parametrize(
    ("night", "begins", "ends", "code"),
    [
        ("2026-11-01", "00:05", "01:00", "ambiguous"),
        ("2026-11-01", "00:00", "00:55", None),
        ("2027-03-14", "02:30", "03:25", "nonexistent"),
        ("2027-03-14", "03:00", "03:55", None),
    ],
)
def test_a_slot_at_a_time_that_comes_twice_or_never_is_refused(
    tmp_path: Path, night: str, begins: str, ends: str, code: str | None
) -> None:
    season = SEASON.replace("2027-01-04", "2026-10-01").replace("2027-02-14", "2027-04-01")
    row = f"Meadow 1,,{night},,,{begins},{ends},,,\n"
    if code is None:
        folder = write_folder(tmp_path, season_toml=season, slots_csv=SLOTS_HEAD + row)
        assert len(read_folder(FolderRecord(folder)).planning.slots) == 1
        return
    (fault,) = faults_of(tmp_path, season_toml=season, slots_csv=SLOTS_HEAD + row)
    assert (fault.code, fault.place.row) == (code, 2)


def test_lights_that_go_off_before_the_row_ends_are_a_doubt(tmp_path: Path) -> None:
    row = "Meadow 1,monday,,,,18:00,22:00,21:00,,\n"
    (doubt,) = read_folder(
        FolderRecord(write_folder(tmp_path, slots_csv=SLOTS_HEAD + row))
    ).remarks
    assert (doubt.code, doubt.level) == ("contradiction", "doubt")
    assert "lights_off 21:00: what is later is not used." in doubt.says


LEAGUE = League(
    name="L",
    timezone="America/New_York",
    first_day=date(2027, 1, 4),
    last_day=date(2027, 3, 21),
    teams=(Team(team=TeamId("Ash"), pool=PoolId("A")),),
)


@settings(deadline=None)
@given(
    st.integers(0, 23 * 60),
    st.integers(1, 400),
    st.integers(1, 200),
    st.sampled_from(("monday", "sunday")),
)
def test_slots_never_overlap_nor_reach_past_the_end(
    begins: int, lasts: int, minutes: int, weekday: str
) -> None:
    ends = min(begins + lasts, 23 * 60 + 59)
    row = f"F,{weekday},{begins // 60}:{begins % 60:02},{ends // 60}:{ends % 60:02},{minutes}\n"
    data = f"field,weekday,from,until,minutes\n{row}".encode()
    slots, table = read_slots(data, Ground(league=LEAGUE, fields=None, sites={}, minutes=1))
    told_ = {fault.code for fault in table.faults}
    assert told_ <= {"too_short", "ambiguous", "nonexistent"}
    for one, other in itertools.pairwise(slots):
        assert (one.night, one.ends.time()) <= (other.night, other.at)
    assert all(slot.ends.time() <= time(ends // 60, ends % 60) for slot in slots)
    assert bool(slots) == (ends - begins >= minutes)
