"""Says which games have a story, and why each is worth a look."""

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

Kind: TypeAlias = Literal[
    "usual",
    "mercy",
    "red",
    "second_yellow",
    "thunder",
    "ineligible",
    "protest",
    "unsigned",
    "other_number",
    "late_goal",
    "slips",
    "not_ready",
    "forfeit",
    "last_forfeit",
    "double_forfeit",
    "default",
    "never",
    "overtime",
    "kicks",
]

NOTABLE: Final[dict[Kind, str]] = {
    "mercy": "A lead of seven with ten minutes left: the mercy rule ended it at that goal.",
    "red": "A straight red: a game of suspension served, and a meeting that is still to be held.",
    "second_yellow": "Red for a second yellow: one game served and the meeting held.",
    "thunder": "Thunder stopped it; another crew resumed it on another night.",
    "ineligible": "A player came onto the roster a day too late; found two days on, and awarded.",
    "protest": "The captain protested before the next live ball; the ruling lets it stand.",
    "unsigned": "One captain would not sign the scorecard, and said why.",
    "other_number": "The scorecard named a number that nobody wears; entered again, it was right.",
    "late_goal": "A phone sent a goal after the result was certified: kept, told, not counted.",
    "slips": "Two phones wrote one goal twice and a wrong number; both were put right.",
    "not_ready": "A side was short, was waited for, and was not ready in time.",
    "forfeit": "The team had quit and did not come; the fee for it is still open.",
    "last_forfeit": "Its third forfeit took the team out of the league, and annulled its games.",
    "double_forfeit": "Neither side was ready: both lose.",
    "default": "The team said in time that it would not come.",
    "overtime": "Level at full time and settled in overtime.",
    "kicks": "Level after overtime too, and decided by kicks from the mark.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Plot:
    """The story of a season.

    Games are called by their names, or B3-1: pool B, week 3, the game of the pool's last team;
    the others of that night follow by their kick-offs.
    `quits` is the pool whose last team stops coming; `rude` the one whose first team plays well
    and behaves badly. `held` are the games after whose red a meeting was held the day after.
    """

    kinds: dict[str, Kind]
    quits: str = ""
    rude: str = ""
    held: frozenset[str] = frozenset()

    def kind(self, game: str) -> Kind:
        """Return what happens in a game."""
        return self.kinds.get(game, "usual")


FULL_PLOT: Final = Plot(
    kinds={
        "55": "mercy",
        "9": "red",
        "21": "ineligible",
        "32": "second_yellow",
        "33": "thunder",
        "60": "protest",
        "4": "default",
        "B2-1": "not_ready",
        "B3-1": "forfeit",
        "B4-1": "last_forfeit",
        "B5-1": "never",
        "45": "double_forfeit",
        "6": "unsigned",
        "23": "other_number",
        "14": "slips",
        "46": "late_goal",
        "Q2": "overtime",
        "S1": "kicks",
    },
    quits="Tuesday B",
    rude="Thursday A",
    held=frozenset({"32"}),
)
SMALL_PLOT: Final = Plot(
    kinds={
        "A1-1": "mercy",
        "A1-2": "red",
        "A2-2": "slips",
        "A3-1": "other_number",
        "B1-1": "default",
        "B1-2": "ineligible",
        "B2-2": "late_goal",
        "S1": "kicks",
    },
    held=frozenset({"A1-2"}),
)
