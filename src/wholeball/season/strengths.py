"""Fits how strongly teams attack and defend to the games they played, shrunk towards the mean."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from wholeball.kernel.identity import TeamId
from wholeball.season.result import Result

Real = NDArray[np.float64]
SPREAD: Final = 0.35
"""How far a team's attack or defence may be expected to lie from the mean, on the log scale.

Two thirds of teams then score between 0.7 and 1.4 times the mean against a usual defence (our own
choice: with four or five games a team, a free fit would take luck for strength).
"""
MEAN_GOALS: Final = 2.0
MEAN_SPREAD: Final = 1.0
"""What is expected of the goals of a side before any game, and how little that weighs."""
_STEPS: Final = 50
_CLOSE: Final = 1e-10


@dataclass(frozen=True, slots=True, kw_only=True)
class Strengths:
    """Goals that sides score, on the log scale: `mean` + attack - the opponents' defence.

    Grounds are neutral: there is no term for playing at home. `games` are how many fed it.
    """

    mean: float
    attack: Mapping[TeamId, float]
    defence: Mapping[TeamId, float]
    games: int

    def goals(self, team: TeamId, against: TeamId) -> float:
        """Return how many goals a team scores against another on average."""
        return float(np.exp(self.mean + self.attack[team] - self.defence[against]))


def strengths(
    results: Iterable[Result], teams: Sequence[TeamId], *, spread: float = SPREAD
) -> Strengths:
    """Return the most likely strengths of a Poisson model with normal priors.

    Only games that were played and stand as played feed it: a forfeit's or an award's score
    says nothing of strength. A score that a mercy rule cut short is taken as it is.
    """
    index = {team: number for number, team in enumerate(teams)}
    played = [one for one in results if one.how == "played"]
    pairs = [(index[one.home], index[one.away], one.home_goals) for one in played]
    pairs += [(index[one.away], index[one.home], one.away_goals) for one in played]
    n = len(teams)
    design = np.zeros((len(pairs), 1 + 2 * n))
    for row, (team, against, _) in enumerate(pairs):
        design[row, [0, 1 + team]] = 1.0
        design[row, 1 + n + against] = -1.0
    goals = np.array([one[2] for one in pairs], dtype=np.float64)
    found = _most_likely(design, goals, _precision(n, spread))
    return Strengths(
        mean=float(found[0]),
        attack=dict(zip(teams, found[1 : 1 + n].tolist(), strict=True)),
        defence=dict(zip(teams, found[1 + n :].tolist(), strict=True)),
        games=len(played),
    )


def _precision(teams: int, spread: float) -> Real:
    return np.array([MEAN_SPREAD**-2, *[spread**-2] * (2 * teams)])


def _most_likely(design: Real, goals: Real, precision: Real) -> Real:
    """Return the posterior mode, by Newton steps that are halved while they overshoot."""
    prior = np.zeros(len(precision))
    prior[0] = np.log(MEAN_GOALS)
    found = prior.copy()
    for _ in range(_STEPS):
        expected = np.exp(design @ found)
        slope = design.T @ (goals - expected) - precision * (found - prior)
        curve = (design.T * expected) @ design + np.diag(precision)
        step = np.linalg.solve(curve, slope)
        while _worth(design, goals, precision, found + step - prior) < _worth(
            design, goals, precision, found - prior
        ):
            step /= 2
            if np.abs(step).max() < _CLOSE:
                break
        found = found + step
        if np.abs(step).max() < _CLOSE:
            break
    return found


def _worth(design: Real, goals: Real, precision: Real, off: Real) -> float:
    """Return the log posterior, less a constant; `off` is how far from the prior's centre."""
    eta = design @ off + np.log(MEAN_GOALS) * design[:, 0]
    return float(goals @ eta - np.exp(eta).sum() - 0.5 * (precision * off * off).sum())
