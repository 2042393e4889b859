"""A local time of a season names one moment, or is refused.

The clocks of New York change at 2:00 on the nights asked for here; before that Sunday of November
they are 4 hours behind UTC, after it 5 (IANA time zone database).
"""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from wholeball.files.local_times import Moment, moment_of
from wholeball.kernel.faults import WholeballError

NEW_YORK = ZoneInfo("America/New_York")


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
        ("2026-11-01T01:30+14:00", None),
        ("2026-11-01T01:30+14:01", "date"),
        ("tomorrow", "date"),
    ],
)
def test_a_local_time_that_comes_twice_or_never_is_no_moment(
    text: str, code: str | None
) -> None:
    if code is None:
        assert moment_of(text, NEW_YORK).at.tzinfo is UTC
        return
    with pytest.raises(WholeballError) as refused:
        moment_of(text, NEW_YORK)
    assert refused.value.code == code


@pytest.mark.parametrize(
    ("text", "hour", "minute", "is_assumed"),
    [
        ("2026-11-01 00:59", 4, 59, True),
        ("2026-11-01 02:00", 7, 0, True),
        ("2026-11-01T01:30-04:00", 5, 30, False),
        ("2026-11-01T01:30-05:00", 6, 30, False),
        ("2026-11-01T05:30Z", 5, 30, False),
        ("2026-11-01T18:30+14:00", 4, 30, False),
    ],
)
def test_a_local_time_is_of_the_zone_of_the_season_unless_it_says_its_own(
    text: str, hour: int, minute: int, *, is_assumed: bool
) -> None:
    at = datetime(2026, 11, 1, hour, minute, tzinfo=UTC)
    assert moment_of(text, NEW_YORK) == Moment(at, is_assumed=is_assumed)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "2026-11-01 01:30",
            (
                "2026-11-01 01:30 happens twice in America/New_York. Say which: "
                "2026-11-01T01:30-04:00 or 2026-11-01T01:30-05:00."
            ),
        ),
        (
            "2027-03-14 02:30",
            (
                "2027-03-14 02:30 does not happen in America/New_York. The clocks go forward that "
                "night: take a time outside the hour left out."
            ),
        ),
        (
            "2026-11-01T01:30-14:01",
            "2026-11-01T01:30-14:01 is no moment. No place is so far from UTC.",
        ),
        ("2026-11-31 01:30", "2026-11-31 01:30 is no moment. There is no such day or time."),
        ("01:30", "01:30 is no moment. Write it as 2026-09-01 18:30."),
    ],
)
def test_a_time_that_is_no_moment_is_told_with_what_can_be_said(text: str, told: str) -> None:
    with pytest.raises(WholeballError) as refused:
        moment_of(text, NEW_YORK)
    assert str(refused.value) == told
