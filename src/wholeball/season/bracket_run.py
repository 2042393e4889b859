"""Fills a bracket with teams and results, and says what later rulings would change of it."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal, TypeAlias

from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import From, OpenSide, Seeded
from wholeball.season.bracket import BracketGame
from wholeball.season.filling import loser_of, winner_of
from wholeball.season.result import Result

State: TypeAlias = Literal["open", "decided", "level", "walkover", "nobody"]
"""Still to be played; won; played and level without kicks; won for want of opponents; lost by all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One game of a bracket as it stands.

    `possible_home` and `possible_away` are the teams that can still be that side; a side is
    known where that is one team, and will be missing where it is none. `result` is the game
    that was played, its own home and away as they were.
    """

    game: BracketGame
    possible_home: frozenset[TeamId]
    possible_away: frozenset[TeamId]
    state: State
    winner: TeamId | None = None
    loser: TeamId | None = None
    result: Result | None = None

    @property
    def home(self) -> TeamId | None:
        """The home team, once it is known."""
        return _only(self.possible_home)

    @property
    def away(self) -> TeamId | None:
        """The away team, once it is known."""
        return _only(self.possible_away)


def run(
    games: Sequence[BracketGame],
    seeds: Mapping[int, TeamId],
    results: Sequence[Result],
    *,
    candidates: Mapping[str, Collection[TeamId]] = MappingProxyType({}),
) -> tuple[Line, ...]:
    """Return every game as the results leave it, each before those that it feeds.

    A forfeit, a default and an award are won like a game; where both sides forfeit, nobody
    goes on and the next opponents have a walkover. An annulled game is still to be played. The
    result of a game is the last one between its two teams. A seed that nobody has yet may be
    any of the `candidates` for its bracket.

    Raises:
        ValueError: a side comes from a game that is not listed before it.
    """
    running = _Running(seeds, results, candidates)
    for game in games:
        running.take(game)
    return tuple(running.lines.values())


class _Running:
    """Follows the games of a bracket in their order."""

    def __init__(
        self,
        seeds: Mapping[int, TeamId],
        results: Sequence[Result],
        candidates: Mapping[str, Collection[TeamId]],
    ) -> None:
        self.lines: dict[GameId, Line] = {}
        self._seeds = seeds
        self._candidates = candidates
        self._met = {
            frozenset((one.home, one.away)): one for one in results if one.how != "annulled"
        }

    def take(self, game: BracketGame) -> None:
        home, away = self._possible(game.home), self._possible(game.away)
        result = self._met.get(home | away) if len(home) == len(away) == 1 else None
        winner = winner_of(result) if result else None
        loser = loser_of(result) if result else None
        state = _state(home, away, result, winner)
        if state == "walkover":
            winner = _only(home or away)
        self.lines[game.game] = Line(
            game=game,
            possible_home=home,
            possible_away=away,
            state=state,
            winner=winner,
            loser=loser,
            result=result,
        )

    def _possible(self, side: TeamId | OpenSide) -> frozenset[TeamId]:
        match side:
            case Seeded(seed=seed, bracket=bracket):
                known = self._seeds.get(seed)
                teams = self._candidates.get(bracket, ()) if known is None else (known,)
                return frozenset(teams)
            case From(game=game, takes=takes):
                if game not in self.lines:
                    raise ValueError(f"a side comes from {game}, which is not listed before it")
                return _brought(self.lines[game], takes)
            case team:
                return frozenset((team,))


def _brought(line: Line, takes: Literal["winner", "loser"]) -> frozenset[TeamId]:
    if line.state in ("open", "level"):
        return line.possible_home | line.possible_away
    team = line.winner if takes == "winner" else line.loser
    return frozenset() if team is None else frozenset((team,))


def _state(
    home: frozenset[TeamId],
    away: frozenset[TeamId],
    result: Result | None,
    winner: TeamId | None,
) -> State:
    if not home and not away:
        return "nobody"
    if not home or not away:
        return "walkover" if len(home | away) == 1 else "open"
    if result is None:
        return "open"
    if winner is not None:
        return "decided"
    return "nobody" if result.how == "double_forfeit" else "level"


def _only(teams: frozenset[TeamId]) -> TeamId | None:
    return next(iter(teams)) if len(teams) == 1 else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What drawing anew would change for a team; None is no seed. The draw itself stands."""

    team: TeamId
    drawn: int | None
    now: int | None


def changes(drawn: Sequence[TeamId], now: Sequence[TeamId]) -> tuple[Change, ...]:
    """Return whom a new draw would let in, leave out or seed otherwise, in the drawn order."""
    return tuple(_changes(drawn, now))


def _changes(drawn: Sequence[TeamId], now: Sequence[TeamId]) -> Iterator[Change]:
    were = {team: seed for seed, team in enumerate(drawn, start=1)}
    are = {team: seed for seed, team in enumerate(now, start=1)}
    for team in dict.fromkeys((*drawn, *now)):
        if were.get(team) != are.get(team):
            yield Change(team=team, drawn=were.get(team), now=are.get(team))
