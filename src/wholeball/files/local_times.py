"""Reads local times, and finds those that a night on which the clocks change has twice or never."""

import re
from datetime import UTC, date, datetime, time, timedelta
from typing import Final, Literal, NamedTuple, TypeAlias
from zoneinfo import ZoneInfo

from wholeball.kernel.faults import WholeballError

Odd: TypeAlias = Literal["ambiguous", "nonexistent"]
CURES: Final[dict[Odd, str]] = {
    "ambiguous": "The clocks go back that night: take a time outside the hour that comes twice.",
    "nonexistent": "The clocks go forward that night: take a time outside the hour left out.",
}
SAYS: Final[dict[Odd, str]] = {
    "ambiguous": "happens twice",
    "nonexistent": "does not happen",
}
_MOMENT: Final = re.compile(
    r"(?P<local>[0-9]{4}-[0-9]{2}-[0-9]{2}[ T][0-9]{2}:[0-9]{2})"
    r"(?P<offset>Z|[+-][0-9]{2}:[0-9]{2})?"
)
_MINUTES: Final = "minutes"
_FURTHEST: Final = timedelta(hours=14)
"""How far the local time of any place is from UTC at most."""


class Moment(NamedTuple):
    """A moment, and whether the season's zone had to be assumed for it."""

    at: datetime
    is_assumed: bool


def odd(zone: ZoneInfo, day: date, at: time) -> Odd | None:
    """Tell whether a local time happens twice or not at all, as the zone's clocks change."""
    local = datetime.combine(day, at, zone)
    if local.utcoffset() == local.replace(fold=1).utcoffset():
        return None
    back = local.astimezone(UTC).astimezone(zone)
    return (
        "ambiguous" if back.replace(tzinfo=None) == datetime.combine(day, at) else "nonexistent"
    )


def moment_of(text: str, zone: ZoneInfo) -> Moment:
    """Return the moment that a day and a time stand for, in the season's zone or their own.

    Raises:
        WholeballError: it is none, or the clocks make two of it; the code says which.
    """
    found = _MOMENT.fullmatch(text)
    if found is None:
        raise _refused(text, "is no moment", "date", "Write it as 2026-09-01 18:30.")
    try:
        local = datetime.fromisoformat(found["local"])
        offset = None if found["offset"] is None else datetime.fromisoformat(text).utcoffset()
    except ValueError as error:
        raise _refused(text, "is no moment", "date", "There is no such day or time.") from error
    if offset is not None:
        if abs(offset) > _FURTHEST:
            raise _refused(text, "is no moment", "date", "No place is so far from UTC.")
        return Moment((local - offset).replace(tzinfo=UTC), is_assumed=False)
    wrong = odd(zone, local.date(), local.time())
    if wrong is not None:
        first, second = (local.replace(tzinfo=zone, fold=fold) for fold in (0, 1))
        cure = (
            f"Say which: {first.isoformat(timespec=_MINUTES)} or {second.isoformat(timespec=_MINUTES)}."
            if wrong == "ambiguous"
            else CURES[wrong]
        )
        raise _refused(text, f"{SAYS[wrong]} in {zone.key}", wrong, cure)
    return Moment(local.replace(tzinfo=zone).astimezone(UTC), is_assumed=True)


def _refused(text: str, says: str, code: str, cure: str) -> WholeballError:
    return WholeballError(f"{text} {says}.", fix=cure, code=code)
