"""Holds the signals that an official gives with a ruling."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

_LAWS: Final = "IFAB Laws of the Game, referee signals (from memory)"
_WHISTLE: Final = "IFAB Laws of the Game, use of the whistle (from memory)"
_PRACTICE: Final = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Signal:
    """What an official does for all to see, and where that comes from."""

    says: str
    source: str


WHISTLE: Final = Signal(says="Whistle.", source=_WHISTLE)
ADVANTAGE: Final = Signal(
    says="Sweep one arm or both forward, and call that play goes on.", source=_LAWS
)
OF_RESTART: Final[Mapping[str, Signal]] = {
    "play_on": Signal(says="None: keep running, and watch.", source=_PRACTICE),
    "throw_in": Signal(
        says="Point with the arm the way the side that throws is playing.", source=_PRACTICE
    ),
    "goal_kick": Signal(says="Point to the goal area.", source=_LAWS),
    "corner_kick": Signal(says="Point to the corner area, the arm raised.", source=_LAWS),
    "direct_free_kick": Signal(
        says="Hold one arm out level, the way the side that kicks is playing.", source=_LAWS
    ),
    "indirect_free_kick": Signal(
        says="Hold one arm straight up until the kicked ball has been touched again, is out, or "
        "clearly cannot go straight in.",
        source=_LAWS,
    ),
    "penalty_kick": Signal(says="Point to the penalty mark.", source=_LAWS),
    "kick_off": Signal(says="Point to the centre mark.", source=_PRACTICE),
    "dropped_ball": Signal(
        says="Show with the hand who gets the ball and where, then drop it.", source=_PRACTICE
    ),
    "retake": Signal(says="Point back to where it is taken.", source=_PRACTICE),
    "unchanged": Signal(says="Show the restart again.", source=_PRACTICE),
    "period_over": Signal(
        says="Whistle, and point to the middle of the field.", source=_PRACTICE
    ),
    "abandon": Signal(says="Whistle, and call both captains.", source=_PRACTICE),
}
OF_REASON: Final[Mapping[str, Signal]] = {
    "weather": Signal(says="Whistle, and wave everybody off the field.", source=_PRACTICE),
    "head": Signal(says="Whistle, and wave help on.", source=_PRACTICE),
    "injury": Signal(says="Whistle, and wave help on.", source=_PRACTICE),
}
"""Why play was stopped, where that comes before any restart."""
OF_SHOWN: Final[Mapping[str, Signal]] = {
    "caution": Signal(says="Show yellow, the arm raised.", source=_LAWS),
    "send_off": Signal(says="Show red, the arm raised.", source=_LAWS),
    "second_caution": Signal(says="Show yellow, then red, the arm raised.", source=_LAWS),
    "warning": Signal(says="Call the person over, and speak.", source=_PRACTICE),
    "told": Signal(says="Go to the technical area, and speak.", source=_PRACTICE),
}
NEEDS_WHISTLE: Final = frozenset(
    {"direct_free_kick", "indirect_free_kick", "penalty_kick", "dropped_ball", "retake"}
)
"""Restarts for which play is stopped; the end of a period has the whistle in its own signal."""
