"""Gives games their fields, once their starts are known."""

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

from wholeball.kernel.identity import GameId
from wholeball.planning.problem import Placement
from wholeball.solvers.timetable.question import Question
from wholeball.solvers.timetable.search import Search
from wholeball.solvers.timetable.shares import Matched, shared_out

OnBetter: TypeAlias = Callable[[tuple[Placement, ...]], None]
"""Told of games on fields that are better shared out than before."""
STAYS: Final = 1_000
"""What it is worth that a game stays on its field: more than any wish about fields."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NoFields:
    """A set of slots that are fewer than the games of their start that can use no other."""

    slots: int


def matched(
    question: Question, starts: Mapping[GameId, int], kept: Mapping[GameId, str] | None = None
) -> Matched | NoFields:
    """Give each game a slot of its start, free fields before others.

    Games that are `kept` stay on their field if they can.
    """
    by_start: dict[int, list[GameId]] = defaultdict(list)
    for game, start in starts.items():
        by_start[start].append(game)
    found: dict[GameId, int] = {}
    for start, games in by_start.items():
        here = _matched(question, question.masks[start], games, kept or {})
        if isinstance(here, NoFields):
            return here
        found |= here
    return found


def _matched(
    question: Question, mask: int, games: Sequence[GameId], kept: Mapping[GameId, str]
) -> dict[GameId, int] | NoFields:
    """Match games to slots by augmenting paths; a game that is kept asks for its field first."""
    taken: dict[int, GameId] = {}

    def place(game: GameId, seen: set[int]) -> bool:
        wanted = _wanted(question, game, mask, kept)
        for slot in sorted(wanted, key=taken.__contains__):
            if slot in seen:
                continue
            seen.add(slot)
            if slot not in taken or place(taken[slot], seen):
                taken[slot] = game
                return True
        return False

    for game in sorted(games, key=lambda one: (one not in kept, one)):
        seen: set[int] = set()
        if not place(game, seen):
            return NoFields(slots=sum(1 << slot for slot in seen))
    return {game: slot for slot, game in taken.items()}


def _wanted(
    question: Question, game: GameId, mask: int, kept: Mapping[GameId, str]
) -> list[int]:
    """Return the slots that a game may use of a start, its own field and the cheap ones first."""
    free = question.free[game] & mask
    slots = [bit for bit in range(free.bit_length()) if free >> bit & 1]
    return sorted(
        slots,
        key=lambda one: (
            question.slots[one].field != kept.get(game),
            question.price(game, 1 << one),
            one,
        ),
    )


def placements(
    question: Question,
    starts: Mapping[GameId, int],
    search: Search,
    *,
    kept: Mapping[GameId, str] | None = None,
    on_better: OnBetter | None = None,
) -> tuple[Placement, ...]:
    """Return each game on its field, fields shared out where a rule asks for it.

    Games that are `kept` stay on their field if they can.

    Raises:
        ValueError: there are too few fields for the games of a start.
    """
    stays = kept or {}
    begin = matched(question, starts, stays)
    if isinstance(begin, NoFields):
        where = " and ".join(slot.field for slot in question.inside(begin.slots))
        raise ValueError(f"{where} are too few for the games of one start")  # noqa: TRY004
    prices = {
        game: dict(_priced(question, game, question.masks[start], stays))
        for game, start in starts.items()
    }
    placed = _placed(question, begin)
    for better in shared_out(question, prices, begin, search):
        placed = _placed(question, better)
        if on_better is not None:
            on_better(placed)
    return placed


def _placed(question: Question, matched: Matched) -> tuple[Placement, ...]:
    slots = ((game, question.slots[slot]) for game, slot in matched.items())
    return tuple(
        Placement(game=game, start=slot.start, field=slot.field) for game, slot in slots
    )


def _priced(
    question: Question, game: GameId, mask: int, kept: Mapping[GameId, str]
) -> Iterator[tuple[int, int]]:
    """Yield the slots that a game may use of a start, and what each of them costs."""
    for slot in _wanted(question, game, mask, kept):
        moves = game in kept and kept[game] != question.slots[slot].field
        yield slot, question.price(game, 1 << slot) + STAYS * moves
