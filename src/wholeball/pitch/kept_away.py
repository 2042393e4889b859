"""States how far players keep away at each restart."""

from dataclasses import dataclass

from wholeball.kernel.units import Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Distances:
    """How far players keep away at each restart; 0 where no distance is kept.

    Opponents from the ball at a free kick and at kick-off, from the corner arc, and from the
    point on the touchline; everybody else from the penalty mark and from a dropped ball. At a
    goal kick opponents keep out of the penalty area, so it has no distance.
    """

    free_kick: Tenths
    kick_off: Tenths
    corner: Tenths
    penalty: Tenths
    throw_in: Tenths
    dropped_ball: Tenths
