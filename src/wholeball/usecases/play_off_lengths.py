"""Counts the places that a plan can use, and those of them in which a play-off game fits."""

from collections import Counter
from dataclasses import dataclass
from datetime import timedelta
from itertools import accumulate
from typing import Final

from wholeball.files.folder import SeasonFolder
from wholeball.files.planning import play_off_minutes
from wholeball.files.problem import free_slots
from wholeball.kernel.days import day_of_season

_EARLY: Final = "round_by_round"


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthShown:
    """How many minutes a play-off game needs, and how many of all `places` have as many.

    `without` games have no place yet. `after` is the day of the league's last game in the
    timetable, empty before there is one; only places after it count as `long_enough` then.
    """

    minutes: int
    without: int
    places: int
    long_enough: int
    after: str

    @property
    def missing(self) -> int:
        """How many games have no place because too few are long enough."""
        return max(0, self.without - self.long_enough)


def length_of(read: SeasonFolder, *, without: int) -> LengthShown:
    """Return whether places are long enough for play-off games, `without` of which have none."""
    minutes = play_off_minutes(read.season.rulebook, read.planning.said)
    usable = free_slots(read)
    league = [(one.day, one.start) for one in read.timetable if one.stage != "play_off"]
    last = max(league, default=None)
    return LengthShown(
        minutes=minutes,
        without=without,
        places=len(usable),
        long_enough=sum(
            slot.minutes >= minutes and (last is None or (slot.night, slot.at) > last)
            for slot in usable
        ),
        after="" if last is None else day_of_season(last[0]),
    )


def weeks_of_league(read: SeasonFolder, *, games: int) -> int:
    """Return in how many weeks so many games of the league can be.

    Where the plan asks for them round by round from the first week, these are no more than have
    the places; else all that have one. Where some places are too short for play-offs, those alone
    are the league's.
    """
    said = read.planning.said
    minutes = play_off_minutes(read.season.rulebook, said)
    usable = free_slots(read)
    short = [slot for slot in usable if slot.minutes < minutes]
    places = Counter(
        slot.night - timedelta(days=slot.night.weekday()) for slot in short or usable
    )
    if said is None or all(one.kind != _EARLY for one in said.rules):
        return len(places)
    filled = accumulate(places[week] for week in sorted(places))
    return min(len(places), 1 + sum(one < games for one in filled))
