"""Applies what a rulebook makes of results: late defaults, given ratings, teams taken out."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Final, Literal, TypeAlias

from wholeball.kernel.identity import GameId, TeamId
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.tables.season import Ratings
from wholeball.rulebook.value import Most
from wholeball.season.leaving import Removal, without
from wholeball.season.recorded import at_fault
from wholeball.season.result import Result

Games: TypeAlias = Literal["annulled", "kept", "rest_forfeited"]
HOW: Final[dict[Games, Removal]] = {
    "annulled": "annul",
    "kept": "keep",
    "rest_forfeited": "forfeit_rest",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Out:
    """A team that its forfeits take out of the league, from `round` on, and by which article."""

    team: TeamId
    forfeits: int
    round: int
    games: Games
    ref: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Upheld:
    """Results as they stand. `beyond` are the defaults that count as forfeits."""

    results: tuple[Result, ...]
    beyond: frozenset[GameId]
    out: tuple[Out, ...]

    @property
    def last(self) -> frozenset[TeamId]:
        """The teams whose games are all annulled, which stand last."""
        return frozenset(one.team for one in self.out if one.games == "annulled")


def upheld(results: Sequence[Result], rulebook: Rulebook) -> Upheld:
    """Return the results as they stand by the rulebook, in the order given.

    Fixtures to come are not known here, so a team that forfeits the rest has its results as
    they are. A double forfeit that counts nowhere takes no team out.
    """
    beyond = frozenset(_beyond(results, rulebook.forfeit.default.allowed))
    stand = [replace(one, how="forfeit") if one.game in beyond else one for one in results]
    out = tuple(_out(stand, rulebook))
    if rulebook.ratings.by != "nobody":
        stand = [_rated(one, rulebook.ratings) for one in stand]
    for one in out:
        stand = without(stand, one.team, HOW[one.games])
    return Upheld(results=tuple(stand), beyond=beyond, out=out)


def _in_time(results: Iterable[Result]) -> list[Result]:
    """Return results by round, and as given within a round."""
    return sorted(results, key=lambda one: one.round)


def _beyond(results: Sequence[Result], allowed: Most) -> Iterator[GameId]:
    """Return the games of the defaults that come after those a team may have."""
    seen: Counter[TeamId] = Counter()
    for result in _in_time(results):
        if result.how != "default" or allowed == "no_limit":
            continue
        team = result.home if result.by == "home" else result.away
        seen[team] += 1
        if seen[team] > allowed:
            yield result.game


def _out(results: Sequence[Result], rulebook: Rulebook) -> Iterator[Out]:
    """Return the teams that reach the number of forfeits, in the order in which they do."""
    removal, double = rulebook.forfeit.removal, rulebook.forfeit.double.then
    seen: Counter[TeamId] = Counter()
    for result in _in_time(results):
        if result.how == "double_forfeit" and double == "annulled":
            continue
        for team in at_fault(result):
            seen[team] += 1
            if seen[team] == removal.after_forfeits:
                yield Out(
                    team=team,
                    forfeits=seen[team],
                    round=result.round,
                    games=removal.results,
                    ref=removal.ref or "forfeit.removal",
                )


def _rated(result: Result, ratings: Ratings) -> Result:
    """Return a game given up with the ratings that it brings, where none was written."""
    given, ready = ratings.given, ratings.given.ready
    if result.how == "double_forfeit":
        return _with_ratings(result, given.forfeiting, given.forfeiting)
    if result.how not in ("forfeit", "default"):
        return result
    fault = given.forfeiting if result.how == "forfeit" else given.defaulting
    return _with_ratings(result, *((fault, ready) if result.by == "home" else (ready, fault)))


def _with_ratings(result: Result, home: Decimal, away: Decimal) -> Result:
    return replace(
        result,
        home_rating=home if result.home_rating is None else result.home_rating,
        away_rating=away if result.away_rating is None else result.away_rating,
    )
