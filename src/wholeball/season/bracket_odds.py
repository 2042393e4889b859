"""Tells how likely each team is to win a bracket: exactly, or season by simulated season."""

from collections.abc import Callable, Mapping, Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import From
from wholeball.season.bracket import fold, size_for
from wholeball.season.bracket_run import Line
from wholeball.season.count import Whole

Beats: TypeAlias = Callable[[TeamId, TeamId], float]
"""How likely the first team is to win a play-off game against the second."""


def winning(lines: Sequence[Line], beats: Beats) -> dict[TeamId, float]:
    """Return how likely each team is to win the last game of a bracket, all sides known.

    Exact: each side's teams are weighed game by game, since sides never share a team. What is
    decided already is certain. Cost: teams squared for each round.

    Raises:
        ValueError: a side is not known and comes from no game: its seed has no team.
    """
    ends: dict[GameId, Mapping[TeamId, float]] = {}
    for line in lines:
        if not line.game.for_third:
            ends[line.game.game] = _ends(line, ends, beats)
    return dict(ends[lines[-1].game.game])


def _ends(
    line: Line, before: Mapping[GameId, Mapping[TeamId, float]], beats: Beats
) -> dict[TeamId, float]:
    if line.winner is not None:
        return {line.winner: 1.0}
    if line.state == "nobody":
        return {}
    home = _side(line.game.home, line.possible_home, before)
    away = _side(line.game.away, line.possible_away, before)
    wins: dict[TeamId, float] = dict.fromkeys((*home, *away), 0.0)
    for one, one_there in home.items():
        for other, other_there in away.items():
            won = beats(one, other)
            wins[one] += one_there * other_there * won
            wins[other] += one_there * other_there * (1.0 - won)
    return wins


def _side(
    side: object, possible: frozenset[TeamId], before: Mapping[GameId, Mapping[TeamId, float]]
) -> Mapping[TeamId, float]:
    if isinstance(side, From):
        return before[side.game]
    if len(possible) != 1:
        raise ValueError(f"{side} has no team yet")
    return dict.fromkeys(possible, 1.0)


def simulated_winners(
    by_seed: Whole, beats: NDArray[np.float64], chance: np.random.Generator
) -> Whole:
    """Return who wins the bracket in every season.

    Args:
        by_seed: the teams' positions by seed, shape (seeds, seasons).
        beats: how likely row beats column, shape (teams, teams).
        chance: where the games' ends come from.

    Returns:
        positions of the winners, shape (seasons,).
    """
    seeds = len(by_seed)
    lines: list[Whole | None] = [
        by_seed[seed - 1] if seed <= seeds else None for seed in fold(size_for(seeds))
    ]
    while len(lines) > 1:
        pairs = zip(lines[::2], lines[1::2], strict=True)
        lines = [_winners(home, away, beats, chance) for home, away in pairs]
    (winner,) = lines
    if winner is None:
        raise ValueError("a bracket has at least one seed")
    return winner


def _winners(
    home: Whole | None,
    away: Whole | None,
    beats: NDArray[np.float64],
    chance: np.random.Generator,
) -> Whole | None:
    if home is None or away is None:
        return home if away is None else away
    return np.where(chance.random(len(home)) < beats[home, away], home, away)
