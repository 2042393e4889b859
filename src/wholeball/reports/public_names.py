"""Writes a person's name as far as the person lets the public read it."""

import unicodedata
from collections.abc import Iterable, Mapping
from typing import Final

from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.person import Person, Shown
from wholeball.league.player import Player, person_of
from wholeball.rulebook.sentence import counted

UNCHOSEN: Final[Shown] = "initial"
"""How a name is shown of somebody who has chosen nothing."""


def public_name(name: str, shown: Shown) -> str:
    """Return a name as it may be read; empty where it is hidden.

    The surname is the last word with the small words before it ("de la Cruz"), or what stands
    before a comma. A name of one word is the one that a person goes by, and is shown.
    """
    match shown:
        case "full":
            return name
        case "hidden":
            return ""
        case "initial":
            given, surname = _parted(name)
            return f"{_initial(given)}. {surname}" if given else surname


def public_roster(
    team: TeamId, players: Iterable[Player], people: Mapping[PersonId, Person]
) -> tuple[str, ...]:
    """Return the players of a team in the order of its list, those who are hidden counted last."""
    names = []
    for one in players:
        known = people.get(person_of(team, one))
        name = public_name(one.name, UNCHOSEN if known is None else known.shown)
        names.append(f"{_number(one)}{name}" if name else "")
    told = tuple(filter(None, names))
    hidden = len(names) - len(told)
    if not hidden:
        return told
    rest = "more player" if told else "player"
    return (*told, f"{counted(hidden, rest)}, not named")


def _number(player: Player) -> str:
    return "" if player.number is None else f"{player.number} "


def _parted(name: str) -> tuple[str, str]:
    surname, comma, given = (part.strip() for part in name.partition(","))
    if comma and surname and given:
        return given, surname
    words = name.split()
    first = len(words) - 1
    while first > 1 and words[first - 1].islower():
        first -= 1
    return (words[0], " ".join(words[first:])) if len(words) > 1 else ("", name)


def _initial(given: str) -> str:
    """Return the first letter, with the marks that belong to it."""
    end = 1
    while end < len(given) and unicodedata.combining(given[end]):
        end += 1
    return given[:end]
