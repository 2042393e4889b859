"""Declares what can be recorded of a game: one record a kind, and nothing computed.

Each record is the `p` of an event; the event's `type` names it. All are in the past tense of the
field: nobody is asked whether it was allowed. Whole numbers only, so that every program writes
the same bytes.
"""

from typing import Final, TypeAlias

from wholeball.game.happenings.beside import (
    IncidentNoted,
    Noted,
    Protested,
    Rated,
    Signed,
    SignRefused,
)
from wholeball.game.happenings.correcting import (
    Amended,
    Answered,
    Certified,
    Disallowed,
    Reopened,
    Retracted,
    Unread,
)
from wholeball.game.happenings.course import (
    Cautioned,
    Goal,
    HoldBegan,
    HoldEnded,
    PeriodEnded,
    PeriodStarted,
    PlayRestarted,
    PlayStopped,
    SentOff,
    TimeUp,
)
from wholeball.game.happenings.ending import BrokenOff, Defaulted, Forfeited, Replayed, Resumed
from wholeball.game.happenings.opening import (
    CheckedIn,
    EndsChosen,
    GotReady,
    ShortAtStart,
    WaitChosen,
)
from wholeball.game.happenings.players import (
    CameBack,
    CameOff,
    Counted,
    GoalkeeperChanged,
    HeadInjurySuspected,
    Injured,
    KickersListed,
    KickersReduced,
    KickTaken,
    Substituted,
)
from wholeball.game.happenings.record import (
    EventId,
    Group,
    Number,
    Place,
    Pointer,
    Recorded,
    Shown,
    Signer,
    Stop,
    Words,
)

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

__all__ = [
    "KINDS",
    "Amended",
    "Answered",
    "BrokenOff",
    "CameBack",
    "CameOff",
    "Cautioned",
    "Certified",
    "CheckedIn",
    "Counted",
    "Defaulted",
    "Disallowed",
    "EndsChosen",
    "EventId",
    "Forfeited",
    "Goal",
    "GoalkeeperChanged",
    "GotReady",
    "Group",
    "Happening",
    "HeadInjurySuspected",
    "HoldBegan",
    "HoldEnded",
    "IncidentNoted",
    "Injured",
    "KickTaken",
    "KickersListed",
    "KickersReduced",
    "Noted",
    "Number",
    "PeriodEnded",
    "PeriodStarted",
    "Place",
    "PlayRestarted",
    "PlayStopped",
    "Pointer",
    "Protested",
    "Rated",
    "Recorded",
    "Reopened",
    "Replayed",
    "Resumed",
    "Retracted",
    "SentOff",
    "ShortAtStart",
    "Shown",
    "SignRefused",
    "Signed",
    "Signer",
    "Stop",
    "Substituted",
    "TimeUp",
    "Unread",
    "WaitChosen",
    "Words",
]
