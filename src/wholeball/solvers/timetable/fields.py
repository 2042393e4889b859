"""Gives games their fields, once their starts are known."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from wholeball.kernel.identity import GameId, TeamId
from wholeball.planning.kinds.times import share
from wholeball.planning.problem import Placement
from wholeball.solvers.timetable import sat
from wholeball.solvers.timetable.question import Question, Read
from wholeball.solvers.timetable.rows import Rows
from wholeball.solvers.timetable.sat import Limits

WORK: Final = 5.0
"""How long fields are shared out, in CP-SAT's own measure."""
STAYS: Final = 1_000
"""What it is worth that a game stays on its field: more than any wish about fields."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NoFields:
    """A set of slots that are fewer than the games of their start that can use no other."""

    slots: int


Matched = Mapping[GameId, int]
"""The slot of each game by its number."""


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
    kept: Mapping[GameId, str] | None = None,
) -> tuple[Placement, ...]:
    """Return each game on its field, fields shared out where a rule asks for it.

    Raises:
        ValueError: there are too few fields for the games of a start.
    """
    found = matched(question, starts, kept)
    if isinstance(found, NoFields):
        where = " and ".join(slot.field for slot in question.inside(found.slots))
        raise ValueError(f"{where} are too few for the games of one start")  # noqa: TRY004
    stays = kept or {}
    is_moved = any(question.slots[found[game]].field != field for game, field in stays.items())
    if is_moved or _has_wishes(question, starts):
        found = _shared_out(question, starts, found, stays)
    return tuple(
        Placement(
            game=game, start=question.starts[start], field=question.slots[found[game]].field
        )
        for game, start in starts.items()
    )


def _has_wishes(question: Question, starts: Mapping[GameId, int]) -> bool:
    """Tell whether it matters to a wish on which field a game is."""
    if any(one.rule.kind == "even_fields" for one in question.rules):
        return True
    for game, start in starts.items():
        here = question.free[game] & question.masks[start]
        if any(taken & here not in (0, here) for taken, _ in question.prices.get(game, ())):
            return True
    return False


def _shared_out(
    question: Question,
    starts: Mapping[GameId, int],
    found: Matched,
    kept: Mapping[GameId, str],
) -> Matched:
    """Share fields out among teams as the rules ask, beginning from a matching."""
    rows = Rows()
    on: dict[GameId, dict[int, int]] = defaultdict(dict)
    at: dict[int, list[int]] = defaultdict(list)
    for game, start in starts.items():
        for slot in _wanted(question, game, question.masks[start], kept):
            moves = game in kept and kept[game] != question.slots[slot].field
            cost = question.price(game, 1 << slot) + STAYS * moves
            on[game][slot] = rows.column(cost=cost)
            at[slot].append(on[game][slot])
        rows.exactly(list(on[game].values()), 1, "once")
    for columns in at.values():
        rows.at_most(columns, 1, "capacity")
    for read in question.rules:
        if read.rule.kind == "even_fields":
            for team in read.teams:
                _add_even(rows, on, question, read, team)
    hint = {
        column: int(found[game] == slot)
        for game, slots in on.items()
        for slot, column in slots.items()
    }
    answer = sat.solved(rows, Limits(workers=1, work=WORK), hint=hint)
    if not answer.values:
        return found
    return {
        game: slot
        for game, slots in on.items()
        for slot, column in slots.items()
        if answer.values[column]
    }


def _add_even(
    rows: Rows,
    on: Mapping[GameId, Mapping[int, int]],
    question: Question,
    read: Read,
    team: TeamId,
) -> None:
    games = question.games(team, read.rule)
    fields = sorted({slot.field for slot in question.problem.slots})
    fair = share(len(games), len(fields))
    by_field: dict[str, list[int]] = defaultdict(list)
    for game in games:
        for slot, column in on[game].items():
            by_field[question.slots[slot].field].append(column)
    for here in by_field.values():
        if len(here) > fair:
            over = rows.column(cost=read.rule.cost, top=len(here))
            rows.at_most([*here, over], fair, read.rule.rule, [*[1] * len(here), -1])
