"""Ends a game other than by time: forfeits, defaults, games broken off, resumed or replayed."""

from typing import Final

from wholeball.game.event import Event
from wholeball.game.happenings import BrokenOff, Defaulted, Forfeited, Replayed, Resumed
from wholeball.game.ledger import Ledger, other
from wholeball.game.state import Resumption, Score
from wholeball.kernel.identity import Side
from wholeball.rulebook.tables.season import AwardedScore

_PARTS: Final = {"half": (1, 2), "three_quarters": (3, 4), "full_time": (1, 1)}


def forfeit(game: Ledger, event: Event, what: Forfeited) -> None:
    """Give the score of a forfeit, or of a double one."""
    if what.by == "both" or _has_other_given_up(game, what.by):
        _forfeit_both(game, event)
    else:
        _forfeit_by(game, event, what.by)


def _has_other_given_up(game: Ledger, side: Side) -> bool:
    """Tell whether the other side, or both, had forfeited or defaulted before."""
    if game.ending is None:
        return False
    if game.ending.article == "forfeit.double":
        return True
    return game.ending.how in ("forfeit", "default") and game.ending.by == other(side)


def _forfeit_by(game: Ledger, event: Event, by: Side) -> None:
    rule = game.rules.book.forfeit
    given = _given(rule.score, to=other(by))
    played = game.score
    game.state_that("forfeit", event.at, "forfeit", side=by, event=event.id)
    if rule.played_if_worse and _margin(played, by) < _margin(given, by):
        game.state_that("played_stands", event.at, "forfeit", side=by, event=event.id)
        given = played
    game.end("forfeit", event.at, "forfeit", result=given, by=by)


def _forfeit_both(game: Ledger, event: Event) -> None:
    game.state_that("double_forfeit", event.at, "forfeit.double", event=event.id)
    if game.rules.book.forfeit.double.then == "annulled":
        game.end("annulled", event.at, "forfeit.double", result=None)
    else:
        game.end("double_forfeit", event.at, "forfeit.double", result=Score(0, 0))


def _given(score: AwardedScore, *, to: Side) -> Score:
    won, lost = score.winners, score.losers
    return Score(won, lost) if to == "home" else Score(lost, won)


def _margin(score: Score, side: Side) -> int:
    lead = score.home - score.away
    return lead if side == "home" else -lead


def default(game: Ledger, event: Event, what: Defaulted) -> None:
    """Give the score of a default; one announced too late is a forfeit."""
    if _has_other_given_up(game, what.by):
        _forfeit_both(game, event)
        return
    if not what.in_time or game.rules.book.forfeit.default.allowed == 0:
        game.state_that(
            "default_late", event.at, "forfeit.default", side=what.by, event=event.id
        )
        _forfeit_by(game, event, what.by)
        return
    rule = game.rules.book.forfeit.default
    game.state_that("default", event.at, "forfeit.default", side=what.by, event=event.id)
    given = _given(rule.score, to=other(what.by))
    game.end("default", event.at, "forfeit.default", result=given, by=what.by)


def break_off(game: Ledger, event: Event, what: BrokenOff) -> None:
    """Stop a game for the day, and find what the rulebook makes of it."""
    if game.ending and not game.ask(
        "after_end", event.at, event.id, article="resumption", counts=False
    ):
        return
    at, count = game.breaks_at
    game.breaks_at = (event.at, count + 1 if at == event.at else 1)
    rule = game.rules.book.resumption
    if what.to_blame == "both":
        game.state_that("both_to_blame", event.at, "resumption", event=event.id)
        game.end("to_coordinator", event.at, "resumption", result=None)
        return
    if what.to_blame:
        _blame(game, event, what.to_blame)
        return
    is_level = game.leader is None
    if _is_complete(game, event) and not (is_level and rule.level_when_complete == "resumed"):
        _complete(game, event, what)
        return
    then = "resumed" if _is_complete(game, event) else rule.before_that
    match then:
        case "annulled":
            game.state_that("annulled", event.at, "resumption", event=event.id)
            game.end("annulled", event.at, "resumption", result=None)
        case "resumed" | "replayed":
            code = "to_resume" if then == "resumed" else "to_replay"
            game.state_that(code, event.at, "resumption", event=event.id)
            game.phase = "broken_off"


def _complete(game: Ledger, event: Event, what: BrokenOff) -> None:
    """Let the score stand; after disorder that nobody is blamed for a person is asked."""
    if what.why == "disorder" and not game.ask(
        "disorder", event.at, event.id, article="resumption"
    ):
        game.end("to_coordinator", event.at, "resumption", result=None)
        return
    game.state_that("complete", event.at, "resumption", event=event.id)
    game.end("complete", event.at, "resumption", result=game.score)


def _is_complete(game: Ledger, event: Event) -> bool:
    """Tell whether enough of the regular time was played; overtime comes after all of it."""
    if not game.started:
        return False
    part, whole = _PARTS[game.rules.book.resumption.complete_after]
    total = game.seconds_left(1, 0)
    played = sum(_seconds_played(game, period, event) for period in _regular(game))
    return played * whole >= total * part


def _regular(game: Ledger) -> range:
    return range(1, game.rules.periods + 1)


def _seconds_played(game: Ledger, period: int, event: Event) -> int:
    """Return how much of a regular period was played, at most its length."""
    if period > event.at.period:
        return 0
    length = game.length(period)
    clock = event.at.clock if period == event.at.period else length
    return min(length, game.ended_at.get(period, clock))


def _blame(game: Ledger, event: Event, side: Side) -> None:
    game.state_that("side_to_blame", event.at, "resumption", side=side, event=event.id)
    if game.rules.book.resumption.broken_off_by_side == "forfeit":
        _forfeit_by(game, event, side)
    else:
        game.end("to_coordinator", event.at, "resumption", result=None, by=side)


def resume(game: Ledger, event: Event, what: Resumed) -> None:
    """Let a game go on where it stopped: rosters, cards and mercy count run on."""
    ending = game.ending
    if game.phase != "broken_off" and not (ending and ending.how == "complete"):
        game.ask("not_broken_off", event.at, event.id, article="resumption")
        return
    game.state_that("resumed", event.at, "resumption", event=event.id)
    game.resumptions.append(Resumption(event=event.id, at=event.at, on=what.on))
    game.ending = None
    game.result = None
    game.is_in_hold = False
    at, count = game.breaks_at
    game.breaks_at = (event.at, count - 1 if at == event.at else 0)
    if game.breaks_at[1] > 0:
        game.phase = "broken_off"
    else:
        game.stopped_at = None
        game.go_on()


def replay(game: Ledger, event: Event, what: Replayed) -> None:
    """Play a game again from a protest's moment, or from its start; what is void is gone."""
    if what.protest is not None and all(line.event != what.protest for line in game.protests):
        game.ask("pending", event.at, event.id, about=what.protest, counts=False)
    game.state_that("replayed", event.at, "protests", event=event.id)
    game.ending = None
    game.result = None
    game.is_in_hold = False
    game.go_on()
