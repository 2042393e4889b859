"""Keeps who is on the field and who may not be: counts, substitutes, injuries."""

from typing import Final, Literal

from wholeball.game.event import Event, Moment, later
from wholeball.game.happenings import (
    CameBack,
    CameOff,
    CheckedIn,
    Counted,
    HeadInjurySuspected,
    Injured,
    Substituted,
)
from wholeball.game.ledger import Ledger
from wholeball.game.places import ask_if_too_few, give_back, leave_open, take_off
from wholeball.game.state import Away, Checked, PrivateRecord
from wholeball.kernel.identity import Side

_STAYS_OFF: Final = ("sent_off", "head_injury")


def check_in(game: Ledger, event: Event, what: CheckedIn) -> None:
    """Write down who was checked in."""
    side = game.sides[what.side]
    side.checked.append(
        Checked(
            event=event.id,
            side=what.side,
            number=what.number,
            player=what.player,
            counts_as=what.counts_as,
        )
    )
    if what.number is not None:
        side.numbers.add(what.number)
        if what.counts_as:
            side.groups[what.number] = what.counts_as


def ask_who(game: Ledger, event: Event, side: Side, number: int | None) -> bool:
    """Ask about a number that nobody wears, or that may not be on the field.

    Return whether the entry counts as things stand.
    """
    kept = game.sides[side]
    if number is None:
        return True
    counts = True
    if kept.numbers and number not in kept.numbers:
        counts = game.ask("unknown_player", event.at, event.id, article="check_in", side=side)
    if number in kept.sent_off:
        counts &= game.ask("already_off", event.at, event.id, article="cards", side=side)
    if number in kept.out:
        counts &= game.ask("out_for_the_day", event.at, event.id, article="injury", side=side)
    return counts


def count(game: Ledger, event: Event, what: Counted) -> None:
    """Take a count of the players on the field."""
    game.sides[what.side].on_field = what.on_field
    if what.on_field > game.rules.book.sides.on_field - game.sides[what.side].places_closed:
        game.ask("too_many", event.at, event.id, article="sides", side=what.side)
    ask_if_too_few(game, event, what.side)


def substitute(game: Ledger, event: Event, what: Substituted) -> None:
    """Take a substitution; only a rulebook that has each written down limits them here."""
    side = game.sides[what.side]
    if not ask_who(game, event, what.side, what.on):
        return
    rule = game.rules.book.substitution
    side.substitutions += 1
    if rule.recorded:
        if (
            isinstance(rule.most, int)
            and side.substitutions > rule.most + side.extra_substitutions
        ):
            game.ask(
                "too_many_substitutions",
                event.at,
                event.id,
                article="substitution",
                side=what.side,
            )
        if not rule.again and what.on is not None and what.on in side.replaced:
            game.ask("came_again", event.at, event.id, article="substitution", side=what.side)
    if what.off is not None:
        side.replaced.add(what.off)
    _fill(game, what.side, what.off)


def _fill(game: Ledger, name: Side, number: int | None) -> None:
    """Let a substitute fill the place of somebody who is off and may be replaced."""
    for one in game.away:
        if (one.side, one.number) == (name, number) and one.why not in _STAYS_OFF:
            if one.until is None:
                give_back(game, one)
            return


def come_off(game: Ledger, event: Event, what: CameOff) -> None:
    """Take a player off who is not replaced."""
    if not ask_who(game, event, what.side, what.number):
        return
    shown = [
        one
        for one in game.away
        if (one.side, one.number) == (what.side, what.number)
        and one.why in ("caution", "time_penalty")
    ]
    if shown and what.number is not None:
        leave_open(game, event, shown[0])
    else:
        take_off(game, event, what.side, what.number, why=what.why, place="open")


def come_back(game: Ledger, event: Event, what: CameBack) -> None:
    """Let a player come back, and ask about one who may not yet, or not at all."""
    side = game.sides[what.side]
    if not ask_who(game, event, what.side, what.number):
        return
    if what.number in side.sent_off or what.number in side.out:
        return
    away = _coming(game, what)
    if away is None:
        return
    article = _too_soon(game, away, event.at)
    if article:
        game.ask(
            "too_soon",
            event.at,
            event.id,
            article=article,
            side=what.side,
            about=away.event,
        )
    give_back(game, away)


def _coming(game: Ledger, what: CameBack) -> Away | None:
    """Return whom a return ends: the player's own time off, or a place that a substitute fills."""
    mine = [one for one in game.away if one.side == what.side and one.why not in _STAYS_OFF]
    own = [one for one in mine if one.number == what.number]
    if own or what.number in game.sides[what.side].been_off:
        return next(iter(own), None)
    return next((one for one in mine if one.until is None and one.why != "injury"), None)


def _too_soon(game: Ledger, away: Away, at: Moment) -> str | None:
    """Return the article by which a player is back too soon."""
    if away.why == "time_penalty" and away.until and at < away.until:
        return "cards.cautioned"
    if away.why == "injury":
        return None if _is_served(game, away, at) else "injury"
    return None


def injure(game: Ledger, event: Event, what: Injured) -> None:
    """Take an injured player off until the next dead ball, where the rulebook has that."""
    _note(game, event, "injury", what.record)
    rule = game.rules.book.injury
    exempt = what.goalkeeper and rule.goalkeeper_exempt
    if rule.leaves == "may_stay" or exempt or what.stays:
        return
    game.state_that("injured_off", event.at, "injury", side=what.side, event=event.id)
    take_off(game, event, what.side, what.number, why="injury", place="filled")


def suspect_head_injury(game: Ledger, event: Event, what: HeadInjurySuspected) -> None:
    """Take a player out for the day; nobody at the field decides otherwise."""
    _note(game, event, "head_injury", what.record)
    game.state_that("out_for_the_day", event.at, "injury", side=what.side, event=event.id)
    if game.rules.book.substitution.concussion_extra == "optional":
        game.sides[what.side].extra_substitutions = 1
    if what.number is not None:
        game.sides[what.side].out.add(what.number)
    take_off(game, event, what.side, what.number, why="head_injury", place="filled")


def _note(
    game: Ledger, event: Event, kind: Literal["injury", "head_injury"], record: str | None
) -> None:
    game.records.append(
        PrivateRecord(
            event=event.id,
            at=event.at,
            kind=kind,
            record=record,
        )
    )


def restarted(game: Ledger, at: Moment) -> None:
    """Note from when an injured player who stays off for seconds after the restart may be back."""
    seconds = game.rules.book.injury.off_after_restart_seconds
    if seconds:
        for one in game.away:
            if one.why == "injury":
                game.back_from.setdefault(one.event, later(at, seconds))


def dead_ball(game: Ledger, at: Moment) -> None:
    """Let injured players back whose dead ball or seconds have come."""
    if not game.away:
        return
    game.away = [
        one
        for one in game.away
        if one.why != "injury" or at <= one.since or not _may_return(game, one, at)
    ]


def _may_return(game: Ledger, one: Away, at: Moment) -> bool:
    """Tell whether a dead ball lets an injured player back, or their seconds are over."""
    return game.rules.book.injury.off_after_restart_seconds == 0 or _is_served(game, one, at)


def _is_served(game: Ledger, one: Away, at: Moment) -> bool:
    back_from = game.back_from.get(one.event)
    return back_from is not None and at >= back_from
