"""States what a game has come to: every derived statement names its article."""

from dataclasses import dataclass, field
from typing import Literal, NamedTuple, Protocol, TypeAlias

from wholeball.game.event import Event, Moment
from wholeball.game.happenings import EventId, Group, Shown, Signer
from wholeball.kernel.identity import Side
from wholeball.rulebook.book import Path

Phase: TypeAlias = Literal[
    "before", "playing", "stopped", "hold", "interval", "kicks", "broken_off", "over"
]
Ended: TypeAlias = Literal[
    "full_time",
    "mercy",
    "overtime",
    "golden_goal",
    "kicks",
    "complete",
    "forfeit",
    "default",
    "double_forfeit",
    "annulled",
    "to_coordinator",
]
"""How a game ended; "complete" is a broken-off game that had gone on long enough."""


class Score(NamedTuple):
    """Goals of the home side and of the away side."""

    home: int
    away: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Statement:
    """Something that follows: what, when, by which article, for which side, from which event.

    `code` is stable; `reports.game_words` says it in words.
    """

    code: str
    at: Moment
    article: Path
    side: Side | None = None
    event: EventId | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What a person is asked about an entry, and what they answered.

    Nothing is refused: the entry is kept. `counts` tells whether it counts as things stand.
    """

    code: str
    at: Moment
    event: EventId
    article: Path | None = None
    side: Side | None = None
    other: EventId | None = None
    counts: bool = True
    answer: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GoalLine:
    """One goal as recorded, amended; `counts` is False where it is set aside or disallowed.

    The clock of one that is not `timed` only places it in its period.
    """

    event: EventId
    at: Moment
    side: Side
    number: int | None
    own: bool
    penalty: bool
    counts: bool
    timed: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class CardLine:
    """Yellow or red as shown, or a red that follows from yellows (`derived`).

    Where it is not `timed`, nobody wrote down when it was shown.
    """

    event: EventId
    at: Moment
    colour: Literal["yellow", "red"]
    side: Side
    number: int | None
    to: Shown
    reason: str
    second_caution: bool = False
    derived: bool = False
    timed: bool = True


Why: TypeAlias = Literal[
    "time_penalty",
    "caution",
    "injury",
    "head_injury",
    "sent_off",
    "equipment",
    "bleeding",
    "other",
]
Place: TypeAlias = Literal["filled", "open", "closed"]
"""A place on the field: taken by somebody else, free to be, or not to be filled."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Away:
    """A player who is off: until when by the clock, or None for until something happens."""

    side: Side
    number: int | None
    why: Why
    since: Moment
    until: Moment | None
    event: EventId
    place: Place = "filled"


@dataclass(frozen=True, slots=True, kw_only=True)
class KicksState:
    """Kicks from the mark: goals and kicks of each side, whose turn it is, and who has won."""

    first: Side | None
    scored: Score
    taken: Score
    turn: Side | None
    winner: Side | None
    decided_by: EventId | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ending:
    """How and when the game ended, and by which article."""

    how: Ended
    at: Moment
    article: Path
    by: Side | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Resumption:
    """Where a game that was broken off went on; `on` is the day as text, None if unknown."""

    event: EventId
    at: Moment
    on: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rating:
    """A rating as given, in hundredths."""

    event: EventId
    at: Moment
    side: Side
    by: Literal["official", "second_official", "opponent"]
    hundredths: int
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ProtestLine:
    """A protest, the moment it was made at, and the score then."""

    event: EventId
    at: Moment
    side: Side
    about: Literal["rule_misapplied", "eligibility", "judgement"]
    score: Score


@dataclass(frozen=True, slots=True, kw_only=True)
class PrivateRecord:
    """Where the private record of an injury or incident is."""

    event: EventId
    at: Moment
    kind: Literal["injury", "head_injury", "incident"]
    record: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Signature:
    """Who signed, what they saw, or why they would not."""

    event: EventId
    by: Signer
    state: str
    refused: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A player who was checked in for a side.

    `player` is a person's code or the name as the roster has it; empty where only the number is
    known. With both, the shirt was given to that player at the gate.
    """

    event: EventId
    side: Side
    number: int | None
    player: str
    counts_as: Group | None


class Both(NamedTuple):
    """A number of the home side and of the away side; None where nobody knows it."""

    home: int | None
    away: int | None


class GoingOn(Protocol):
    """What a state keeps, so that it can go on from where it is."""

    def at(self, moment: Moment) -> "GameState":
        """Return the state at a later moment at which nothing more has been recorded."""

    def then(self, event: Event) -> "GameState":
        """Return the state with one more event."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GameState:
    """What a game has come to as of `now`.

    `score` is what counts, without kicks; `played` also has the goals of a game that went on
    after its end. `by_period` is the score of each period begun. `result` is what the game
    counts as: the score, or the one that a forfeit is given. `away` lists who is off now,
    `checked` who was checked in, the home side first.
    """

    phase: Phase
    now: Moment
    score: Score
    played: Score
    by_period: tuple[Score, ...]
    kicks: KicksState | None
    ending: Ending | None
    result: Score | None
    winner: Side | None
    kick_off: Side | None
    on_field: Both
    goalkeepers: Both
    checked: tuple[Checked, ...]
    goals: tuple[GoalLine, ...]
    cards: tuple[CardLine, ...]
    away: tuple[Away, ...]
    resumptions: tuple[Resumption, ...]
    ratings: tuple[Rating, ...]
    protests: tuple[ProtestLine, ...]
    records: tuple[PrivateRecord, ...]
    signatures: tuple[Signature, ...]
    statements: tuple[Statement, ...]
    questions: tuple[Question, ...]
    going_on: GoingOn = field(compare=False, repr=False)

    @property
    def open_questions(self) -> tuple[Question, ...]:
        """The questions that nobody has answered."""
        return tuple(asked for asked in self.questions if asked.answer is None)

    def at(self, moment: Moment) -> "GameState":
        """Return what time alone brings by a later moment, by the rules that events are held to."""
        return self.going_on.at(moment)

    def then(self, event: Event) -> "GameState":
        """Return the state with one more event, which may be older or correct another."""
        return self.going_on.then(event)
