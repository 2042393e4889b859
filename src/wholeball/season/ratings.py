"""Says what each team's sportsmanship ratings come to by the rulebook, and which want a look.

Nothing here puts teams in an order or takes one out: people decide.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal, TypeAlias

from wholeball.kernel.identity import GameId, PoolId, Side, TeamId
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.tables.season import Ratings
from wholeball.season.average import OfGame, average, of_games
from wholeball.season.result import Result
from wholeball.season.season import Season, regulation, upheld_in
from wholeball.season.upheld import has_red

Rater: TypeAlias = Literal["official", "second_official", "opponent"]
Gate: TypeAlias = Literal["passes", "below", "too_few"]
"""Whether an average is enough for the play-offs; of too few ratings there is none."""
Source: TypeAlias = Literal["rated", "given", "capped"]
"""Somebody's rating; one that a forfeit or default brings; one held down after a red."""
Why: TypeAlias = Literal["floor", "no_reason", "above_cap"]
"""As low as the coordinator is to see; low and no reason written; above what a red allows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rated:
    """One rating that a team was given in a game.

    `by` and `official` are None where nobody wrote down who gave it, and `official` where
    the opponents did.
    """

    game: GameId
    round: int
    team: TeamId
    by: Rater | None = None
    official: str | None = None
    value: Decimal
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RatedGame:
    """What a game adds to a team's average; `was` is what was rated where less counts."""

    game: GameId
    round: int
    counts: Fraction
    source: Source = "rated"
    was: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamRatings:
    """A team's average, None of too few games, and the games that it comes from."""

    team: TeamId
    pool: PoolId
    games: tuple[RatedGame, ...]
    average: Fraction | None
    gate: Gate

    @property
    def count(self) -> int:
        """In how many games the team has a rating."""
        return len(self.games)


@dataclass(frozen=True, slots=True, kw_only=True)
class ToReview:
    """A rating that the coordinator is to look at, and why; nothing follows by itself."""

    rated: Rated
    why: Why


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonRatings:
    """All teams in the order of the league's list, and the ratings to look at."""

    rules: Ratings
    teams: tuple[TeamRatings, ...]
    review: tuple[ToReview, ...]


def season_ratings(season: Season, rated: Sequence[Rated]) -> SeasonRatings:
    """Return what a season's ratings come to; none where the rulebook has nobody rate.

    Averages are of the league's games, as they stand in the tables. The ratings to look at
    are of all games; a result without a rating in `rated` is one that nobody signed.
    """
    rules = season.rulebook.ratings
    if rules.by == "nobody":
        return SeasonRatings(rules=rules, teams=(), review=())
    return SeasonRatings(
        rules=rules,
        teams=tuple(_teams(season)),
        review=tuple(_to_review(season, rated, rules)),
    )


def gate(found: Fraction | None, least: Decimal) -> Gate:
    """Tell whether an average is enough; it is compared as it is, never rounded."""
    if found is None:
        return "too_few"
    return "passes" if found >= least else "below"


def opinions(season: Season, rated: Iterable[Rated]) -> tuple[Rated, ...]:
    """Return the ratings that the rules left free, in the order given.

    A side with a red may not be rated above the cap, and a game that was given up brings
    ratings of its own, so neither tells what somebody thought.
    """
    free = {
        (result.game, team)
        for result in _all(season)
        if result.how in ("played", "awarded")
        for side, team in _sides(result)
        if not has_red(result, side)
    }
    return tuple(one for one in rated if (one.game, one.team) in free)


def _teams(season: Season) -> Iterator[TeamRatings]:
    newest = max((one.round for one in season.results), default=0)
    written = {one.game: one for one in season.results}
    by_team: dict[TeamId, list[OfGame]] = {}
    for pool, teams in season.league.pools.items():
        stand = upheld_in(season, pool, up_to=newest).results
        left_out = regulation(season.rulebook).counting.left_out
        by_team |= of_games(stand, teams, left_out=left_out)
    for team in season.league.teams:
        games = [_game(one, written[one.result.game]) for one in by_team[team.team]]
        yield _team(team.team, team.pool, games, season.rulebook)


def _team(
    team: TeamId, pool: PoolId, games: Sequence[RatedGame], rulebook: Rulebook
) -> TeamRatings:
    rules = rulebook.ratings
    found = average([one.counts for one in games], least=rules.minimum_count)
    in_order = sorted(games, key=lambda one: one.round)
    return TeamRatings(
        team=team,
        pool=pool,
        games=tuple(in_order),
        average=found,
        gate=gate(found, rules.play_off_minimum),
    )


def _game(stands: OfGame, written: Result) -> RatedGame:
    was = _rating(written, stands.side)
    source: Source = "rated"
    if was is None:
        source = "given"
    elif was != stands.value:
        source = "capped"
    return RatedGame(
        game=written.game,
        round=written.round,
        counts=stands.value,
        source=source,
        was=was if source == "capped" else None,
    )


def _to_review(season: Season, rated: Sequence[Rated], rules: Ratings) -> Iterator[ToReview]:
    order = {one.team: position for position, one in enumerate(season.league.teams)}
    reds = {
        (result.game, team)
        for result in _all(season)
        for side, team in _sides(result)
        if has_red(result, side)
    }
    every = (*rated, *_unsigned(season, rated))
    for one in sorted(every, key=lambda one: (order[one.team], one.round)):
        if one.value <= rules.floor:
            yield ToReview(rated=one, why="floor")
        if one.by and one.value <= rules.reason_at_or_below and not one.reason.strip():
            yield ToReview(rated=one, why="no_reason")
        if one.value > rules.cap_after_sending_off and (one.game, one.team) in reds:
            yield ToReview(rated=one, why="above_cap")


def _unsigned(season: Season, rated: Iterable[Rated]) -> Iterator[Rated]:
    """Yield the ratings of results of which nobody wrote down who gave them."""
    known = {(one.game, one.team) for one in rated}
    for result in _all(season):
        for side, team in _sides(result):
            value = _rating(result, side)
            if value is not None and (result.game, team) not in known:
                written = Decimal(value.numerator) / value.denominator
                yield Rated(game=result.game, round=result.round, team=team, value=written)


def _all(season: Season) -> tuple[Result, ...]:
    return (*season.results, *season.play_offs, *season.outside.play_offs)


def _sides(result: Result) -> tuple[tuple[Side, TeamId], ...]:
    return (("home", result.home), ("away", result.away))


def _rating(result: Result, side: Side) -> Fraction | None:
    value = result.home_rating if side == "home" else result.away_rating
    return None if value is None else Fraction(value)
