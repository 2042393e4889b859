"""Lets time pass between two entries, and does what time alone brings."""

from wholeball.game.event import BEFORE, KICKS, Moment
from wholeball.game.ledger import Ledger, Timer
from wholeball.game.places import give_back, open_place

_RUNNING = ("playing", "stopped")


def advance(game: Ledger, to: Moment) -> None:
    """Bring a game to a moment: penalties end, graces run out, a mercy rule becomes true."""
    if game.timers:
        mercy = _mercy_by_time(game, to)
        _run(game, to if mercy is None or game.is_whole else mercy)
    else:
        mercy = _mercy_by_time(game, to) if game.rules.ladder else None
    if mercy is not None:
        end_by_mercy(game, mercy)
    game.now = max(game.now, to)


def end_by_mercy(game: Ledger, at: Moment, *, event: str | None = None) -> None:
    """End a game by the mercy rule at the moment it becomes true, if it was not played on."""
    if game.is_whole:
        game.mercy_passed = game.mercy_passed or at
        return
    game.state_that("mercy", at, "mercy", side=game.leader, event=event)
    game.end("mercy", at, "mercy", result=game.score)


def is_mercy(game: Ledger, seconds_left: int) -> bool:
    """Tell whether a rung of the ladder is true with so much left of the regular periods."""
    home, away = game.score
    lead = abs(home - away)
    return any(lead >= least and seconds_left <= most for least, most in game.rules.ladder)


def _mercy_by_time(game: Ledger, to: Moment) -> Moment | None:
    """Return when a rung becomes true by time alone, up to a moment of the current period."""
    period = game.period
    if game.ending or game.phase not in _RUNNING or not 1 <= period <= game.rules.periods:
        return None
    if game.now.period > period:
        return None
    home, away = game.score
    lead = abs(home - away)
    found = []
    for least, most in game.rules.ladder:
        if lead >= least:
            later = game.rules.period_seconds * (game.rules.periods - period)
            clock = game.length(period) + later - most
            if clock <= game.length(period):
                found.append(max(clock, game.now.clock if game.now.period == period else 0))
    reached = to.clock if to.period == period else game.length(period)
    clock = min(found, default=reached + 1)
    return Moment(period, clock) if clock <= reached and to.period >= period else None


def _run(game: Ledger, to: Moment) -> None:
    due = sorted(
        (timer for timer in game.timers if timer.at <= to), key=lambda one: (one.at, one.event)
    )
    for timer in due:
        game.timers.remove(timer)
        _ring(game, timer)


def _ring(game: Ledger, timer: Timer) -> None:
    """Do what a timer was set for; one whose reason has gone says nothing."""
    side = game.sides[timer.side]
    match timer.code:
        case "time_penalty_over":
            over = [one for one in game.away if one.event == timer.event]
            if not over:
                return
            give_back(game, over[0])
        case "may_fill_up":
            open_place(game, timer.event)
        case "grace_over":
            if side.short_since is None or side.waits is False or game.period != BEFORE:
                return
        case _:
            raise ValueError(f"no timer is called {timer.code!r}")
    game.state_that(timer.code, timer.at, timer.article, side=timer.side, event=timer.event)


def is_kicks(at: Moment) -> bool:
    """Tell whether a moment is among the kicks from the mark."""
    return at.period == KICKS
