"""Keeps kicks from the mark: whose turn it is, who may kick, and when they are decided."""

from wholeball.game.event import Event
from wholeball.game.happenings import KickersListed, KickersReduced, KickTaken
from wholeball.game.ledger import SIDES, Ledger, SideLedger
from wholeball.game.people import ask_who
from wholeball.game.state import Score
from wholeball.kernel.identity import Side
from wholeball.rulebook.book import Path


def winner_of(
    scored: Score, taken: Score, *, each: int, sudden_death: bool, all_taken: bool
) -> Side | None:
    """Return which side has won, as soon as the other cannot reach it any more.

    After `each` kicks a side, more are taken in pairs where there is sudden death: no side wins
    before both have taken the same number.

    Source: IFAB Laws of the Game, Law 10.3.
    """
    rounds = max(each, *taken) if sudden_death else each
    if all_taken and min(taken) < rounds:
        return None
    if scored.home > scored.away + max(0, rounds - taken.away):
        return "home"
    if scored.away > scored.home + max(0, rounds - taken.home):
        return "away"
    return None


def turn_of(taken: Score, first: Side | None) -> Side | None:
    """Return the side to kick next: the one with fewer kicks, or the first where even."""
    if taken.home == taken.away:
        return first
    return "home" if taken.home < taken.away else "away"


def list_kickers(game: Ledger, what: KickersListed) -> None:
    """Take the list of those who may kick."""
    game.sides[what.side].kickers = what.numbers


def reduce_kickers(game: Ledger, what: KickersReduced) -> None:
    """Leave players out of the kicks."""
    game.sides[what.side].left_out |= set(what.numbers)


def kick(game: Ledger, event: Event, what: KickTaken) -> None:
    """Take a kick, count it unless the kicks were decided, and see whether they are now."""
    in_turn = _may_count(game, event, what)
    by_right = _ask_kicker(game, event, what)
    if not in_turn or not by_right:
        return
    if game.kicks_first is None:
        game.kicks_first = what.side
    side = game.sides[what.side]
    side.kicks_taken += 1
    side.kicks_scored += what.scored and what.taken
    if game.phase == "kicks":
        _decide(game, event)


def _may_count(game: Ledger, event: Event, what: KickTaken) -> bool:
    amiss = _amiss(game)
    if amiss is not None:
        code, article = amiss
        return game.ask(code, event.at, event.id, article=article, counts=False)
    turn = turn_of(_taken(game), game.kicks_first)
    if turn and what.side != turn:
        return game.ask("turn", event.at, event.id, article="kicks", side=what.side)
    return True


def _amiss(game: Ledger) -> tuple[str, Path] | None:
    """Return why no kick is taken at this time: the question's code and its article."""
    if game.ending and game.ending.how == "kicks":
        return "decided", "kicks"
    if not game.rules.has_kicks:
        return "not_in_rulebook", "ties"
    if game.ending:
        return "after_end", "game"
    if game.phase != "kicks":
        return "period_order", "ties"
    return ("not_in_play", "game.stoppages") if game.is_in_hold else None


def _decide(game: Ledger, event: Event) -> None:
    rule = game.rules.book.kicks
    scored, taken = _scored(game), _taken(game)
    winner = winner_of(
        scored,
        taken,
        each=rule.each,
        sudden_death=rule.sudden_death,
        all_taken=rule.ends == "all_taken",
    )
    if winner is None and (rule.sudden_death or min(taken) < rule.each):
        return
    game.kicks_winner = winner
    game.kicks_decided_by = event.id
    code = "kicks_decided" if winner else "kicks_level"
    game.state_that(code, event.at, "kicks", side=winner, event=event.id)
    game.end("kicks", event.at, "kicks", result=game.score)


def _scored(game: Ledger) -> Score:
    return Score(game.sides["home"].kicks_scored, game.sides["away"].kicks_scored)


def _taken(game: Ledger) -> Score:
    return Score(game.sides["home"].kicks_taken, game.sides["away"].kicks_taken)


def _ask_kicker(game: Ledger, event: Event, what: KickTaken) -> bool:
    """Ask about a kicker who may not kick, or not yet; return whether the kick counts."""
    side, number = game.sides[what.side], what.number
    answers = [ask_who(game, event, what.side, number), _ask_numbers(game, event)]
    may_again = _may_kick_again(game, side)
    if number is not None:
        eligible = side.kickers is None or number in side.kickers
        if not eligible or number in side.left_out:
            answers.append(_ask(game, event, what, "not_eligible_kicker"))
        if number in side.kicked and not may_again:
            answers.append(_ask(game, event, what, "kicked_twice"))
        if _is_out_of_order(game, side, number):
            answers.append(_ask(game, event, what, "kick_order"))
    if number in side.kicked and may_again:
        side.kicked = []
    side.kicked.append(number)
    side.last_kicker = number
    return all(answers)


def _ask(game: Ledger, event: Event, what: KickTaken, code: str) -> bool:
    return game.ask(code, event.at, event.id, article="kicks.takers", side=what.side)


def _may_kick_again(game: Ledger, side: SideLedger) -> bool:
    """Tell whether all who may kick have done so; True where nobody knows how many they are."""
    if game.rules.book.kicks.takers.twice == "never":
        return False
    named = {number for number in side.kicked if number is not None}
    if side.kickers is not None:
        return not _who_may(side) - named
    many = _eligible(game, side)
    return many is None or len(named) + side.kicked.count(None) >= many


def _who_may(side: SideLedger) -> set[int]:
    return set(side.kickers or ()) - side.left_out - side.sent_off - side.out


def _eligible(game: Ledger, side: SideLedger) -> int | None:
    if side.kickers is not None:
        return len(_who_may(side))
    if game.rules.book.kicks.takers.who == "on_field_at_end":
        return None if side.on_field is None else side.on_field - len(side.left_out)
    return len(side.checked) - len(side.left_out) or None


def _ask_numbers(game: Ledger, event: Event) -> bool:
    home, away = (game.sides[side] for side in SIDES)
    if game.rules.book.kicks.takers.equal_numbers == "not_asked":
        return True
    if home.kickers is None or away.kickers is None:
        return True
    numbers = (_eligible(game, home) or 0, _eligible(game, away) or 0)
    if numbers[0] == numbers[1] or numbers == game.unequal:
        return True
    larger: Side = "home" if numbers[0] > numbers[1] else "away"
    game.unequal = numbers
    return game.ask("unequal_numbers", event.at, event.id, article="kicks.takers", side=larger)


def _is_out_of_order(game: Ledger, side: SideLedger, number: int) -> bool:
    """Tell whether two of one group kick in turn where women and men alternate."""
    if game.rules.book.kicks.takers.order != "genders_alternate" or side.last_kicker is None:
        return False
    group = side.groups.get(number)
    return group is not None and group == side.groups.get(side.last_kicker)
