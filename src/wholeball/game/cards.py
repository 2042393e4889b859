"""Keeps yellow and red, and what follows from them by the rulebook."""

from dataclasses import replace
from typing import Literal

from wholeball.game.clock import is_kicks
from wholeball.game.event import Event
from wholeball.game.happenings import Cautioned, SentOff
from wholeball.game.ledger import Ledger, SideLedger, Timer
from wholeball.game.people import ask_who
from wholeball.game.places import give_back, served_by, take_off
from wholeball.game.state import Away, CardLine, Place


def caution(game: Ledger, event: Event, what: Cautioned) -> None:
    """Write yellow down; as many as the rulebook says make a red that follows."""
    if not _is_known(game, event, what):
        return
    game.cards.append(_line(event, what, "yellow"))
    if what.to == "team_official" or what.number is None:
        return
    side = game.sides[what.side]
    if what.number in side.sent_off:
        return
    shown = _shown(game, event, side, what.number)
    if shown >= game.rules.book.cards.cautions_for_red:
        _follow(game, event, what, what.number)
    elif what.to == "player" and not game.ending and not is_kicks(event.at):
        _come_off(game, event, what)


def _line(
    event: Event, what: Cautioned | SentOff, colour: Literal["yellow", "red"]
) -> CardLine:
    return CardLine(
        event=event.id,
        at=event.at,
        colour=colour,
        side=what.side,
        number=what.number,
        to=what.to,
        reason=what.reason,
        timed=what.timed,
    )


def _shown(game: Ledger, event: Event, side: SideLedger, number: int) -> int:
    """Count a player's yellows; those of the game may not count on in kicks from the mark."""
    carried = game.rules.book.kicks.takers.yellow_carried
    counts = side.yellows
    if is_kicks(event.at) and not carried:
        counts = side.yellows_in_kicks
    counts[number] = counts.get(number, 0) + 1
    return counts[number]


def _follow(game: Ledger, event: Event, what: Cautioned, number: int) -> None:
    game.state_that("second_caution", event.at, "cards", side=what.side, event=event.id)
    game.sides[what.side].followed[number] = len(game.cards)
    red = replace(_line(event, what, "red"), second_caution=True, derived=True)
    game.cards.append(red)
    _send_off(game, event, what)


def _come_off(game: Ledger, event: Event, what: Cautioned) -> None:
    cautioned = game.rules.book.cards.cautioned
    if cautioned.comes_off == "no":
        return
    is_timed = cautioned.comes_off == "for_minutes"
    until = served_by(game, event.at, cautioned.minutes) if is_timed else None
    if until:
        game.timers.append(
            Timer(until, "time_penalty_over", "cards.cautioned", what.side, event.id)
        )
    code = "time_penalty" if is_timed else "off_until_replaced"
    game.state_that(code, event.at, "cards.cautioned", side=what.side, event=event.id)
    take_off(
        game,
        event,
        what.side,
        what.number,
        why="time_penalty" if is_timed else "caution",
        place="filled" if cautioned.may_be_replaced else "closed",
        until=until,
    )


def send_off(game: Ledger, event: Event, what: SentOff) -> None:
    """Write red down; one that a yellow had already brought is the same red."""
    side = game.sides[what.side]
    followed = (
        side.followed.get(what.number)
        if what.second_caution and what.number is not None
        else None
    )
    line = replace(_line(event, what, "red"), second_caution=what.second_caution)
    if followed is not None and game.cards[followed].derived:
        game.cards[followed] = line
        return
    if not _is_known(game, event, what):
        return
    game.cards.append(line)
    if what.number is None or what.number not in side.sent_off:
        _send_off(game, event, what)


def _is_known(game: Ledger, event: Event, what: Cautioned | SentOff) -> bool:
    """Ask about a player's number; a team official's is nobody's shirt."""
    return what.to == "team_official" or ask_who(game, event, what.side, what.number)


def _send_off(game: Ledger, event: Event, what: Cautioned | SentOff) -> None:
    side = game.sides[what.side]
    side.has_red = True
    if what.to == "team_official":
        return
    if what.number is not None:
        side.sent_off.add(what.number)
        for one in [one for one in game.away if _is_same(one, what)]:
            give_back(game, one)
    place = _place_after(game, event, what)
    if what.number is not None or place != "filled":
        take_off(game, event, what.side, what.number, why="sent_off", place=place)


def _is_same(away: Away, what: Cautioned | SentOff) -> bool:
    return (away.side, away.number) == (what.side, what.number)


def _place_after(game: Ledger, event: Event, what: Cautioned | SentOff) -> Place:
    """Return what a red makes of the place, and when it may be filled again."""
    sent_off = game.rules.book.cards.sent_off
    at_once = sent_off.may_be_replaced and sent_off.after_minutes == 0
    if what.to != "player" or game.ending or is_kicks(event.at) or at_once:
        return "filled"
    game.state_that("plays_short", event.at, "cards.sent_off", side=what.side, event=event.id)
    if sent_off.may_be_replaced:
        until = served_by(game, event.at, sent_off.after_minutes)
        game.timers.append(Timer(until, "may_fill_up", "cards.sent_off", what.side, event.id))
    return "closed"
