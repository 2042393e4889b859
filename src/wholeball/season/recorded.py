"""Reads what the results record besides goals: forfeits, sportsmanship ratings, conduct."""

from collections.abc import Iterator

import numpy as np

from wholeball.kernel.identity import TeamId
from wholeball.rulebook.criteria import ConductPoints
from wholeball.season.average import average, of_games
from wholeball.season.column import Column, Quantity, Reason, all_known, ranked, unknown
from wholeball.season.result import CardCounts, Result
from wholeball.season.tally import Facts


def forfeits(facts: Facts) -> Column:
    """Count forfeits, not defaults; a double forfeit is one of each side."""
    if facts.games is None:
        return unknown(len(facts.teams), "not_recorded")
    counts = dict.fromkeys(facts.teams, 0)
    for result in _that_count(facts):
        for team in at_fault(result):
            counts[team] += 1
    return all_known(np.array(list(counts.values()), dtype=np.int64), fewest=True)


def _that_count(facts: Facts) -> Iterator[Result]:
    return (result for result in facts.results if result.how not in facts.left_out)


def at_fault(result: Result) -> tuple[TeamId, ...]:
    """Return who forfeited a game, both sides of a double forfeit; nobody for a default."""
    if result.how == "double_forfeit":
        return (result.home, result.away)
    if result.how == "forfeit":
        return (result.home if result.by == "home" else result.away,)
    return ()


def ratings(facts: Facts) -> Column:
    """Average over the games in which the team was rated, exact; none of too few."""
    given = of_games(facts.results, facts.teams, left_out=facts.left_out)
    least = facts.ratings_least
    reason: Reason = "not_recorded"
    if least > 1 and any(given.values()):
        reason = "too_few_ratings"
    averages = [
        average([game.value for game in games], least=least) for games in given.values()
    ]
    return ranked(averages, reason=reason)


def conduct(facts: Facts, costs: ConductPoints) -> Column:
    """Count conduct; a team with one game whose cards were not recorded has no figure."""
    totals = _recorded_cards(facts)
    cost = (
        costs.yellow,
        costs.second_yellow,
        costs.straight_red,
        costs.yellow_and_straight_red,
    )
    figures: list[Quantity | None] = []
    for team in facts.teams:
        outside = facts.outside.cards.get(team)
        counts = outside.in_order if outside is not None else totals[team]
        figures.append(None if counts is None else _worth(counts, cost))
    return ranked(figures)


def _worth(counts: tuple[int, ...], cost: tuple[int, ...]) -> int:
    return sum(each * price for each, price in zip(counts, cost, strict=True))


def _recorded_cards(facts: Facts) -> dict[TeamId, tuple[int, ...] | None]:
    start = None if facts.games is None else (0, 0, 0, 0)
    totals: dict[TeamId, tuple[int, ...] | None] = dict.fromkeys(facts.teams, start)
    for result in _that_count(facts):
        for team, cards in ((result.home, result.home_cards), (result.away, result.away_cards)):
            totals[team] = _with_cards(totals[team], cards, result)
    return totals


def _with_cards(
    total: tuple[int, ...] | None, cards: CardCounts | None, result: Result
) -> tuple[int, ...] | None:
    if cards is not None and total is not None:
        return tuple(a + b for a, b in zip(total, cards.in_order, strict=True))
    on_the_field = result.how == "played" or result.played_score is not None
    return None if on_the_field else total
