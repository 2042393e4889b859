"""Keeps that a scorecard says full time, where the mercy rule would have ended the game before."""

from wholeball.game.event import Event
from wholeball.game.paper import PaperCard
from wholeball.game.paper_checks import ended, misfits
from wholeball.game.paper_entries import DEVICE, told
from wholeball.game.play import play
from wholeball.game.rules import GameRules


def said_full_time(card: PaperCard, rules: GameRules) -> PaperCard:
    """Return a card that people typed as ended at full time so that it stands as typed.

    Nothing changes where no mercy rule was reached, or the card cannot be meant.
    """
    is_whole = len(card.periods) == rules.periods and not ended(card)
    if not is_whole or not rules.ladder or misfits(card, rules):
        return card
    state = play(
        (
            Event(f"{number:04}", one.at, (0, number, DEVICE, number), one.what)
            for number, one in enumerate(told(card, rules), start=1)
        ),
        rules,
    )
    if state.ending is None or state.ending.how != "mercy":
        return card
    return card.model_copy(update={"ended": "full_time"})
