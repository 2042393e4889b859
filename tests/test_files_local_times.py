"""A local time of a season names one moment, or is refused."""

from datetime import UTC
from zoneinfo import ZoneInfo

import pytest

from wholeball.files.local_times import moment_of
from wholeball.kernel.faults import WholeballError


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
        ("2026-11-01T01:30+14:01", "date"),
        ("tomorrow", "date"),
    ],
)
def test_a_local_time_that_comes_twice_or_never_is_no_moment(
    text: str, code: str | None
) -> None:
    """The clocks of New York change at 2:00 on these nights (IANA time zone database)."""
    zone = ZoneInfo("America/New_York")
    if code is None:
        assert moment_of(text, zone).at.tzinfo is UTC
        return
    with pytest.raises(WholeballError) as refused:
        moment_of(text, zone)
    assert refused.value.code == code
