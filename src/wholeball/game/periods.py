"""Begins, stops and ends periods, and finds what a level game goes on to."""

from bisect import bisect_left
from typing import Final

from wholeball.game.clock import end_by_mercy, is_mercy
from wholeball.game.event import Event, Moment
from wholeball.game.happenings import (
    EndsChosen,
    HoldEnded,
    PeriodEnded,
    PeriodStarted,
    TimeUp,
)
from wholeball.game.ledger import SIDES, Ledger, other
from wholeball.kernel.identity import Side

_BREADTH: Final = ("none", "in_or_by_penalty_area", "attacking_half", "anywhere")


def choose_ends(game: Ledger, event: Event, what: EndsChosen) -> None:
    """Find who kicks off from what the winner of the coin or the guess chose."""
    allowed = game.rules.book.ends.winner_chooses
    if what.chose not in allowed.split("_or_"):
        game.ask("ends_choice", event.at, event.id, article="ends", side=what.winner)
    game.kick_off = what.winner if what.chose == "kick_off" else other(what.winner)
    game.state_that("kick_off_side", event.at, "ends", side=game.kick_off, event=event.id)


def start_period(game: Ledger, event: Event, what: PeriodStarted) -> None:
    """Begin a period, and ask about one that is out of turn or begun twice."""
    period = event.at.period
    if period in game.started:
        first, _ = game.started[period]
        game.ask("second_start", event.at, event.id, article="game", about=first)
        return
    if not 1 <= period <= game.rules.last_period:
        game.ask("not_in_rulebook", event.at, event.id, article="ties", counts=False)
        return
    if game.ending or period != game.period + 1 or game.phase not in ("before", "interval"):
        game.ask("period_order", event.at, event.id, article="game")
    _ask_side(game, event, what)
    game.kick_off = what.kick_off or game.kick_off
    game.started[period] = (event.id, game.kick_off)
    if game.ending:
        return
    game.period = period
    game.phase = "playing"
    game.by_period.setdefault(period, [0, 0])
    if period == 1:
        _start_game(game, event)


def _ask_side(game: Ledger, event: Event, what: PeriodStarted) -> None:
    """Ask where another side kicks off than should, as far as that is known."""
    should = game.kick_off
    if what.kick_off and should and what.kick_off != should:
        game.ask("kick_off_side", event.at, event.id, article="ends", side=what.kick_off)


def _start_game(game: Ledger, event: Event) -> None:
    book = game.rules.book
    waited = max(game.sides[side].waited for side in SIDES)
    if waited and book.forfeit.grace.clock_runs:
        game.first_length = max(0, game.rules.period_seconds - waited)
        game.state_that("clock_shortened", event.at, "forfeit.grace", event=event.id)
    for side in SIDES:
        on_field = game.sides[side].on_field
        if on_field is not None and on_field < book.sides.minimum_to_start:
            game.ask("below_start", event.at, event.id, article="sides", side=side)


def time_up(game: Ledger, event: Event, what: TimeUp) -> None:
    """Play an immediate chance out, where the rulebook has that."""
    end = game.rules.book.game.period_end
    most = "none" if end.at == "time" else end.chance
    if _BREADTH.index(what.chance) > _BREADTH.index(most):
        game.ask("no_chance", event.at, event.id, article="game.period_end")
        game.is_chance_on = game.answers.get((event.id, "no_chance")) == "counts"
        return
    game.is_chance_on = True
    game.state_that("chance_played_out", event.at, "game.period_end", event=event.id)


def end_period(game: Ledger, event: Event, what: PeriodEnded) -> None:
    """End a period, and the game with it where it was the last."""
    _end_period(game, event)
    if what.whole and game.mercy_passed is not None:
        game.ask("played_on", game.mercy_passed, event.id, article="mercy")


def _end_period(game: Ledger, event: Event) -> None:
    period = event.at.period
    if game.ending:
        game.ended_at.setdefault(period, event.at.clock)
        return
    is_on = game.phase != "broken_off" and period in game.started
    if period != game.period or not is_on or period in game.ended_at:
        game.ask("period_order", event.at, event.id, article="game")
        return
    if event.at.clock < game.length(period):
        game.ask("ended_early", event.at, event.id, article="game")
    game.ended_at[period] = event.at.clock
    game.go_on_after(event.at)
    game.is_chance_on = False
    game.phase = "interval"
    game.kick_off = _next_kick_off(game)
    if period < game.rules.periods:
        left = game.rules.period_seconds * (game.rules.periods - period)
        if game.rules.ladder and is_mercy(game, left):
            end_by_mercy(game, event.at)
    elif period == game.rules.periods:
        _end_regular(game, event)
    elif period == game.rules.last_period:
        _end_overtime(game, event)


def _next_kick_off(game: Ledger) -> Side | None:
    """Return who kicks off the next period: the sides take turns, but overtime is tossed for."""
    if game.period == game.rules.periods:
        return None
    _, kicked_off = game.started[game.period]
    return other(kicked_off) if kicked_off else None


def _end_regular(game: Ledger, event: Event) -> None:
    at, name = event.at, event.id
    if game.leader is None:
        if game.rules.has_overtime:
            game.state_that("to_overtime", at, "ties", event=name)
            return
        if game.rules.has_kicks:
            _to_kicks(game, at, name)
            return
        game.state_that("draw", at, "ties", event=name)
    game.state_that("full_time", at, "game", event=name)
    game.end("full_time", at, "game", result=game.score)


def _end_overtime(game: Ledger, event: Event) -> None:
    at, name = event.at, event.id
    if game.leader is None and game.rules.has_kicks:
        _to_kicks(game, at, name)
        return
    if game.leader is None:
        game.state_that("draw", at, "ties", event=name)
    game.state_that("overtime_over", at, "overtime", event=name)
    game.end("overtime", at, "overtime", result=game.score)


def end_unlevel(game: Ledger, event: Event) -> None:
    """End a game that had come to kicks, and is level no more since a goal was answered to count."""
    if game.leader is None:
        return
    is_overtime = game.period > game.rules.periods
    code, article = ("overtime_over", "overtime") if is_overtime else ("full_time", "game")
    game.goes_to_kicks = False
    game.state_that(code, event.at, article, event=event.id)
    game.end("overtime" if is_overtime else "full_time", event.at, article, result=game.score)


def _to_kicks(game: Ledger, at: Moment, name: str) -> None:
    game.state_that("to_kicks", at, "ties", event=name)
    game.goes_to_kicks = True
    game.phase = "kicks"


def stop(game: Ledger, event: Event) -> None:
    """Stop play."""
    if game.stopped_at is None or game.stopped_at.period != event.at.period:
        game.stopped_at = event.at
    if game.phase == "playing":
        game.phase = "stopped"


def restart(game: Ledger) -> None:
    """Let play go on; a hold overrides everything."""
    game.stopped_at = None
    if game.phase == "stopped":
        game.phase = "playing"


def begin_hold(game: Ledger, event: Event) -> None:
    """Stop all for the weather, whatever is going on; anybody may do that."""
    at, count = game.holds_at
    before = int(game.is_in_hold) if at != event.at else count
    game.holds_at = (event.at, before + 1)
    game.is_in_hold = True


def end_hold(game: Ledger, event: Event, what: HoldEnded) -> None:
    """End a hold, and ask where somebody else than the supervisor did.

    Where holds begin and end at one moment nobody knows which came last: one that began more
    often than it ended goes on.
    """
    if what.by != "supervisor":
        game.ask("not_supervisor", event.at, event.id)
    at, count = game.holds_at
    left = count - 1 if at == event.at else 0
    game.holds_at = (event.at, left)
    game.is_in_hold = left > 0


def is_between_stop_and_restart(game: Ledger, at: Moment) -> bool:
    """Tell whether play was stopped at a moment: after a stop and before its restart."""
    stopped = game.stopped_at
    if stopped is None or stopped.period != at.period or at.clock <= stopped.clock:
        return False
    restarts = game.restarts.get(at.period, [])
    next_one = bisect_left(restarts, at.clock)
    return next_one < len(restarts) and restarts[next_one] > at.clock
