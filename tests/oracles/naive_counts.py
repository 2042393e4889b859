"""Counts what a naive game comes to: kicks from the mark, and the score of a forfeit."""

from wholeball.rulebook.book import Rulebook

SIDES = ("home", "away")
Pair = list[int]


def are_kicks_over(book: Rulebook, goals: Pair, taken: Pair) -> bool:
    """Law 10.3: over once a side has more than the other could reach, then pair by pair."""
    rules = book.kicks
    each = max(rules.each, *taken) if rules.sudden_death else rules.each
    can_reach = [goals[side] + max(0, each - taken[side]) for side in (0, 1)]
    is_decided = goals[0] > can_reach[1] or goals[1] > can_reach[0]
    if min(taken) >= rules.each:
        return is_decided or not rules.sudden_death
    return is_decided and rules.ends == "as_soon_as_decided"


def result(book: Rulebook, how: str | None, loser: str | None, score: Pair) -> Pair | None:
    """Return what a game counts as; nothing while it goes on or where it does not count."""
    if how in (None, "annulled", "to_coordinator"):
        return None
    if how == "double_forfeit":
        return [0, 0]
    if how not in ("forfeit", "default"):
        return score
    rules = book.forfeit
    given = rules.score if how == "forfeit" else rules.default.score
    won, lost = score if loser == "away" else score[::-1]
    is_worse = won - lost > given.winners - given.losers
    if how == "forfeit" and rules.played_if_worse and is_worse:
        return score
    counted = [given.winners, given.losers]
    return counted if loser == "away" else counted[::-1]


def ahead(score: Pair) -> str | None:
    """Return the side with more, or nothing where they are level."""
    return None if score[0] == score[1] else SIDES[score[1] > score[0]]
