"""Spells outcomes out: what a word such as "corner_kick" claims of goal, restart, side and basis."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulings.reading import Given, is_given

_ROWS: Final = (
    ("play_on", "none", "play_on", "none", "none"),
    ("unchanged", "none", "unchanged", "none", "same"),
    ("retake", "none", "retake", "A", "same"),
    ("throw_in", "none", "throw_in", "B", "left"),
    ("goal_kick", "none", "goal_kick", "B", "goal_area"),
    ("corner_kick", "none", "corner_kick", "B", "corner"),
    ("direct_free_kick", "none", "direct_free_kick", "B", "offence"),
    ("indirect_free_kick", "none", "indirect_free_kick", "B", "offence"),
    ("penalty_kick", "none", "penalty_kick", "B", "mark"),
    ("dropped_ball", "none", "dropped_ball", "receiver", "drop"),
    ("goal_for_a", "A", "kick_off", "B", "centre"),
    ("goal_for_b", "B", "kick_off", "A", "centre"),
    ("natural", "none", "natural", "none", "none"),
    ("period_over", "none", "period_over", "none", "none"),
    ("abandon", "none", "abandon", "none", "none"),
)
OUTCOMES: Final[Mapping[str, Mapping[str, str]]] = MappingProxyType(
    {
        name: MappingProxyType({"goal": goal, "restart": restart, "side": side, "basis": basis})
        for name, goal, restart, side, basis in _ROWS
    }
)
"""A is the side that acts, offends or touched the ball last; B is the other one."""

SWAPS: Final[tuple[tuple[Given, str, str], ...]] = (
    ({"penalty.played": "no"}, "penalty_kick", "direct_free_kick"),
    ({"free_kick.kinds": "all_indirect"}, "direct_free_kick", "indirect_free_kick"),
    ({"free_kick.kinds": "all_direct"}, "indirect_free_kick", "direct_free_kick"),
)
"""Kicks that a house does not have, and what stands in for them, one swap after the other."""


def outcome(name: str, book: Rulebook) -> Mapping[str, str]:
    """Return the parts of the answer that an outcome claims under a rulebook."""
    for given, from_, to in SWAPS:
        if name == from_ and is_given(given, book):
            name = to
    return OUTCOMES[name]
