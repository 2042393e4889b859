"""Names who gave each rating, by the crews of the games."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal
from typing import Final

from wholeball.kernel.identity import GameId
from wholeball.league.crew import OnCrew
from wholeball.season.appearances import GameSheet
from wholeball.season.ratings import Rated, Rater

_BESIDE: Final = "scorekeeper"
_PLACE: Final[dict[Rater, int]] = {"official": 0, "second_official": 1}


def rated_in(
    sheets: Iterable[GameSheet], crews: Iterable[OnCrew], roles: Sequence[str]
) -> tuple[Rated, ...]:
    """Return every rating of these games, in the order given.

    A scorecard knows a first and a second official. The first is who has the first of the
    rulebook's `roles` that is filled, the second the next; a scorekeeper is neither. A game that
    was resumed is rated by the crew of its last night. Who cannot be told stays without a name.
    """
    by_game: dict[GameId, list[OnCrew]] = {}
    for one in crews:
        if one.role != _BESIDE:
            by_game.setdefault(one.game, []).append(one)
    order = {role: position for position, role in enumerate(roles)}
    for crew in by_game.values():
        last = max(one.day or date.min for one in crew)
        crew[:] = [one for one in crew if (one.day or date.min) == last]
        crew.sort(key=lambda one: order.get(one.role, len(order)))
    return tuple(
        one for sheet in sheets for one in _of_sheet(sheet, by_game.get(sheet.fixture.game, []))
    )


def _of_sheet(sheet: GameSheet, crew: Sequence[OnCrew]) -> Iterator[Rated]:
    fixture = sheet.fixture
    for one in sheet.ratings:
        place = _PLACE.get(one.by, len(crew))
        yield Rated(
            game=fixture.game,
            round=fixture.round,
            team=fixture.home if one.side == "home" else fixture.away,
            by=one.by,
            official=crew[place].official if place < len(crew) else None,
            value=Decimal(one.hundredths).scaleb(-2),
            reason=one.reason,
        )
