"""Keeps how long a side that is short is waited for, and who chose that."""

from wholeball.game.event import BEFORE, Event, Moment
from wholeball.game.happenings import GotReady, ShortAtStart, WaitChosen
from wholeball.game.ledger import SIDES, Ledger, Timer, other
from wholeball.kernel.identity import Side

_ARTICLE = "forfeit.grace"


def be_short(game: Ledger, event: Event, what: ShortAtStart) -> None:
    """Note that a side is short; whether it is waited for may be chosen, or settled already."""
    side = game.sides[what.side]
    side.on_field = what.present
    side.short_since = event.at.clock
    grace = game.rules.book.forfeit.grace
    if grace.minutes == 0:
        _settle(game, event, what.side, waits=False)
    elif grace.chosen_by == "always_waited":
        _settle(game, event, what.side, waits=True)


def choose(game: Ledger, event: Event, what: WaitChosen) -> None:
    """Take the choice to wait or not, once and for all where the rulebook says so."""
    grace = game.rules.book.forfeit.grace
    short = [side for side in SIDES if game.sides[side].short_since is not None]
    waiting_for = short if what.by == "supervisor" else [other(what.by)]
    chooser = "supervisor" if what.by == "supervisor" else "opponents"
    may_choose = grace.minutes and grace.chosen_by == chooser and set(waiting_for) <= set(short)
    if not may_choose and not game.ask(
        "not_theirs", event.at, event.id, article=_ARTICLE, counts=False
    ):
        return
    for side in waiting_for:
        chosen = game.sides[side].waits
        if chosen is not None and chosen != what.waits and grace.final:
            if game.ask(
                "final_choice", event.at, event.id, article=_ARTICLE, side=side, counts=False
            ):
                _settle(game, event, side, waits=what.waits)
        elif chosen != what.waits:
            _settle(game, event, side, waits=what.waits)


def _settle(game: Ledger, event: Event, side: Side, *, waits: bool) -> None:
    game.sides[side].waits = waits
    code = "wait_allowed" if waits else "no_wait"
    game.state_that(code, event.at, _ARTICLE, side=side, event=event.id)
    if waits:
        until = Moment(BEFORE, game.rules.book.forfeit.grace.minutes * 60)
        game.timers.append(Timer(until, "grace_over", _ARTICLE, side, event.id))


def get_ready(game: Ledger, event: Event, what: GotReady) -> None:
    """Note that a side can start, and ask where its time had run out."""
    side = game.sides[what.side]
    most = game.rules.book.forfeit.grace.minutes * 60 if side.waits else 0
    if event.at.clock > most:
        game.ask("late_start", event.at, event.id, article=_ARTICLE, side=what.side)
    side.short_since = None
    side.on_field = None
    side.waited = event.at.clock
