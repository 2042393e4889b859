"""Holds what the commands said against the truth, fact by fact."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

KINDS: Final = {
    "pools": "who has a place, in which pool, who waits, who is offered a team",
    "timetable": "pairs, nights, places, absences and the cost of a plan, and what the rain moved",
    "rosters": "how many players a list brought, and a player of two teams refused",
    "results": "sides, goals that count, kicks, and how a game counts, on its night and at the end",
    "games": "how a game ended and who won it, or that it waits",
    "tables": "a team's whole line after a round, and the order of finish",
    "suspensions": "one suspension: its games, the games that served it, the meeting",
    "ratings": "a team's exact average, and whether it is enough for the play-offs",
    "looked at": "all that the check asks a person to look at on a day",
    "the race": "a team that was proven in or out before the last round, held to the end",
    "bracket": "a seed, the winner of a play-off game, the champion",
    "people": "who appeared in a game, and who was shown yellow or red",
    "fees": "what a team owes for its forfeits after what was paid or waived",
    "report": "figures of the season's report",
    "published": "place and figures of a team in a published table of a real tournament",
}
"""What one fact of each kind is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One fact: what it is about, what it was, and what the commands said."""

    kind: str
    what: str
    expected: object
    came: object

    @property
    def is_other(self) -> bool:
        """Tell whether it came out otherwise than it was."""
        return self.expected != self.came

    def __str__(self) -> str:
        """Return the fact for people to mend."""
        return f"{self.what}\n    expected  {self.expected}\n    came      {self.came}"


@dataclass(slots=True)
class Ledger:
    """All facts that were compared."""

    all: list[Fact] = field(default_factory=list)

    @property
    def facts(self) -> int:
        """Return how many facts were compared."""
        return len(self.all)

    @property
    def differences(self) -> list[Fact]:
        """Return the facts that came out otherwise."""
        return [one for one in self.all if one.is_other]

    def compare(self, kind: str, what: str, *, expected: object, came: object) -> None:
        """Compare one fact.

        Raises:
            ValueError: there is no such kind.
        """
        if kind not in KINDS:
            raise ValueError(f"{kind!r} is no kind of fact")
        self.all.append(Fact(kind=kind, what=what, expected=expected, came=came))

    def compare_all(
        self, kind: str, expected: Mapping[str, object], came: Mapping[str, object]
    ) -> None:
        """Compare facts by their names; one that is missing on either side differs."""
        for name in dict.fromkeys((*expected, *came)):
            self.compare(
                kind,
                name,
                expected=expected.get(name, "nothing"),
                came=came.get(name, "nothing"),
            )
