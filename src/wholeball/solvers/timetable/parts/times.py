"""Has the model parts about when a team plays."""

from collections import defaultdict
from collections.abc import Callable, Iterable
from datetime import date, datetime
from itertools import chain
from typing import Any, Final

from wholeball.kernel.identity import GameId
from wholeball.planning.days import weekday
from wholeball.planning.kinds.times import forbids, share
from wholeball.planning.problem import Slot, Start
from wholeball.solvers.timetable.build import Build
from wholeball.solvers.timetable.part import GAMES, Elastic, Part
from wholeball.solvers.timetable.question import Question, Read, Where


def _in_block(params: Any, slot: Slot) -> bool:
    return bool(
        weekday(slot.night) == params.weekday
        and params.opens <= slot.at
        and slot.ends <= datetime.combine(slot.night, params.closes)
    )


def _is_present(params: Any, slot: Slot) -> bool:
    return not params.covers(slot.start, slot.minutes)


def _even(build: Build, read: Read) -> None:
    question = build.question
    parts = max((len(starts) for starts in question.nights.values()), default=1)
    marked = _marked(question, max if read.params.which == "late" else min)
    for team in read.teams:
        games = question.games(team, read.rule)
        by_place = build.grouped(games)
        here = list(chain.from_iterable(by_place.get(start, ()) for start in marked))
        build.limit(here, share(len(games), parts), read)


def _marked(question: Question, pick: Callable[[Iterable[Start]], Start]) -> list[int]:
    """Return the last or first start of each night of several; the rest may be kept for rain."""
    nights: dict[date, set[Start]] = defaultdict(set)
    for slot in question.problem.slots:
        nights[slot.night].add(slot.start)
    picked = {pick(starts) for starts in nights.values() if len(starts) > 1}
    return [index for index, start in enumerate(question.starts) if start in picked]


def _is_long(params: Any, slot: Slot) -> bool:
    return bool(slot.minutes >= params.minutes)


def _looked_at(question: Question, read: Read) -> Iterable[GameId]:
    return [game for game in question.problem.by_game if question.looks_at(read.rule, game)]


def _is_elsewhere(params: Any, slot: Slot) -> bool:
    return not forbids(params, slot.start)


def _named(question: Question, read: Read) -> Iterable[GameId]:
    names = frozenset(read.params.game_names)
    return [game for game in question.problem.by_game if game in names]


TIMES: Final = (
    Part(kind="block", where=Where(allows=_in_block), elastic=Elastic(units=GAMES)),
    Part(kind="absent", where=Where(allows=_is_present), elastic=Elastic(units=GAMES)),
    Part(kind="even_starts", adds=_even),
    Part(kind="even_fields"),
    Part(
        kind="length",
        where=Where(allows=_is_long, named=_looked_at),
        elastic=Elastic(units=GAMES),
    ),
    Part(
        kind="not_at",
        where=Where(allows=_is_elsewhere, named=_named),
        elastic=Elastic(units=GAMES),
    ),
)
