"""Tells who wears a number in a game, by the check-in of that game and then by the roster."""

from collections.abc import Mapping
from functools import cached_property
from typing import Literal, NamedTuple, TypeAlias

from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.player import Player, Rosters, person_of

WhyUnknown: TypeAlias = Literal[
    "no_number",
    "not_on_roster",
    "shared_number",
    "shared_name",
    "unknown_name",
    "team_official",
]


class Found(NamedTuple):
    """Whom an entry is about, or why nobody can tell."""

    person: PersonId | None
    why: WhyUnknown | None = None


class Wearers:
    """The players of one side as they can be told apart in one game."""

    def __init__(self, team: TeamId, rosters: Rosters) -> None:
        players = rosters.get(team, ())
        self.team = team
        self.has_roster = bool(players)
        self._rosters = rosters
        self._own = {person_of(team, one) for one in players}
        self._names = _by_name(team, players)
        self._numbers = _by_number(team, players)
        self._given: dict[int, set[PersonId]] = {}

    def named(self, name: str) -> Found:
        """Return who a code or a name is; a code counts on whichever roster it stands.

        The team's own players are looked at first: to read every roster takes long.
        """
        code = PersonId(name)
        if code in self._own:
            return Found(code)
        found = self._names.get(name.casefold(), set())
        if len(found) == 1:
            return Found(next(iter(found)))
        if code in self._codes:
            return Found(code)
        return Found(None, "shared_name" if found else "unknown_name")

    @cached_property
    def _codes(self) -> set[PersonId | None]:
        return {one.person for others in self._rosters.values() for one in others}

    def give(self, number: int, person: PersonId) -> None:
        """Note that a player wears a number for this game, whatever the roster says."""
        self._given.setdefault(number, set()).add(person)

    def wearer(self, number: int | None) -> Found:
        """Return who wears a number in this game."""
        if number is None:
            return Found(None, "no_number")
        found = self._given.get(number) or self._numbers.get(number, set())
        if len(found) == 1:
            return Found(next(iter(found)))
        return Found(None, "shared_number" if found else "not_on_roster")


def _by_name(team: TeamId, players: tuple[Player, ...]) -> Mapping[str, set[PersonId]]:
    names: dict[str, set[PersonId]] = {}
    for one in players:
        names.setdefault(one.name.casefold(), set()).add(person_of(team, one))
    return names


def _by_number(team: TeamId, players: tuple[Player, ...]) -> Mapping[int, set[PersonId]]:
    numbers: dict[int, set[PersonId]] = {}
    for one in players:
        if one.number is not None:
            numbers.setdefault(one.number, set()).add(person_of(team, one))
    return numbers
