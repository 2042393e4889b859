"""Counts what persons were shown in a game: yellows that add up, and reds."""

from collections.abc import Iterator
from dataclasses import dataclass

from wholeball.kernel.identity import PersonId, TeamId
from wholeball.season.appearances import GameSheet, PersonCard


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownIn:
    """What one person was shown on a night of a game: yellows that count on, and whether red."""

    person: PersonId
    team: TeamId
    yellows: int
    is_red: bool
    night: int


def shown_in(sheet: GameSheet) -> Iterator[ShownIn]:
    """Yield each known person who was shown yellow or red, in the order first shown, by night.

    Yellows that brought a red are spent by it. Those of a game that counts for nothing lapse; a
    red does not (FIFA Disciplinary Code, from memory).
    """
    by_person: dict[PersonId, list[PersonCard]] = {}
    for one in sheet.cards:
        if one.person is not None:
            by_person.setdefault(one.person, []).append(one)
    lapse = sheet.result is not None and sheet.result.how == "annulled"
    for person, cards in by_person.items():
        is_spent = any(one.second_caution for one in cards)
        for night in dict.fromkeys(one.night for one in cards):
            colours = [one.colour for one in cards if one.night == night]
            yield ShownIn(
                person=person,
                team=cards[0].team,
                yellows=0 if is_spent or lapse else colours.count("yellow"),
                is_red="red" in colours,
                night=night,
            )
