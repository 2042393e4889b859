"""Plays a season that has not ended: up to the eve of a day, with what is then still to be done."""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from demo.course import Course
from demo.truth import play
from demo.world import FULL, Size

_TUESDAY: Final = 1


def size_on(today: date, whole: Size = FULL) -> Size:
    """Return a season of which the Tuesday after the week of the rain is played, and little more."""
    since_tuesday = (today.weekday() - _TUESDAY - 1) % 7 + 1
    first = today - timedelta(days=since_tuesday + 7 * whole.rain)
    return replace(whole, title=f"Quillmere, {first:%B %Y}", first_night=first)


@dataclass(slots=True, kw_only=True)
class UnderWay(Course):
    """One playing of a season until `today`, which is after the night that is lost to rain."""

    today: date

    def play(self) -> None:
        """Play what lies before today, and leave the newest night as a morning finds it.

        Its last game is not typed in, and the one before it is not certified.
        """
        lost = self._begin()
        play(self.truth, before=self.today)
        games = [one for one in self.truth.league if lost < one.day < self.today]
        newest = games[-1].day
        self._league([one for one in games if one.day < newest])
        self._catch_up(self.today)
        *certified, entered, _ = [
            one for one in games if one.day == newest and one.game in self.truth.accounts
        ]
        for listed in certified:
            self._write_down(listed)
        self._write_down(entered, is_certified=False)
        self._say(
            newest, "the newest night; a result is not certified, and one is not typed in"
        )
