"""Says whose average rating is surely too low for the play-offs, and whose may yet be."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from wholeball.kernel.identity import TeamId
from wholeball.league.fixture import Fixture
from wholeball.rulebook.tables.season import Ratings
from wholeball.season.ratings import TeamRatings, season_ratings
from wholeball.season.season import Season


@dataclass(frozen=True, slots=True, kw_only=True)
class Gates:
    """The teams below what play-offs need as it stands, surely so, and those that it hangs on."""

    below: frozenset[TeamId]
    surely_below: frozenset[TeamId]
    unsure: frozenset[TeamId]


def gates(season: Season, left: Sequence[Fixture]) -> Gates:
    """Return whom the ratings bar, with the games left rated as they may be, or not rated.

    Too few ratings make no average, so they bar nobody.
    """
    games_left = Counter(team for one in left for team in (one.home, one.away))
    rated = season_ratings(season, ())
    rules = season.rulebook.ratings
    may_fail = {one.team for one in rated.teams if _may_fail(one, games_left[one.team], rules)}
    may_pass = {one.team for one in rated.teams if _may_pass(one, games_left[one.team], rules)}
    return Gates(
        below=frozenset(one.team for one in rated.teams if one.gate == "below"),
        surely_below=frozenset(may_fail - may_pass),
        unsure=frozenset(may_fail & may_pass),
    )


def _may_fail(team: TeamRatings, left: int, rules: Ratings) -> bool:
    total, count = _so_far(team)
    return any(
        _average(total + more * Fraction(rules.scale.low), count + more)
        < rules.play_off_minimum
        for more in range(left + 1)
        if count + more >= max(rules.minimum_count, 1)
    )


def _may_pass(team: TeamRatings, left: int, rules: Ratings) -> bool:
    total, count = _so_far(team)
    return any(
        count + more < max(rules.minimum_count, 1)
        or _average(total + more * Fraction(rules.scale.high), count + more)
        >= rules.play_off_minimum
        for more in range(left + 1)
    )


def _so_far(team: TeamRatings) -> tuple[Fraction, int]:
    return sum((one.counts for one in team.games), Fraction()), team.count


def _average(total: Fraction, count: int) -> Fraction:
    return total / count
