"""Says what a row of the Laws' outcomes states in the engine's facts, and what it leaves open.

The defaults stand here, and only here. A key that a row does not have means:

- severity: careless; dogso, spa: no chance; advantage: none; previous cards: none
- impact: every value, since rows of older editions do not ask for it
- location: outside both penalty areas, in no goal area; of an object: where it struck
- no victim: an opponent; no role: a player, and for a person too many a substitute
- conduct, leaving and coming on while the ball is in play: play was stopped for it
- a goalkeeper's hands on a team-mate's kick: no try to clear it came first
- a throw-in taken wrongly: the first time
- a person too many of the scoring side: interfered; of nobody's side: did not
- the arm at an indirect free kick was raised
- the ball of a dropped ball: outside the penalty areas, last touched there, no side sure of it
"""

from dataclasses import dataclass, field
from typing import Any, Final

Row = dict[str, Any]
Facts = dict[str, frozenset[str]]

KINDS: Final = {
    "any": "kick_off direct_free_kick indirect_free_kick throw_in goal_kick corner_kick",
    "free_kick": "direct_free_kick indirect_free_kick",
}
WHERE: Final = {
    "own_penalty_area": ("own_area", "neither"),
    "own_goal_area": ("own_area", "own"),
    "starts_outside_continues_own_penalty_area": ("own_area", "neither"),
    "opp_goal_area": ("elsewhere", "opp"),
    "off_field": ("off", "neither"),
    "off_field_own_penalty_area_line": ("off_by_area", "neither"),
}
ROLES: Final = {"substitute": "substitute", "team_official": "team_official"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What a row states: facts with the values it allows, and whose side is A.

    `swapped`: the row's B is the side that acts. `persons`: it is a matter beside play.
    """

    facts: Facts
    swapped: bool = False
    persons: bool = False
    unchecked: frozenset[str] = field(default_factory=frozenset)


def facts(**said: str) -> Facts:
    """Return facts with their values apart by spaces."""
    return {name: frozenset(words.split()) for name, words in said.items()}


def where(row: Row) -> Facts:
    zone, goal_area = WHERE.get(row["location"] or "", ("elsewhere", "neither"))
    place = "own_area" if zone == "own_area" else "elsewhere"
    return facts(zone=zone, goal_area=goal_area, place=place)


def moment(row: Row) -> str:
    return {"in_play": "open", "restart": "taking", "shootout": "taking"}.get(
        row["phase"], "dead"
    )


def kind(row: Row, default: str | None = None) -> Facts:
    named = row["restart_in_progress"] or default
    return {} if named is None else facts(kind=KINDS.get(named, named))


def is_by_b(row: Row) -> bool:
    return bool(row["offender_team"] == "B")


def chance(row: Row) -> str:
    if row.get("dogso"):
        return "obvious"
    return "promising" if row.get("spa") else "none"


def keeper(row: Row) -> str:
    return "keeper" if row["offender_role"] == "goalkeeper" else "player"


def at(row: Row) -> str:
    if row["phase"] == "shootout":
        return "kicks"
    return "extended" if row.get("extended_time") else "normal"


def role(row: Row, default: str = "player") -> str:
    return ROLES.get(row["offender_role"] or "", default)


ALWAYS: Final = facts(
    often="no",
    earlier="no",
    warned="no",
    again="no",
    cleared="no",
    last_at="elsewhere",
    ball_at="elsewhere",
    would="unclear",
    goal_area="neither",
    advantage="no",
    used="no",
)
