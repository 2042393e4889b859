"""Applies what a rulebook makes of results: late defaults, given ratings, teams taken out."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from fractions import Fraction
from typing import TypeAlias

from wholeball.kernel.identity import GameId, Side, TeamId
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.tables.season import Ratings
from wholeball.season.average import mean
from wholeball.season.leaving import Games, forfeited_by_both, without
from wholeball.season.recorded import at_fault
from wholeball.season.result import Result

Rating: TypeAlias = Decimal | Fraction | None


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
    """Results as they stand.

    `beyond` are the defaults that count as forfeits; `late` are the games listed after a team
    was out, and the teams that were out by then.
    """

    results: tuple[Result, ...]
    beyond: frozenset[GameId] = frozenset()
    out: tuple[Out, ...] = ()
    late: Mapping[GameId, tuple[TeamId, ...]] = field(default_factory=dict)

    @property
    def last(self) -> frozenset[TeamId]:
        """The teams whose games are all annulled, which stand last."""
        return frozenset(one.team for one in self.out if one.games == "annulled")


def upheld(results: Sequence[Result], rulebook: Rulebook) -> Upheld:
    """Return the results as they stand by the rulebook, in the order given.

    Only games with a result are settled: a fixture to come is nobody's forfeit yet. A double
    forfeit that counts nowhere takes no team out, nor does a game listed after its opponents
    were out.
    """
    course = _Course(rulebook)
    for result in sorted(results, key=lambda one: one.round):
        course.take(result)
    stand = [
        replace(one, how="forfeit") if one.game in course.beyond else one for one in results
    ]
    for one in course.out:
        stand = without(stand, one.team, one.games, late=course.late_of(one.team))
    if rulebook.forfeit.removal.results == "rest_forfeited":
        stand = [
            forfeited_by_both(one) if len(course.late.get(one.game, ())) > 1 else one
            for one in stand
        ]
    if rulebook.ratings.by != "nobody":
        stand = [_rated(one, rulebook.ratings) for one in stand]
    return Upheld(
        results=tuple(stand),
        beyond=frozenset(course.beyond),
        out=tuple(course.out),
        late=course.late,
    )


class _Course:
    """Follows a season by round, and as listed within a round."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.out: list[Out] = []
        self.beyond: set[GameId] = set()
        self.late: dict[GameId, tuple[TeamId, ...]] = {}
        self._removal = rulebook.forfeit.removal
        self._allowed = rulebook.forfeit.default.allowed
        self._double = rulebook.forfeit.double.then
        self._defaults: Counter[TeamId] = Counter()
        self._forfeits: Counter[TeamId] = Counter()

    def take(self, result: Result) -> None:
        """Count the next game: late for a team that is out, or nearer to taking one out."""
        gone = {one.team for one in self.out}
        out_by_then = tuple(team for team in (result.home, result.away) if team in gone)
        if out_by_then:
            if result.how != "annulled":
                self.late[result.game] = out_by_then
            return
        if self._is_beyond(result):
            self.beyond.add(result.game)
            result = replace(result, how="forfeit")
        if result.how != "double_forfeit" or self._double != "annulled":
            self._count(result)

    def late_of(self, team: TeamId) -> frozenset[GameId]:
        """Return the games listed after the team was out."""
        return frozenset(game for game, teams in self.late.items() if team in teams)

    def _is_beyond(self, result: Result) -> bool:
        """Tell whether a default comes after those that the team may have."""
        if result.how != "default" or self._allowed == "no_limit":
            return False
        team = result.home if result.by == "home" else result.away
        self._defaults[team] += 1
        return self._defaults[team] > self._allowed

    def _count(self, result: Result) -> None:
        for team in at_fault(result):
            self._forfeits[team] += 1
            if self._forfeits[team] == self._removal.after_forfeits:
                self.out.append(self._out(team, result.round))

    def _out(self, team: TeamId, number: int) -> Out:
        return Out(
            team=team,
            forfeits=self._forfeits[team],
            round=number,
            games=self._removal.results,
            ref=self._removal.ref or "forfeit.removal",
        )


def _rated(result: Result, ratings: Ratings) -> Result:
    """Return a game with the ratings that it brings by rule.

    A game given up brings those of the rulebook where none was written. Of a side with a red
    each rating counts at most the cap, and their mean is what the game adds.
    """
    result = _given_up(result, ratings)
    return _with(result, _capped(result, "home", ratings), _capped(result, "away", ratings))


def _with(result: Result, home: Rating, away: Rating) -> Result:
    """Return a result with these ratings, itself where they are its own: most games keep theirs."""
    if (result.home_rating, result.away_rating) == (home, away):
        return result
    return replace(result, home_rating=home, away_rating=away)


def has_red(result: Result, side: Side) -> bool:
    """Tell whether a player or team official of a side was sent off, as far as is recorded."""
    cards = result.home_cards if side == "home" else result.away_cards
    return side in result.red_staff or (cards is not None and any(cards.in_order[1:]))


def _capped(result: Result, side: Side, ratings: Ratings) -> Rating:
    is_home = side == "home"
    rating = result.home_rating if is_home else result.away_rating
    if rating is None or not has_red(result, side):
        return rating
    cap = ratings.cap_after_sending_off
    given = (result.home_ratings if is_home else result.away_ratings) or (rating,)
    return mean([min(one, cap) for one in given])


def _given_up(result: Result, ratings: Ratings) -> Result:
    given, ready = ratings.given, ratings.given.ready
    if result.how == "double_forfeit":
        return _with_ratings(result, given.forfeiting, given.forfeiting)
    if result.how not in ("forfeit", "default"):
        return result
    fault = given.forfeiting if result.how == "forfeit" else given.defaulting
    return _with_ratings(result, *((fault, ready) if result.by == "home" else (ready, fault)))


def _with_ratings(result: Result, home: Decimal, away: Decimal) -> Result:
    return _with(
        result,
        home if result.home_rating is None else result.home_rating,
        away if result.away_rating is None else result.away_rating,
    )
