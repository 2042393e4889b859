"""Tries single changes to a question that has no plan, and tells those after which there is one."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final

from wholeball.kernel.identity import GameId
from wholeball.planning.answer import Cure, Reason
from wholeball.planning.days import day, weekday
from wholeball.planning.kinds import KINDS
from wholeball.planning.problem import Slot, TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.rulebook.sentence import counted, listed

MOST: Final = 3
"""How many cures are told at most."""
NIGHTS: Final = 2
"""How many nights more of a block are tried."""
RULES: Final = 6
"""How many rules are tried to be let go of, each by itself."""
_LET_GO: Final = "Let go of one rule"
_LOOSENED: Final = {
    "length": "Make the slots that are there long enough, by minutes in slots.csv"
}
"""What a person does about a rule that nobody can let go of."""
Trial = tuple[Cure, TimetableProblem]


def cures(
    problem: TimetableProblem,
    reasons: Iterable[Reason],
    can_be: Callable[[TimetableProblem], bool],
) -> Iterator[Cure]:
    """Yield at most three changes with each of which, by itself, a plan has been found."""
    told: set[str] = set()
    for cure, changed in _trials(problem, tuple(reasons)):
        if len(told) < MOST and cure.changes not in told and can_be(changed):
            told.add(cure.changes)
            yield cure


def _trials(problem: TimetableProblem, reasons: tuple[Reason, ...]) -> Iterator[Trial]:
    if problem.slots:
        yield from _without_displaced(problem)
        yield from rooms(problem)
    named = dict.fromkeys(one for reason in reasons for one in reason.rules)
    known = [rule for rule in problem.rules if rule.rule in named]
    if problem.slots:
        for rule in known:
            if rule.kind == "block":
                yield from _nights_of(problem, rule)
    for rule in known[:RULES]:
        says = f"{_LOOSENED.get(rule.kind, _LET_GO)}: {KINDS[rule.kind].sentence(rule)}"
        rest = tuple(one for one in problem.rules if one is not rule)
        yield Cure(says=says, changes=f"rule {rule.rule}"), replace(problem, rules=rest)
    if {reason.shortage for reason in reasons if reason.shortage} == {1}:
        for game in _last_games(problem):
            yield (
                Cure(says=f"Play without game {game}.", changes=f"game {game}"),
                _less(problem, game),
            )


def rooms(problem: TimetableProblem) -> Iterator[Trial]:
    """Yield more room of each sort: a field, a start a night, a night."""
    usable = [slot for slots in problem.starts.values() for slot in slots]
    name = _new_field(problem)
    firsts = {slot.start: slot for slot in reversed(usable)}
    field = tuple(replace(slot, field=name) for slot in firsts.values())
    yield (
        Cure(says="Use one field more at every start.", changes="field"),
        replace(problem, slots=(*problem.slots, *field)),
    )
    yield (
        Cure(says="Play one start more at the end of every night.", changes="start"),
        replace(problem, slots=(*problem.slots, *_later(usable))),
    )
    night = problem.last_day
    nights = {slot.night for slot in problem.slots}
    while night in nights and night > problem.first_day:
        night -= timedelta(days=1)
    if night not in nights:
        last = max(slot.night for slot in usable)
        more = tuple(replace(slot, night=night) for slot in usable if slot.night == last)
        says = f"Play one night more, such as {day(night)}."
        yield (
            Cure(says=says, changes=f"night {night}"),
            replace(problem, slots=(*problem.slots, *more)),
        )


def _nights_of(problem: TimetableProblem, block: Rule) -> Iterator[Trial]:
    """Yield a night more of a block's weekday, a week after its last one, and then several."""
    day_of_block = KINDS[block.kind].read(block).weekday
    usable = [slot for slots in problem.starts.values() for slot in slots]
    here = [slot for slot in usable if weekday(slot.night) == day_of_block]
    last = max((slot.night for slot in here), default=problem.first_day)
    tonight = [slot for slot in here if slot.night == last]
    for number in range(1, NIGHTS + 1) if here else ():
        nights = [last + timedelta(weeks=week) for week in range(1, number + 1)]
        late = ", after the season's last day" if nights[-1] > problem.last_day else ""
        says = f"Play {counted(number, 'night')} more: {listed(tuple(map(day, nights)))}{late}."
        more = tuple(replace(slot, night=night) for night in nights for slot in tonight)
        yield (
            Cure(says=says, changes=f"nights of {block.rule}"),
            replace(
                problem,
                last_day=max(problem.last_day, nights[-1]),
                slots=(*problem.slots, *more),
            ),
        )


def _without_displaced(problem: TimetableProblem) -> Iterator[Trial]:
    """Yield the season without games of pools whose announced place is gone: one, two, and so on.

    A game that brings a side to another is played. Teams have played unequal numbers then, so points are to be compared by the game.
    """
    gone = [
        problem.by_game[one.game]
        for one in problem.announced
        if one.game in problem.by_game and (one.start, one.field) not in problem.slot_at
    ]
    league = sorted(
        (one for one in gone if one.pool is not None and one.game not in problem.bringing),
        key=lambda one: (-one.round, one.game),
    )
    left = problem
    for number, game in enumerate(league[:RULES], start=1):
        left = _less(left, game.game)
        names = tuple(f"{one.game} ({one.home} v {one.away})" for one in league[:number])
        says = (
            f"Play without {'game' if number == 1 else 'games'} {listed(names)}, and rank by "
            "points_per_game in rulebook.toml."
        )
        yield Cure(says=says, changes="without games"), left


def _new_field(problem: TimetableProblem) -> str:
    known = {slot.field for slot in problem.slots}
    number = len(known) + 1
    while f"Field {number}" in known:
        number += 1
    return f"Field {number}"


def _later(usable: list[Slot]) -> tuple[Slot, ...]:
    """Return a slot after the last one of each night and field, as long, if the day has room."""
    last = {(slot.night, slot.field): slot for slot in usable}
    found = []
    for slot in last.values():
        ends = slot.ends
        fits = ends + timedelta(minutes=slot.minutes) <= datetime.combine(
            slot.night, datetime.max.time()
        )
        if ends.date() == slot.night and fits:
            found.append(replace(slot, at=ends.time()))
    return tuple(found)


def _last_games(problem: TimetableProblem) -> list[GameId]:
    last = max((one.round for one in problem.pairings), default=0)
    return [
        one.game
        for one in problem.pairings
        if one.round == last and one.game not in problem.bringing
    ][:MOST]


def _less(problem: TimetableProblem, game: GameId) -> TimetableProblem:
    rest = tuple(one for one in problem.pairings if one.game != game)
    locks = tuple(one for one in problem.locks if one.game != game)
    return replace(problem, pairings=rest, locks=locks)
