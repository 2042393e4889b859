"""Keeps who is off, and whether somebody else may fill the place."""

from dataclasses import replace
from typing import Final

from wholeball.game.event import KICKS, Event, Moment, later
from wholeball.game.happenings import EventId
from wholeball.game.ledger import Ledger
from wholeball.game.state import Away, Place, Why
from wholeball.kernel.identity import Side

SHORT: Final = ("open", "closed")
"""What leaves a side with one fewer."""


def take_off(  # noqa: PLR0913 - the parts of an absence
    game: Ledger,
    event: Event,
    side: Side,
    number: int | None,
    *,
    why: Why,
    place: Place,
    until: Moment | None = None,
) -> None:
    """Take a player off, and count the side where the place is not filled at once."""
    if number is not None:
        game.sides[side].been_off.add(number)
    game.away.append(
        Away(
            side=side,
            number=number,
            why=why,
            since=event.at,
            until=until,
            event=event.id,
            place=place,
        )
    )
    if place in SHORT:
        _count(game, side, by=-1, closed=place == "closed")
        ask_if_too_few(game, event, side)


def give_back(game: Ledger, away: Away) -> None:
    """Let a player be off no more, and the place be filled."""
    game.away.remove(away)
    if away.place in SHORT:
        _count(game, away.side, by=1, closed=away.place == "closed")


def open_place(game: Ledger, event: EventId) -> None:
    """Let the place of a player who stays off be filled again, and take it as filled."""
    for index, one in enumerate(game.away):
        if one.event == event and one.place in SHORT:
            game.away[index] = replace(one, place="filled")
            _count(game, one.side, by=1, closed=one.place == "closed")


def leave_open(game: Ledger, event: Event, away: Away) -> None:
    """Count a side short that could have filled a place and did not."""
    if away.place == "filled":
        game.away[game.away.index(away)] = replace(away, place="open")
        _count(game, away.side, by=-1, closed=False)
        ask_if_too_few(game, event, away.side)


def _count(game: Ledger, side: Side, *, by: int, closed: bool) -> None:
    kept = game.sides[side]
    if closed:
        kept.places_closed -= by
    if kept.on_field is not None:
        kept.on_field = max(0, kept.on_field + by)


def ask_if_too_few(game: Ledger, event: Event, side: Side) -> None:
    """Ask where a side has fewer than it may go on with; kicks go on with any number."""
    on_field = game.sides[side].on_field
    if not game.started or event.at.period == KICKS or game.ending or on_field is None:
        return
    if on_field < game.rules.book.sides.minimum_to_continue:
        game.ask("below_minimum", event.at, event.id, article="sides", side=side)


def served_by(game: Ledger, at: Moment, minutes: int) -> Moment:
    """Return when minutes of play have gone; what is shown between periods waits for the next."""
    if game.phase in ("before", "interval"):
        return Moment(game.period + 1, minutes * 60)
    return later(at, minutes * 60)
