"""Invents the league: who signs up when, who plays for whom, who officiates."""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from random import Random
from typing import Final, NamedTuple

from demo.words import COLOURS, FORMED, TEAMS, person_names
from demo.world import Block, Person, Size, Team

SHORT: Final = 2
"""By how many players the first team is short when it signs up."""
LEFT_OVER: Final = 3


class SignedUp(NamedTuple):
    """A team that asks for a place."""

    team: Team
    block: Block
    at: datetime
    players: int


class Alone(NamedTuple):
    """A player who asks without a team."""

    code: str
    name: str
    block: Block
    at: datetime


@dataclass(slots=True, kw_only=True)
class Invented:
    """The people and teams before the season.

    `formed` is the team of players who came alone; the last team of the first block comes too
    late for a place. `twice` is a person on the lists of two teams, under two spellings.
    """

    signed_up: list[SignedUp]
    alone: list[Alone]
    formed: SignedUp
    twice: tuple[Person, Team, Team]
    officials: list[str]

    def teams(self) -> list[Team]:
        """Return every team that asked for a place, the formed one too."""
        return [one.team for one in (*self.signed_up, self.formed)]


def invent(size: Size, rng: Random, *, least: int) -> Invented:
    """Return the league of a size; a team has `least` players at least."""
    made = _Inventing(size, rng)
    first, second = size.blocks
    signed_up = [
        *made.sign_ups(first, first.places + 1, short=least - SHORT),
        *made.sign_ups(second, second.places - 1),
    ]
    formed = made.sign_up(FORMED, second, size.opens + timedelta(days=9), size.formed)
    alone = [
        *made.alone(first, SHORT + LEFT_OVER),
        *made.alone(second, size.formed, [one.name for one in formed.team.players]),
    ]
    return Invented(
        signed_up=signed_up,
        alone=alone,
        formed=formed,
        twice=_twice(signed_up),
        officials=made.names[-size.officials :],
    )


class _Inventing:
    """Hands out names, ids and times, each once."""

    def __init__(self, size: Size, rng: Random) -> None:
        self._size = size
        self._rng = rng
        spare = 3 * size.squad + size.officials + LEFT_OVER + SHORT
        self.names = person_names(rng, size.players + spare)
        self._next = iter(self.names)
        self._students = iter(rng.sample(range(10**7, 10**8), size.players + spare))
        self._team_names = iter(TEAMS)
        self._at = size.opens

    def sign_ups(self, block: Block, count: int, *, short: int = 0) -> list[SignedUp]:
        """Return teams that ask for a block; one is `short` of players and grows later."""
        found = []
        for index in range(count):
            self._at += timedelta(minutes=self._rng.randrange(7, 400))
            made = self.sign_up(next(self._team_names), block, self._at, self._size.squad)
            players = short if short and index == 1 else len(made.team.players)
            found.append(made._replace(players=players))
        return found

    def sign_up(self, name: str, block: Block, at: datetime, players: int) -> SignedUp:
        """Return one team with its players; every sixth wears shirts without numbers."""
        index = TEAMS.index(name) if name in TEAMS else len(TEAMS)
        team = Team(
            name=name,
            block=block.block,
            colours=(COLOURS[index], COLOURS[(index + 7) % len(COLOURS)]),
            strength=self._rng.uniform(0.7, 1.5),
            has_numbers=index % 6 != 3,
        )
        numbers = self._rng.sample(range(1, 60), players)
        team.players = [
            self._person(number if team.has_numbers else None, is_captain=not at_place)
            for at_place, number in enumerate(numbers)
        ]
        return SignedUp(team, block, at, players)

    def _person(self, number: int | None, *, is_captain: bool) -> Person:
        student = f"0{next(self._students)}"
        return Person(
            student=student, name=next(self._next), number=number, is_captain=is_captain
        )

    def alone(self, block: Block, count: int, names: list[str] | None = None) -> list[Alone]:
        """Return players without a team; those of the formed team keep their names."""
        called = names or [next(self._next) for _ in range(count)]
        return [
            Alone(
                f"alone-{block.weekday[:2]}-{index}",
                name,
                block,
                self._size.opens + timedelta(hours=index),
            )
            for index, name in enumerate(called, start=1)
        ]


def _twice(signed_up: list[SignedUp]) -> tuple[Person, Team, Team]:
    """Let a player of one team stand on another's list too, spelt otherwise."""
    one, another = signed_up[2].team, signed_up[3].team
    person = one.players[5]
    spelt = person.name.replace("a", "á", 1).upper()
    return replace(person, name=spelt, number=None), one, another
