"""Says who a person of a game is: a player by number, a substitute, a team official."""

from typing import Final

from wholeball.game.happenings import Cautioned, EventId, SentOff, Shown
from wholeball.kernel.identity import Side
from wholeball.reports.game_told import ToldGame, side_name

SHOWN_TO: Final[dict[Shown, str]] = {
    "player": "",
    "substitute": ", a substitute",
    "team_official": "",
}


def person(told: ToldGame, side: Side | None, number: int | None) -> str:
    """Return a player of a side: "number 7 of Ash", "a player of Ash without a number"."""
    name = side_name(told, side)
    return (
        f"a player of {name} without a number"
        if number is None
        else f"number {number} of {name}"
    )


def person_of(
    told: ToldGame, side: Side | None, number: int | None, event: EventId | None
) -> str:
    """Return whom a line of the state is about; a team official has no player's number."""
    cards = (card for card in told.state.cards if card.event == event)
    if any(card.to == "team_official" for card in cards):
        return f"a team official of {side_name(told, side)}"
    return person(told, side, number)


def shown(told: ToldGame, card: Cautioned | SentOff) -> str:
    """Return who was shown yellow or red: "number 12 of Ash, a substitute"."""
    if card.to == "team_official":
        return f"a team official of {side_name(told, card.side)}"
    return f"{person(told, card.side, card.number)}{SHOWN_TO[card.to]}"
