"""Holds the phrases that articles of several tables share, so that each reads the same."""

from collections.abc import Callable
from typing import Final, TypeAlias

from wholeball.kernel.length import Length, system_of
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import Sentence, say
from wholeball.rulebook.tables.restarts import Then

Says: TypeAlias = Callable[[Rulebook], tuple[Sentence, ...]]

THEN: Final[dict[Then, str]] = {
    "retake": "it is taken again",
    "direct_free_kick": "the opponents get a direct free kick",
    "indirect_free_kick": "the opponents get an indirect free kick",
    "penalty_kick": "the opponents get a penalty kick",
    "throw_in": "the opponents get a throw-in",
    "goal_kick": "the opponents get a goal kick",
    "corner_kick": "the opponents get a corner kick",
    "dropped_ball": "play goes on with a dropped ball",
    "play_on": "play goes on",
}


def may(allowed: bool) -> str:  # noqa: FBT001 - one value in, one word out
    """Return "may" or "may not"."""
    return "may" if allowed else "may not"


def scored_straight(allowed: bool) -> Sentence:  # noqa: FBT001 - one value in, one sentence out
    """Return the sentence that says whether a restart may go straight into the goal."""
    return say("A goal {may} be scored straight from it.", may=may(allowed))


def measured(length: Length, book: Rulebook) -> str:
    """Return a length in the system that the rulebook's field is measured in: "10 yd"."""
    return str(length.measured(system_of(book.field.unit)))


def is_none(length: Length) -> bool:
    """Tell whether a length is the 0 that stands for "none"."""
    return length.first.amount == 0


def kept_away(length: Length, book: Rulebook, *, who: str, where: str) -> Sentence:
    """Return the sentence that says how far somebody stays away from something."""
    if is_none(length):
        return say(who + " need keep {no} distance from " + where + ".", no="no")
    distance = measured(length, book)
    return say(who + " stay at least {distance} from " + where + ".", distance=distance)


def only_where(is_played: Callable[[Rulebook], bool], otherwise: str, says: Says) -> Says:
    """Return words that say one sentence only where their subject is not played."""

    def said(book: Rulebook) -> tuple[Sentence, ...]:
        return says(book) if is_played(book) else (say("{otherwise}", otherwise=otherwise),)

    return said


def a_goalkeeper_plays(book: Rulebook) -> bool:
    """Tell whether a side may have a goalkeeper."""
    return book.sides.goalkeeper != "none"


NO_GOALKEEPER: Final = "No side has a goalkeeper."
