"""Says what of a season's places is closed from now on, after what has happened to it."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, datetime, timedelta

from wholeball.files.closures_write import Lost
from wholeball.planning.problem import Slot, TimetableProblem
from wholeball.solvers.timetable.changes import Change, LostField, LostNight, LostSite


def lost_places(
    problem: TimetableProblem, changes: Iterable[Change], *, now: datetime
) -> tuple[Lost, ...]:
    """Return what closures are to say, once each; what is closed already is not said again.

    `now` is in local time: games that have begun, or have a result, keep their places.
    """
    return tuple(
        dict.fromkeys(lost for change in changes for lost in _lost(problem, change, now))
    )


def _lost(problem: TimetableProblem, change: Change, now: datetime) -> Iterator[Lost]:
    played = {(lock.start, lock.field) for lock in problem.locks if lock.why == "played"}
    match change:
        case LostNight(night=night):
            whole = Lost(first=night, last=night)
            here = [one for one in problem.slots if one.night == night]
        case LostSite(site=site, night=on):
            first, last = _days(problem, on, now)
            whole = Lost(first=first, last=last, site=f"{site}")
            here = [one for one in problem.slots if one.site == site]
        case LostField(field=field, night=on):
            first, last = _days(problem, on, now)
            whole = Lost(first=first, last=last, field=field)
            here = [one for one in problem.slots if one.field == field]
        case _:
            return
    here = [
        one
        for one in here
        if whole.first <= one.night <= whole.last and (one.start, one.field) not in played
    ]
    yield from _rows(whole, here, now)


def _days(problem: TimetableProblem, on: date | None, now: datetime) -> tuple[date, date]:
    """Return the night, or all days of the season from today on."""
    if on is not None:
        return on, on
    return max(problem.first_day, now.date()), problem.last_day


def _rows(whole: Lost, here: list[Slot], now: datetime) -> Iterator[Lost]:
    """Yield one row, or, where games of its first night have begun, one for each field of it."""
    left = [one for one in here if _begins(one) >= now]
    if not left:
        return
    if len(left) == len(here):
        yield whole
        return
    tonight: dict[str, list[Slot]] = defaultdict(list)
    for one in left:
        if one.night == whole.first:
            tonight[one.field].append(one)
    for field, slots in sorted(tonight.items()):
        at = min(one.at for one in slots)
        yield Lost(first=whole.first, last=whole.first, field=field, begins=at)
    if whole.first < whole.last:
        yield replace(whole, first=whole.first + timedelta(days=1))


def _begins(slot: Slot) -> datetime:
    return datetime.combine(slot.night, slot.at)
