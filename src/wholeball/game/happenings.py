"""Declares what can be recorded of a game: one record a kind, and nothing computed.

Each record is the `p` of an event; the event's `type` names it. All are in the past tense of the
field: nobody is asked whether it was allowed. Whole numbers only, so that every program writes
the same bytes.
"""

from typing import Annotated, ClassVar, Final, Literal, TypeAlias

from pydantic import BaseModel, ConfigDict, Field

from wholeball.kernel.identity import Side

Number: TypeAlias = Annotated[int, Field(ge=0, le=99)] | None
"""A shirt's number, or None for a shirt without one or a player nobody could name."""
EventId: TypeAlias = Annotated[str, Field(min_length=1, max_length=64)]
Words: TypeAlias = Annotated[str, Field(max_length=2000)]
Pointer: TypeAlias = Annotated[str, Field(min_length=1, max_length=64)]
"""Where the private record of an injury or an incident is; the log holds none of its words."""
Group: TypeAlias = Literal["woman", "man"]
"""What a player privately says to count as, where a game is mixed."""
Shown: TypeAlias = Literal["player", "substitute", "team_official"]
Signer: TypeAlias = Literal[
    "home_captain", "away_captain", "official", "scorekeeper", "supervisor"
]
Stop: TypeAlias = Literal[
    "goal",
    "caution",
    "sending_off",
    "penalty",
    "injury",
    "substitution",
    "ball_out",
    "hold",
    "other",
]
Place: TypeAlias = Literal["in_or_by_penalty_area", "attacking_half", "anywhere"]


class Recorded(BaseModel):
    """What every record is: frozen, strict, without unknown keys."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)

    type: ClassVar[str]
    version: ClassVar[int] = 1


class CheckedIn(Recorded):
    """A player was checked in for a side; `player` is an internal id, never a student's."""

    type = "checked_in"
    side: Side
    number: Number = None
    player: Annotated[str, Field(max_length=64)] = ""
    counts_as: Group | None = None


class EndsChosen(Recorded):
    """The winner of the coin or of the guess chose an end or the kick-off."""

    type = "ends_chosen"
    winner: Side
    chose: Literal["end", "kick_off"]


class ShortAtStart(Recorded):
    """A side was short at the scheduled start; the clock of period 0 counts from then."""

    type = "short_at_start"
    side: Side
    present: Annotated[int, Field(ge=0, le=50)]


class WaitChosen(Recorded):
    """The ready side, or the supervisor, chose whether to wait for the other."""

    type = "wait_chosen"
    by: Side | Literal["supervisor"]
    waits: bool


class GotReady(Recorded):
    """The side that was short can start."""

    type = "got_ready"
    side: Side


class PeriodStarted(Recorded):
    """A period, or a period of overtime, was begun by a kick-off."""

    type = "period_started"
    kick_off: Side | None = None


class TimeUp(Recorded):
    """The time of a period was up while a chance was on, which is played out."""

    type = "time_up"
    chance: Place


class PeriodEnded(Recorded):
    """The official ended a period."""

    type = "period_ended"


class PlayStopped(Recorded):
    """Play was stopped; the match clock stops with it only where the rulebook says so."""

    type = "play_stopped"
    why: Stop


class PlayRestarted(Recorded):
    """Play went on."""

    type = "play_restarted"


class HoldBegan(Recorded):
    """Play was stopped for the weather; anybody may do that."""

    type = "hold_began"
    why: Literal["thunder", "flash", "heat", "cold", "air", "field", "other"]


class HoldEnded(Recorded):
    """Play was allowed again; only the supervisor may do that."""

    type = "hold_ended"
    by: Signer


class Goal(Recorded):
    """A goal; `side` gets it, and `number` is of the other side where it was an own goal."""

    type = "goal"
    side: Side
    number: Number = None
    own: bool = False
    penalty: bool = False


class Cautioned(Recorded):
    """Yellow was shown."""

    type = "caution"
    side: Side
    number: Number = None
    to: Shown = "player"
    reason: Annotated[str, Field(max_length=200)] = ""


class SentOff(Recorded):
    """Red was shown; one for a second yellow follows by itself and may be left out."""

    type = "sending_off"
    side: Side
    number: Number = None
    to: Shown = "player"
    second_caution: bool = False
    reason: Annotated[str, Field(max_length=200)] = ""


class Counted(Recorded):
    """Somebody counted how many of a side were on the field."""

    type = "counted"
    side: Side
    on_field: Annotated[int, Field(ge=0, le=50)]


class Substituted(Recorded):
    """A player came on for another."""

    type = "substitution"
    side: Side
    off: Number = None
    on: Number = None


class CameOff(Recorded):
    """A player left the field and was not replaced."""

    type = "came_off"
    side: Side
    number: Number = None
    why: Literal["caution", "equipment", "bleeding", "other"]


class CameBack(Recorded):
    """A player came back, or a substitute filled the place."""

    type = "came_back"
    side: Side
    number: Number = None


class Injured(Recorded):
    """Play stopped for an injured player; `record` points to the private record, if any."""

    type = "injury"
    side: Side
    number: Number = None
    goalkeeper: bool = False
    stays: bool = False
    record: Pointer | None = None


class HeadInjurySuspected(Recorded):
    """A head injury was suspected: the player is out for the day."""

    type = "head_injury"
    side: Side
    number: Number = None
    record: Pointer | None = None


class GoalkeeperChanged(Recorded):
    """Another player keeps goal."""

    type = "goalkeeper"
    side: Side
    number: Number = None


class KickersListed(Recorded):
    """Who of a side may take kicks from the mark, such as who was on the field at the end."""

    type = "kickers"
    side: Side
    numbers: Annotated[tuple[Annotated[int, Field(ge=0, le=99)], ...], Field(max_length=50)]


class KickersReduced(Recorded):
    """A side left players out of the kicks, so that both have the same number."""

    type = "kickers_reduced"
    side: Side
    numbers: Annotated[tuple[Annotated[int, Field(ge=0, le=99)], ...], Field(max_length=50)]


class KickTaken(Recorded):
    """A kick from the mark; the event's clock is its number among all kicks, from 1.

    `taken` is False for a kick that was forfeited because nobody came to take it.
    """

    type = "kick"
    side: Side
    number: Number = None
    scored: bool
    taken: bool = True


class Forfeited(Recorded):
    """A side, or both, forfeited."""

    type = "forfeit"
    by: Side | Literal["both"]
    why: Literal["not_ready", "too_few", "left", "barred_player", "conduct", "other"]


class Defaulted(Recorded):
    """A side announced that it would not come; `in_time` is what the league found."""

    type = "default"
    by: Side
    in_time: bool


class BrokenOff(Recorded):
    """The game was stopped for the day; `to_blame` is the side that caused it, if one did."""

    type = "broken_off"
    why: Literal["weather", "lights", "field", "injury", "disorder", "numbers", "other"]
    to_blame: Side | None = None


class Resumed(Recorded):
    """A game that was broken off goes on where it stopped, whoever the crew is."""

    type = "resumed"


class Replayed(Recorded):
    """The game is played again from the moment of a protest, or from its start.

    `voids` are the events that were played after that moment and count no more.
    """

    type = "replayed"
    protest: EventId | None
    voids: Annotated[tuple[EventId, ...], Field(max_length=2000)]


class Protested(Recorded):
    """A protest was made at this moment."""

    type = "protest"
    side: Side
    about: Literal["rule_misapplied", "eligibility", "judgement"]
    by: Literal["captain", "player", "other"]
    record: Pointer | None = None


class IncidentNoted(Recorded):
    """Something happened that is told in a private record."""

    type = "incident"
    record: Pointer


class Noted(Recorded):
    """A remark about the game."""

    type = "note"
    text: Words


class Rated(Recorded):
    """A side was rated, in hundredths of the scale's unit."""

    type = "rating"
    side: Side
    by: Literal["official", "second_official", "opponent"]
    hundredths: Annotated[int, Field(ge=0, le=10_000)]
    reason: Annotated[str, Field(max_length=500)] = ""


class Signed(Recorded):
    """Somebody signed the scorecard; `state` is the digest of what they saw."""

    type = "sign"
    by: Signer
    state: Annotated[str, Field(max_length=64)] = ""


class SignRefused(Recorded):
    """Somebody refused to sign, and why."""

    type = "refuse_sign"
    by: Signer
    reason: Annotated[str, Field(max_length=500)]


class Retracted(Recorded):
    """An entry was wrong: it never happened."""

    type = "retract"
    target: EventId


class Disallowed(Recorded):
    """A goal does not count, whoever entered it."""

    type = "disallow"
    target: EventId
    reason: Annotated[str, Field(max_length=200)] = ""


class Amended(Recorded):
    """One value of an entry was written down wrongly."""

    type = "amend"
    target: EventId
    key: Literal["side", "number", "own", "reason", "period", "clock"]
    value: Side | Annotated[int, Field(ge=0, le=86_400)] | bool | Words | None


class Answered(Recorded):
    """A person answered a question that an entry raised; `asked` is the question's code."""

    type = "answer"
    target: EventId
    asked: Annotated[str, Field(max_length=40)]
    answer: Literal["counts", "does_not_count", "as_it_is"]
    by: Signer
    reason: Annotated[str, Field(max_length=500)] = ""


class Certified(Recorded):
    """A supervisor made the result official, counted up to the frontier.

    `frontier` names each device's last number that counts, and the hash of that event.
    """

    type = "certify"
    by: Annotated[str, Field(max_length=64)]
    state: Annotated[str, Field(max_length=64)]
    frontier: Annotated[
        tuple[tuple[str, Annotated[int, Field(ge=0)], str], ...], Field(max_length=64)
    ]
    reason: Annotated[str, Field(max_length=500)] = ""


class Reopened(Recorded):
    """A supervisor took the certification back, and why."""

    type = "reopen"
    by: Annotated[str, Field(max_length=64)]
    reason: Annotated[str, Field(min_length=1, max_length=500)]


class Unread(Recorded):
    """An entry of a newer version, which this program keeps and cannot read."""

    type = "unread"
    kind: str
    v: int


Happening: TypeAlias = (
    CheckedIn
    | EndsChosen
    | ShortAtStart
    | WaitChosen
    | GotReady
    | PeriodStarted
    | TimeUp
    | PeriodEnded
    | PlayStopped
    | PlayRestarted
    | HoldBegan
    | HoldEnded
    | Goal
    | Cautioned
    | SentOff
    | Counted
    | Substituted
    | CameOff
    | CameBack
    | Injured
    | HeadInjurySuspected
    | GoalkeeperChanged
    | KickersListed
    | KickersReduced
    | KickTaken
    | Forfeited
    | Defaulted
    | BrokenOff
    | Resumed
    | Replayed
    | Protested
    | IncidentNoted
    | Noted
    | Rated
    | Signed
    | SignRefused
    | Retracted
    | Disallowed
    | Amended
    | Answered
    | Certified
    | Reopened
    | Unread
)

KINDS: Final[dict[str, type[Happening]]] = {
    kind.type: kind for kind in Happening.__args__ if kind is not Unread
}
