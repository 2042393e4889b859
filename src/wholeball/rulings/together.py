"""Weighs two rulings on what happened at once, as facts that choose between them."""

from collections.abc import Sequence
from typing import Final

from wholeball.rulings.ruling import Ruling, Situation

SHOWN: Final = ("none", "told", "warning", "caution", "second_caution", "send_off")
RESTARTS: Final = ("dropped_ball", "indirect_free_kick", "direct_free_kick", "penalty_kick")
"""From the lightest to the gravest; what is not among them is lighter than all."""


def at_once(one: Ruling, other: Ruling, *, same_side: bool, same_person: bool) -> Situation:
    """Return the situation of two offences at once, as the space "together" asks for it.

    Each ruling was made alone, with the side that offended as its A. `same_person` holds only
    for one side's.
    """
    facts = {"graver_shown": _graver(SHOWN, one["shown"], other["shown"])}
    if facts["graver_shown"] == "neither":
        facts["graver_restart"] = _graver(RESTARTS, one["restart"], other["restart"])
        if facts["graver_restart"] == "neither":
            facts["sides"] = "same" if same_side else "two"
    facts["person"] = "same" if same_person else "two"
    if same_person:
        is_both = one["shown"] == other["shown"] == "caution"
        facts["yellows"] = "both" if is_both else "no"
    return Situation(facts=facts)


def _graver(order: Sequence[str], one: str, other: str) -> str:
    ranks = [order.index(name) if name in order else -1 for name in (one, other)]
    if ranks[0] == ranks[1]:
        return "neither"
    return "one" if ranks[0] > ranks[1] else "other"
