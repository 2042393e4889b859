"""Looks games up as a plan places them: by team, by start, by night and by week."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from wholeball.kernel.identity import GameId, TeamId
from wholeball.planning.problem import Pairing, Placement, Slot, Start, TimetableProblem
from wholeball.planning.rule import Rule


@dataclass(frozen=True, slots=True, kw_only=True)
class Game:
    """A game and where it is placed."""

    pairing: Pairing
    start: Start
    field: str

    @property
    def game(self) -> GameId:
        """The name of the game."""
        return self.pairing.game


class Placed:
    """The games of a plan that the problem knows, each at its place."""

    def __init__(self, problem: TimetableProblem, placements: Iterable[Placement]) -> None:
        self.problem = problem
        known = problem.by_game
        self.games = tuple(
            sorted(
                (
                    Game(pairing=known[one.game], start=one.start, field=one.field)
                    for one in placements
                    if one.game in known
                ),
                key=lambda one: (one.start, one.field, one.game),
            )
        )

    @cached_property
    def by_game(self) -> Mapping[GameId, Game]:
        """Each game that is placed, by its name."""
        return {one.game: one for one in self.games}

    @cached_property
    def nights(self) -> tuple[date, ...]:
        """The nights that can be used, in order."""
        return tuple(dict.fromkeys(start.night for start in self.problem.starts))

    @cached_property
    def weeks(self) -> tuple[int, ...]:
        """The weeks that have a night that can be used, in order."""
        return tuple(dict.fromkeys(self.problem.week_of(night) for night in self.nights))

    @cached_property
    def order(self) -> Mapping[Start, int]:
        """The starts that can be used, numbered in the order of time."""
        return {start: index for index, start in enumerate(self.problem.starts)}

    def slot(self, one: Game) -> Slot | None:
        """Return the slot that a game is in, or None where there is no such slot."""
        return self.problem.slot_at.get((one.start, one.field))

    def concerned(self, rule: Rule) -> tuple[TeamId, ...]:
        """Return the teams that a rule concerns, in the order of the league."""
        every = tuple(one.team for one in self.problem.teams)
        named = frozenset(rule.teams)
        return tuple(team for team in every if team in named) if named else every

    def of(self, team: TeamId, rule: Rule) -> tuple[Game, ...]:
        """Return a team's games that a rule looks at, in the order of time.

        Where the rule must hold, these are all that the team may come to play; a wish counts
        those whose sides are known.
        """
        games = self._possible if rule.strength == "must" else self._certain
        return tuple(_looked_at(games.get(team, ()), rule))

    def together(self, rule: Rule) -> Iterator[tuple[TeamId, tuple[Game, ...]]]:
        """Yield each team that a rule concerns with games that it may play all of.

        A team of several seeds, or of several ways through a bracket, comes once for each way:
        who loses a semi-final plays no final. A wish sees the games whose sides are known.
        """
        for team in self.concerned(rule):
            if rule.strength == "wish":
                yield team, self.of(team, rule)
                continue
            for ways in self.problem.ways_of(team):
                here = (one for one in self._possible.get(team, ()) if one.game in ways)
                yield team, tuple(_looked_at(here, rule))

    @cached_property
    def _possible(self) -> Mapping[TeamId, list[Game]]:
        found: dict[TeamId, list[Game]] = defaultdict(list)
        for one in self.games:
            for team in self.problem.possible[one.game]:
                found[team].append(one)
        return found

    @cached_property
    def _certain(self) -> Mapping[TeamId, list[Game]]:
        found: dict[TeamId, list[Game]] = defaultdict(list)
        for one in self.games:
            for side in one.pairing.sides:
                if isinstance(side, str):
                    found[TeamId(side)].append(one)
        return found


def _looked_at(games: Iterable[Game], rule: Rule) -> Iterator[Game]:
    for one in games:
        if rule.looks_at(is_play_off=one.pairing.pool is None):
            yield one
