"""Finds single changes after which counting speaks no longer against a season too large to try.

No plan is made with any of them: whoever tells of them says so. How much a change must bring is
taken from what was counted to be short.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from itertools import count, islice
from typing import Final, TypeAlias

from wholeball.planning.answer import Cure, Reason
from wholeball.planning.counting import quick_reasons
from wholeball.planning.days import day
from wholeball.planning.kinds import KINDS
from wholeball.planning.problem import Slot, TimetableProblem
from wholeball.rulebook.sentence import counted, listed

CAPACITY: Final = "capacity"
"""What reasons call the want of places."""
MOST: Final = 3
"""How many cures are told at most."""
TRIED: Final = 3
"""How many amounts of one change are counted through, from the least that could do on."""
RULES: Final = 2
"""How many rules are let go of, each by itself."""
Trial: TypeAlias = tuple[Cure, TimetableProblem]


def counted_cures(problem: TimetableProblem, reasons: Iterable[Reason]) -> tuple[Cure, ...]:
    """Return at most three changes, each by itself enough as far as can be counted.

    More fields and later starts are counted through only where all that lacks is places, and a
    rule is let go of only where every reason names it: counting takes a second for 2,000 games.
    """
    why = tuple(reasons)
    every = [slot for slots in problem.starts.values() for slot in slots]
    if not why or not every:
        return ()
    lacking = max((one.shortage or 1 for one in why if CAPACITY in one.rules), default=0)
    is_room = all(CAPACITY in one.rules for one in why)
    found: list[Cure] = []
    for is_worth_it, trials in (
        (is_room, _fields(problem, every, lacking)),
        (True, _weeks(problem, every, lacking)),
        (is_room, _starts(problem, every)),
        (True, _rounds(problem, lacking)),
        (True, _rules(problem, why)),
    ):
        if is_worth_it and len(found) < MOST:
            enough = (cure for cure, changed in trials if not quick_reasons(changed))
            found += islice(enough, 1)
    return tuple(found)


def _told(says: str, changes: str) -> Cure:
    return Cure(says=says, changes=changes, is_tried=False)


def _fields(problem: TimetableProblem, every: list[Slot], lacking: int) -> Iterator[Trial]:
    """Yield more fields at every start, from so many on as the lacking places need."""
    first = {slot.start: slot for slot in reversed(every)}
    least = -(-lacking // len(first))
    taken = {slot.field for slot in problem.slots}
    names = [name for name in islice(_names(), len(taken) + least + TRIED) if name not in taken]
    for number in range(least, least + TRIED):
        more = tuple(
            replace(slot, field=name) for name in names[:number] for slot in first.values()
        )
        says = f"Use {counted(number, 'field')} more at every start."
        yield _told(says, "fields"), replace(problem, slots=(*problem.slots, *more))


def _names() -> Iterator[str]:
    return (f"Field {number}" for number in count(1))


def _weeks(problem: TimetableProblem, every: list[Slot], lacking: int) -> Iterator[Trial]:
    """Yield more weeks after the last, each like the fullest one that there is."""
    by_week: dict[int, list[Slot]] = defaultdict(list)
    for slot in every:
        by_week[problem.week_of(slot.night)].append(slot)
    fullest = max(by_week, key=lambda week: (len(by_week[week]), -week))
    last = max(problem.week_of(slot.night) for slot in problem.slots)
    least = max(1, -(-lacking // len(by_week[fullest])))
    for number in range(least, least + TRIED):
        more = tuple(
            replace(slot, night=slot.night + timedelta(weeks=week - fullest))
            for week in range(last + 1, last + 1 + number)
            for slot in by_week[fullest]
        )
        begins, ends = min(one.night for one in more), max(one.night for one in more)
        says = (
            f"Play {counted(number, 'week')} more like the one of {day(_first(by_week[fullest]))}: "
            f"{day(begins)} to {day(ends)}."
        )
        yield (
            _told(says, "weeks"),
            replace(
                problem,
                last_day=max(problem.last_day, ends),
                slots=(*problem.slots, *more),
            ),
        )


def _first(slots: list[Slot]) -> date:
    return min(slot.night for slot in slots)


def _starts(problem: TimetableProblem, every: list[Slot]) -> Iterator[Trial]:
    """Yield more starts at the end of every night, on each field, as long as the day has room."""
    slots = problem.slots
    last = {(slot.night, slot.field): slot for slot in sorted(every, key=lambda one: one.at)}
    for number in range(1, 1 + TRIED):
        last = {key: later for key, slot in last.items() if (later := _after(slot)) is not None}
        slots = (*slots, *last.values())
        says = f"Play {counted(number, 'start')} more at the end of every night."
        yield _told(says, "starts"), replace(problem, slots=slots)


def _after(slot: Slot) -> Slot | None:
    begins = slot.ends
    midnight = datetime.combine(slot.night + timedelta(days=1), time())
    fits = begins + timedelta(minutes=slot.minutes) <= midnight and begins < midnight
    return replace(slot, at=begins.time()) if fits else None


def _rounds(problem: TimetableProblem, lacking: int) -> Iterator[Trial]:
    """Yield the season without its last rounds, as many as the lacking places ask for or more."""
    league = [
        one
        for one in problem.pairings
        if one.pool is not None and one.game not in problem.bringing
    ]
    rounds = Counter(one.round for one in league if one.game not in problem.played)
    order = sorted(rounds)
    least = next(
        (
            number
            for number in range(1, len(order))
            if sum(rounds[one] for one in order[-number:]) >= lacking
        ),
        len(order),
    )
    for number in range(least, min(least + TRIED, len(order))):
        gone = order[-number:]
        out = {one.game for one in league if one.round in gone} - problem.played
        says = (
            f"Play {counted(len(out), 'game')} fewer, those of "
            f"{'round' if number == 1 else 'rounds'} {listed(tuple(map(str, gone)))}."
        )
        yield (
            _told(says, "rounds"),
            replace(
                problem,
                pairings=tuple(one for one in problem.pairings if one.game not in out),
                locks=tuple(one for one in problem.locks if one.game not in out),
            ),
        )


def _rules(problem: TimetableProblem, reasons: tuple[Reason, ...]) -> Iterator[Trial]:
    """Yield the season without one of the rules that clash."""
    named = frozenset.intersection(*(frozenset(reason.rules) for reason in reasons))
    own = [rule for rule in problem.rules if rule.rule in named and rule.kind != "length"]
    for rule in own[:RULES]:
        rest = tuple(one for one in problem.rules if one is not rule)
        says = f"Let go of one rule: {KINDS[rule.kind].sentence(rule)}"
        yield _told(says, f"rule {rule.rule}"), replace(problem, rules=rest)
