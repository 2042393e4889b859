"""Says which games of a season are still to be played, and which are settled beforehand."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace

from wholeball.kernel.identity import Side, TeamId
from wholeball.league.fixture import Fixture
from wholeball.season.record import pools_stand
from wholeball.season.result import Result
from wholeball.season.season import Season


@dataclass(frozen=True, slots=True, kw_only=True)
class ToCome:
    """A season with what is settled beforehand, and the games of its league left to play.

    `given` are the games settled so: nobody has written a result of theirs down.
    """

    season: Season
    left: tuple[Fixture, ...]
    given: tuple[Result, ...] = ()


def to_come(season: Season, timetable: Iterable[Fixture]) -> ToCome:
    """Return what is left of a season by its timetable.

    A team that was taken out plays no more: what becomes of its games is what the rulebook makes of
    those listed after it was out. One of an earlier round that was put off is among them.
    """
    known = {one.game for one in season.results}
    out = frozenset(team for pool in pools_stand(season) for team in pool.out)
    without = [one for one in timetable if one.stage == "league" and one.game not in known]
    settled = [one for one in without if {one.home, one.away} & out]
    forfeited = season.rulebook.forfeit.removal.results == "rest_forfeited"
    newest = max((one.round for one in season.results), default=0)
    given = tuple(_given(one, out, newest) for one in settled) if forfeited else ()
    return ToCome(
        season=replace(season, results=(*season.results, *given)),
        left=tuple(one for one in without if not {one.home, one.away} & out),
        given=given,
    )


def _given(fixture: Fixture, out: Collection[TeamId], newest: int) -> Result:
    """Return a game that a team which was taken out, or both, forfeit after all that was played."""
    both = fixture.home in out and fixture.away in out
    by: Side = "home" if fixture.home in out else "away"
    return Result(
        game=fixture.game,
        round=max(fixture.round, newest),
        home=fixture.home,
        away=fixture.away,
        how="double_forfeit" if both else "forfeit",
        by=None if both else by,
    )
