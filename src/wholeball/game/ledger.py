"""Keeps the figures of a game while its events are gone through, one after the other."""

from copy import copy
from dataclasses import dataclass, replace

from wholeball.game.event import Moment
from wholeball.game.happenings import EventId
from wholeball.game.rules import GameRules
from wholeball.game.state import (
    Away,
    CardLine,
    Checked,
    Ended,
    Ending,
    GoalLine,
    Phase,
    PrivateRecord,
    ProtestLine,
    Question,
    Rating,
    Resumption,
    Score,
    Signature,
    Statement,
)
from wholeball.kernel.identity import Side
from wholeball.rulebook.book import Path

SIDES: tuple[Side, Side] = ("home", "away")


def other(side: Side) -> Side:
    """Return the other side."""
    return "away" if side == "home" else "home"


@dataclass(slots=True)
class Timer:
    """What time alone brings at a moment: a penalty that ends, a place that may be filled."""

    at: Moment
    code: str
    article: Path
    side: Side
    event: EventId


class SideLedger:
    """What is kept of one side."""

    def __init__(self) -> None:
        """Start with nothing known."""
        self.goals = 0
        self.all_goals = 0
        self.last_goal: tuple[Moment, EventId] | None = None
        self.on_field: int | None = None
        self.places_closed = 0
        self.goalkeeper: int | None = None
        self.checked: list[Checked] = []
        self.numbers: set[int] = set()
        self.groups: dict[int, str] = {}
        self.yellows: dict[int, int] = {}
        self.yellows_in_kicks: dict[int, int] = {}
        self.sent_off: set[int] = set()
        self.followed: dict[int, int] = {}
        self.has_red = False
        self.out: set[int] = set()
        self.been_off: set[int] = set()
        self.replaced: set[int] = set()
        self.substitutions = 0
        self.extra_substitutions = 0
        self.kickers: tuple[int, ...] | None = None
        self.left_out: set[int] = set()
        self.kicks_taken = 0
        self.kicks_scored = 0
        self.kicked: list[int | None] = []
        self.last_kicker: int | None = None
        self.short_since: int | None = None
        self.waits: bool | None = None
        self.waited = 0

    def copied(self) -> "SideLedger":
        """Return a copy that can be changed apart."""
        new = copy(self)
        for name, value in vars(self).items():
            if isinstance(value, list | set | dict):
                setattr(new, name, copy(value))
        return new


class Ledger:
    """All that is kept of a game; it is private to the room, and a state is made from it."""

    def __init__(self, rules: GameRules) -> None:  # noqa: PLR0915 - a line a figure
        """Start a game of which nothing has been recorded."""
        self.rules = rules
        self.phase: Phase = "before"
        self.now = Moment(0, 0)
        self.sides: dict[Side, SideLedger] = {"home": SideLedger(), "away": SideLedger()}
        self.by_period: dict[int, list[int]] = {}
        self.started: dict[int, tuple[EventId, Side | None]] = {}
        self.ended_at: dict[int, int] = {}
        self.period = 0
        self.first_length = rules.period_seconds
        self.is_in_hold = False
        self.holds_at: tuple[Moment, int] = (Moment(0, -1), 0)
        self.breaks_at: tuple[Moment, int] = (Moment(0, -1), 0)
        self.goes_to_kicks = False
        self.is_whole = False
        self.mercy_passed: Moment | None = None
        self.stopped_at: Moment | None = None
        self.restarts: dict[int, list[int]] = {}
        self.ending: Ending | None = None
        self.result: Score | None = None
        self.kick_off: Side | None = None
        self.kicks_first: Side | None = None
        self.kicks_winner: Side | None = None
        self.kicks_decided_by: EventId | None = None
        self.unequal: tuple[int, int] | None = None
        self.is_chance_on = False
        self.goals: list[GoalLine] = []
        self.cards: list[CardLine] = []
        self.away: list[Away] = []
        self.back_from: dict[EventId, Moment] = {}
        self.timers: list[Timer] = []
        self.resumptions: list[Resumption] = []
        self.ratings: list[Rating] = []
        self.protests: list[ProtestLine] = []
        self.records: list[PrivateRecord] = []
        self.signatures: list[Signature] = []
        self.statements: list[Statement] = []
        self.questions: list[Question] = []
        self.answers: dict[tuple[EventId, str], str] = {}
        self.disallowed: frozenset[EventId] = frozenset()
        self.voided: frozenset[EventId] = frozenset()

    def copied(self) -> "Ledger":
        """Return a copy that can be changed apart."""
        new = copy(self)
        for name, value in vars(self).items():
            if isinstance(value, list | set | dict):
                setattr(new, name, copy(value))
        new.timers = [copy(timer) for timer in self.timers]
        new.sides = {side: kept.copied() for side, kept in self.sides.items()}
        new.by_period = {period: list(goals) for period, goals in self.by_period.items()}
        return new

    def is_waiting_for(self, event: EventId) -> bool:
        """Tell whether something is recorded about an event that has not arrived."""
        is_asked = any(asked.other == event for asked in self.questions)
        return is_asked or event in self.disallowed or event in self.voided

    def go_on(self) -> None:
        """Take the phase that a game goes on in, by what began, ended and came to kicks."""
        if not self.started:
            self.phase = "before"
        elif self.goes_to_kicks:
            self.phase = "kicks"
        elif self.period in self.ended_at:
            self.phase = "interval"
        else:
            is_stopped = self.stopped_at is not None and self.stopped_at.period == self.period
            self.phase = "stopped" if is_stopped else "playing"

    @property
    def score(self) -> Score:
        """The goals that count."""
        return Score(self.sides["home"].goals, self.sides["away"].goals)

    @property
    def leader(self) -> Side | None:
        """The side that leads by goals, if one does."""
        home, away = self.score
        return None if home == away else ("home" if home > away else "away")

    def length(self, period: int) -> int:
        """Return how long a period is in seconds; the first may be shortened by a wait."""
        return self.first_length if period == 1 else self.rules.seconds_of(period)

    def seconds_left(self, period: int, clock: int) -> int:
        """Return what is left of all regular periods at a moment."""
        rest = max(0, self.length(period) - clock)
        return rest + self.rules.period_seconds * (self.rules.periods - period)

    def go_on_after(self, end: Moment) -> None:
        """Let what is left of every wait when a period is ended go on in the next.

        Until then a wait runs on in its own period, so that added time is served as well.
        """
        for timer in self.timers:
            timer.at = _after(timer.at, end)
        self.away = [
            replace(one, until=_after(one.until, end)) if one.until else one
            for one in self.away
        ]
        self.back_from = {event: _after(at, end) for event, at in self.back_from.items()}

    def state_that(
        self,
        code: str,
        at: Moment,
        article: Path,
        *,
        side: Side | None = None,
        event: EventId | None = None,
    ) -> None:
        """Add a statement."""
        self.statements.append(
            Statement(code=code, at=at, article=article, side=side, event=event)
        )

    def ask(  # noqa: PLR0913 - the parts of a question
        self,
        code: str,
        at: Moment,
        event: EventId,
        *,
        article: Path | None = None,
        side: Side | None = None,
        about: EventId | None = None,
        counts: bool = True,
    ) -> bool:
        """Put an entry as a question to a person; return whether it counts as things stand."""
        answer = self.answers.get((event, code))
        if answer in ("counts", "does_not_count"):
            counts = answer == "counts"
        self.questions.append(
            Question(
                code=code,
                at=at,
                event=event,
                article=article,
                side=side,
                other=about,
                counts=counts,
                answer=answer,
            )
        )
        return counts

    def end(
        self,
        how: Ended,
        at: Moment,
        article: Path,
        *,
        result: Score | None,
        by: Side | None = None,
    ) -> None:
        """End the game."""
        self.ending = Ending(how=how, at=at, article=article, by=by)
        self.result = result
        self.phase = "over"


def _after(at: Moment, end: Moment) -> Moment:
    is_left = at.period == end.period and at.clock > end.clock
    return Moment(end.period + 1, at.clock - end.clock) if is_left else at
