"""Holds a whole season as it stands: its league, its rulebook, its results and its rulings."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.league.league import League
from wholeball.rulebook.book import Rulebook
from wholeball.season.count import Counting, Deduction, ForfeitCounting, Points
from wholeball.season.result import Result
from wholeball.season.ruling import Ruling
from wholeball.season.standings import Regulation, RoundTable, Settled, standings_by_round
from wholeball.season.tally import OutsideFigures
from wholeball.season.upheld import Upheld, upheld


@dataclass(frozen=True, slots=True, kw_only=True)
class Season:
    """What is known of a season; everything else is computed from it.

    `source` says where the results come from, if it is not the league itself. `days` and
    `notes` are those of games, and `given_up` why a side forfeited one; `rulings` are those that the results have taken in already;
    the games that are `damaged` count by what can still be read of their logs;
    `outside` holds what the games cannot tell, such as the order of drawn lots, and the matches
    between level teams; `play_offs` are the results of the bracket. With `has_one_bracket` all
    divisions play for one.
    """

    league: League
    rulebook: Rulebook
    results: tuple[Result, ...]
    source: str = ""
    deductions: tuple[Deduction, ...] = ()
    rulings: tuple[Ruling, ...] = ()
    damaged: frozenset[GameId] = frozenset()
    outside: OutsideFigures = field(default_factory=OutsideFigures)
    play_offs: tuple[Result, ...] = ()
    days: Mapping[GameId, date] = field(default_factory=dict)
    notes: Mapping[GameId, str] = field(default_factory=dict)
    given_up: Mapping[GameId, str] = field(default_factory=dict)
    has_one_bracket: bool = False


def regulation(rulebook: Rulebook) -> Regulation:
    """Return what a rulebook says of the table."""
    points, forfeit = rulebook.standings.points, rulebook.forfeit
    default = forfeit.default
    return Regulation(
        criteria=rulebook.standings.criteria,
        last_resort=rulebook.standings.last_resort,
        counting=Counting(
            points=Points(win=points.win, draw=points.draw, loss=points.loss),
            forfeit=ForfeitCounting(
                goals_for=forfeit.score.winners,
                goals_against=forfeit.score.losers,
                counts_in_difference=forfeit.in_difference,
                played_score_if_worse=forfeit.played_if_worse,
                points_loser=points.forfeit_loss,
            ),
            default=ForfeitCounting(
                goals_for=default.score.winners,
                goals_against=default.score.losers,
                counts_in_difference=default.in_difference,
            ),
            double=forfeit.double.then,
        ),
        ratings_least=rulebook.ratings.minimum_count,
    )


def pool_tables(season: Season, pool: PoolId) -> tuple[RoundTable, ...]:
    """Return a pool's table after each round that has a result, oldest first."""
    teams = season.league.pools[pool]
    members = frozenset[TeamId](teams)
    return standings_by_round(
        _results(season, pool),
        regulation(season.rulebook),
        teams=teams,
        deductions=[one for one in season.deductions if one.team in members],
        outside=outside_a_pool(season),
        settle=lambda results: _settled(results, season.rulebook),
    )


def outside_a_pool(season: Season) -> OutsideFigures:
    """Return what can part teams of one pool from outside: lots only where the rulebook asks them.

    Lots that part no places of a pool may still give seeds.
    """
    if season.rulebook.standings.last_resort in ("lots", "coordinator"):
        return season.outside
    return replace(season.outside, lots=())


def upheld_in(season: Season, pool: PoolId, *, up_to: int) -> Upheld:
    """Return how a pool's results up to a round stand, and which teams are out by then."""
    results = [one for one in _results(season, pool) if one.round <= up_to]
    return upheld(results, season.rulebook)


def _settled(results: Sequence[Result], rulebook: Rulebook) -> Settled:
    found = upheld(results, rulebook)
    return Settled(results=found.results, last=found.last)


def _results(season: Season, pool: PoolId) -> list[Result]:
    members = frozenset[TeamId](season.league.pools[pool])
    return [result for result in season.results if result.home in members]
