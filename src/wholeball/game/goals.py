"""Counts goals, and asks about those that may not be ones."""

from typing import Final

from wholeball.game.clock import end_by_mercy, is_mercy
from wholeball.game.event import Event
from wholeball.game.happenings import Goal
from wholeball.game.ledger import Ledger, other
from wholeball.game.people import ask_who
from wholeball.game.periods import end_unlevel, is_between_stop_and_restart
from wholeball.game.state import GoalLine

DOUBLE_TAP_SECONDS: Final = 2
"""Two goals of one side no further apart are more likely one entered twice."""


_AS_SCORED: Final = ("full_time", "mercy", "overtime", "golden_goal", "kicks", "complete")
"""The endings after which a game counts as its score."""


def score(game: Ledger, event: Event, what: Goal) -> None:
    """Write a goal down, count it where it counts, and see whether it ends the game."""
    stands = event.id not in game.disallowed
    after_end = game.ending.how if game.ending else None
    counts = _may_count(game, event, what) and stands
    game.goals.append(
        GoalLine(
            event=event.id,
            at=event.at,
            side=what.side,
            number=what.number,
            own=what.own,
            penalty=what.penalty,
            counts=counts,
            timed=what.timed,
        )
    )
    side = game.sides[what.side]
    if counts:
        side.goals += 1
        game.by_period.setdefault(event.at.period, [0, 0])[what.side == "away"] += 1
    if counts or (stands and after_end in ("mercy", "golden_goal")):
        side.all_goals += 1
    if counts and not game.ending:
        _end_by_goal(game, event)
    elif counts and game.ending and game.ending.how in _AS_SCORED:
        game.result = game.score
        if game.leader:
            game.statements = [one for one in game.statements if one.code != "draw"]


def _end_by_goal(game: Ledger, event: Event) -> None:
    period, clock = event.at
    if game.phase == "kicks":
        end_unlevel(game, event)
    elif period <= game.rules.periods:
        if game.rules.ladder and is_mercy(game, game.seconds_left(period, clock)):
            end_by_mercy(game, event.at, event=event.id)
    elif game.rules.is_golden and game.leader:
        game.state_that("golden_goal", event.at, "overtime", side=game.leader, event=event.id)
        game.end("golden_goal", event.at, "overtime", result=game.score)


def _may_count(game: Ledger, event: Event, what: Goal) -> bool:
    """Ask all that is to be asked about a goal; return whether it counts as things stand."""
    scorer = other(what.side) if what.own else what.side
    known = ask_who(game, event, scorer, what.number)
    in_play = _was_in_play(game, event, what)
    once = _ask_twice(game, event, what)
    return known and in_play and once


def _was_in_play(game: Ledger, event: Event, what: Goal) -> bool:
    at, name = event.at, event.id
    if game.ending:
        return _was_after(game, event)
    if not game.started:
        return game.ask("before_start", at, name, article="game", counts=False)
    if at.period > game.rules.last_period:
        return game.ask("not_in_rulebook", at, name, article="ties", counts=False)
    if game.phase in ("interval", "kicks", "broken_off") or game.is_in_hold:
        return game.ask("not_in_play", at, name, article="game.stoppages", counts=False)
    counts = True
    if is_between_stop_and_restart(game, at):
        counts = game.ask("not_in_play", at, name, article="game.stoppages")
    if _is_past_time(game, event, what):
        counts &= game.ask("after_time", at, name, article="game.period_end", counts=False)
    return counts


def _was_after(game: Ledger, event: Event) -> bool:
    how = game.ending.how if game.ending else None
    code, article = {"mercy": ("mercy", "mercy"), "golden_goal": ("decided", "overtime")}.get(
        how or "", ("after_end", "game")
    )
    return game.ask(code, event.at, event.id, article=article, counts=False)


def _is_past_time(game: Ledger, event: Event, what: Goal) -> bool:
    book = game.rules.book.game
    if event.at.clock <= game.length(event.at.period) or game.is_chance_on:
        return False
    if book.period_end.at != "time" or book.stoppages.lost_time != "not_added":
        return False
    return not (what.penalty and book.period_end.penalty_completed)


def _ask_twice(game: Ledger, event: Event, what: Goal) -> bool:
    if not what.timed:
        return True
    side = game.sides[what.side]
    last = side.last_goal
    side.last_goal = (event.at, event.id)
    if last is None or last[0].period != event.at.period:
        return True
    if event.at.clock - last[0].clock > DOUBLE_TAP_SECONDS:
        return True
    return game.ask("double_tap", event.at, event.id, side=what.side, about=last[1])
