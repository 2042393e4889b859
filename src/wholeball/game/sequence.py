"""Puts events in the order of the game, whatever order they arrived in."""

from typing import Final

from wholeball.game.event import Event

FIRST: Final = (
    "checked_in",
    "ends_chosen",
    "short_at_start",
    "wait_chosen",
    "got_ready",
    "period_started",
    "counted",
    "goalkeeper",
    "kickers",
    "kickers_reduced",
    "kick",
    "goal",
    "caution",
    "sending_off",
    "injury",
    "head_injury",
    "protest",
    "came_off",
    "play_stopped",
    "hold_began",
    "substitution",
    "came_back",
    "play_restarted",
    "hold_ended",
    "time_up",
    "period_ended",
    "broken_off",
    "resumed",
    "replayed",
    "default",
    "forfeit",
)
"""What happens within one second, in this order: a goal counts before the whistle that follows it,
and play stops before it goes on."""

_RANKS: Final = {kind: rank for rank, kind in enumerate(FIRST)}

Key = tuple[int, int, int, str]


def place(event: Event) -> Key:
    """Return where an event stands in the game: period, clock, kind, and identity last."""
    return (*event.at, _RANKS[event.what.type], event.id)


def is_played(event: Event) -> bool:
    """Tell whether an event has a place in the game, as a signature or a rating has not."""
    return event.what.type in _RANKS
