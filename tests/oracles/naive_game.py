"""Says how a game begins, runs and ends, plainly and slowly, from the conformance README."""

from typing import Any, Final

from oracles.naive_counts import SIDES, ahead
from oracles.naive_log import NaiveLog
from wholeball.game.event import Moment
from wholeball.rulebook.book import Rulebook

SHARE: Final = {"half": 0.5, "three_quarters": 0.75, "full_time": 1}
ANSWERS: Final = {"counts": True, "does_not_count": False}
DOUBLE: Final = {"both_lose": "double_forfeit", "annulled": "annulled"}


class NaiveGame:
    """How a game begins, runs and ends; each kind of entry that matters has its method."""

    def __init__(self, book: Rulebook, stage: str, log: NaiveLog) -> None:
        self.book, self.log, self.ties = book, log, getattr(book.ties, stage)
        self.regular = book.game.periods
        self.last = self.regular + book.overtime.periods * ("overtime" in self.ties)
        self.phase, self.goes_on, self.period, self.waited = "before", "", 0, 0
        self.clock, self.stop, self.hold = Moment(0, 0), Moment(0, 0), False
        self.ending: tuple[str, Moment] | None = None
        self.loser: str | None = None
        self.goals: list[tuple[Moment, str, bool, bool]] = []
        self.questions: set[tuple[str, str]] = set()
        self.started: set[int] = set()
        self.gave_up: set[str] = set()

    def nothing(self, _: Any) -> None:
        """Let pass an entry that this fold does not look at."""

    def ask(self, event: Any, code: str, *, counts: bool) -> bool:
        """Ask about an entry, and say whether it counts: as answered, or else as it is."""
        self.questions.add((code, event.id))
        return ANSWERS.get(self.log.answers.get((event.id, code), ""), counts)

    def score(self, *periods: int) -> list[int]:
        sides = [
            side
            for at, side, counts, _ in self.goals
            if counts and (not periods or at.period in periods)
        ]
        return [sides.count(side) for side in SIDES]

    def end(self, how: str, at: Moment, loser: str | None = None) -> None:
        self.phase, self.ending, self.loser = "over", (how, at), loser

    # time

    def length(self, period: int) -> int:
        if period > self.regular:
            return self.book.overtime.minutes * 60
        return self.book.game.minutes * 60 - (self.waited if period == 1 else 0)

    def regular_time(self, first: int, before: int) -> int:
        return sum(map(self.length, range(first, min(before, self.regular + 1))))

    def is_mercy(self, period: int, clock: int) -> bool:
        left = max(0, self.length(period) - clock)
        left += self.regular_time(period + 1, self.regular + 1)
        home, away = self.score()
        return period <= self.regular and any(
            abs(home - away) >= rung.lead and left <= rung.minutes_left * 60
            for rung in self.book.mercy.ladder
        )

    def let_time_pass(self, at: Moment) -> None:
        """Look for mercy when the period began, now, and when so few minutes are left."""
        later = self.length(self.period) + self.regular_time(self.period + 1, self.regular + 1)
        turns = [later - rung.minutes_left * 60 for rung in self.book.mercy.ladder]
        since = max(self.clock, Moment(self.period, 0))
        for clock in sorted([since.clock, *turns]):
            moment = Moment(self.period, clock)
            if self.phase == "playing" and since <= moment <= at and self.is_mercy(*moment):
                self.end("mercy", moment)
        self.clock = max(self.clock, at)

    def got_ready(self, event: Any) -> None:
        if self.book.forfeit.grace.clock_runs:
            self.waited = max(self.waited, event.at.clock)

    def period_started(self, event: Any) -> None:
        if event.at.period > self.last and not self.ask(event, "not_in_rulebook", counts=False):
            return
        if self.phase not in ("over", "kicks") and event.at.period not in self.started:
            self.started.add(event.at.period)
            self.phase, self.period, self.goes_on = "playing", event.at.period, ""
            self.stop = Moment(0, 0)
            self.let_time_pass(event.at)

    def period_ended(self, event: Any) -> None:
        if event.at.period != self.period:
            return
        self.goes_on = self.goes_on and "interval"
        if self.phase != "playing":
            return
        is_level, is_regular = ahead(self.score()) is None, self.period <= self.regular
        to_overtime = is_level and self.period == self.regular < self.last
        if to_overtime or self.period not in (self.regular, self.last):
            self.phase = "interval"
            if self.period < self.regular and self.is_mercy(self.period, 10**6):
                self.end("mercy", event.at)
        elif is_level and "kicks" in self.ties:
            self.phase = "kicks"
        else:
            self.end("full_time" if is_regular else "overtime", event.at)

    def play_stopped(self, event: Any) -> None:
        self.stop = event.at

    def play_restarted(self, _: Any) -> None:
        self.stop = Moment(0, 0)

    def hold_began(self, _: Any) -> None:
        self.hold = True

    def hold_ended(self, _: Any) -> None:
        self.hold = False

    def broken_off(self, event: Any) -> None:
        if self.phase == "over":
            return
        rules = self.book.resumption
        played = self.regular_time(1, event.at.period) + min(
            event.at.clock, self.length(event.at.period)
        )
        whole = self.regular_time(1, self.regular + 1)
        is_complete = bool(self.started) and played >= whole * SHARE[rules.complete_after]
        is_level = ahead(self.score()) is None
        self.goes_on = self.goes_on or self.phase
        if event.what.to_blame and rules.broken_off_by_side == "forfeit":
            self.give_up("forfeit", event.at, event.what.to_blame)
        elif event.what.to_blame:
            self.end("to_coordinator", event.at, event.what.to_blame)
        elif is_complete and not (is_level and rules.level_when_complete == "resumed"):
            self.end("complete", event.at)
        elif not is_complete and rules.before_that == "annulled":
            self.end("annulled", event.at)
        else:
            self.phase = "broken_off"

    def resumed(self, _: Any) -> None:
        how = self.ending and self.ending[0]
        if self.goes_on and how in (None, "complete"):
            self.phase, self.goes_on, self.ending = self.goes_on, "", None

    def forfeit(self, event: Any) -> None:
        self.give_up(
            "forfeit", event.at, *(SIDES if event.what.by == "both" else [event.what.by])
        )

    def default(self, event: Any) -> None:
        is_default = event.what.in_time and self.book.forfeit.default.allowed != 0
        self.give_up("default" if is_default else "forfeit", event.at, event.what.by)

    def give_up(self, how: str, at: Moment, *sides: str) -> None:
        self.gave_up |= set(sides)
        if len(self.gave_up) == 2:
            self.end(DOUBLE[self.book.forfeit.double.then], at)
        else:
            self.end(how, at, sides[0])
