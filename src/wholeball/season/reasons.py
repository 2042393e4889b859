"""Says why one team stands above the next: what was asked, what it showed, what parted them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias, overload

import numpy as np

from wholeball.kernel.identity import TeamId
from wholeball.rulebook.criteria import LastResort
from wholeball.season.column import Column, Quantity, Reason
from wholeball.season.columns import column
from wholeball.season.count import Flags, Whole
from wholeball.season.mini_tables import level_column
from wholeball.season.ranking import History, Question, Stage, made_for

Verdict: TypeAlias = Literal["parts", "level", "absent"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One question put to two neighbours, and what it showed.

    For a mini-table, `table` holds the figure of each level team it was made for, in the
    order of their identities, and `round` counts the mini-tables of the criterion from 1; for
    other figures they are empty and 0. Where the verdict is "absent", `reason` says why the
    level teams could not be compared. `draw` is the label of the draw behind a lot.
    """

    question: Question
    above: Quantity | None
    below: Quantity | None
    verdict: Verdict
    reason: Reason | None = None
    round: int = 0
    table: tuple[tuple[TeamId, Quantity | None], ...] = ()
    draw: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Separation:
    """Why `above` stands above `below`.

    `by` is None where nothing parts them: each question was level or could not be asked, and
    what is left is the `last_resort`; or else `below_is_out` and stands last whatever it has.
    """

    above: TeamId
    below: TeamId
    by: Question | None
    asked: tuple[Asked, ...]
    not_asked: tuple[Question, ...]
    last_resort: LastResort
    below_is_out: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Absence:
    """A question that could not be asked of these level teams, and why."""

    question: Question
    round: int
    teams: tuple[TeamId, ...]
    reason: Reason


class Neighbours(Sequence[Separation]):
    """The separations of each team from the next, best first, worked out when read."""

    def __init__(self, history: History, order: Sequence[int]) -> None:
        """Take the history and the indexes of the teams, best first."""
        self._history = history
        self._order = order

    def __len__(self) -> int:
        """Return one less than the teams."""
        return max(len(self._order) - 1, 0)

    @overload
    def __getitem__(self, index: int) -> Separation: ...
    @overload
    def __getitem__(self, index: slice) -> list[Separation]: ...
    def __getitem__(self, index: int | slice) -> Separation | list[Separation]:
        """Return the separation of row `index` from the row below it."""
        if isinstance(index, slice):
            return [self[one] for one in range(*index.indices(len(self)))]
        return _separation(self._history, *self._pair(index))

    def would_show(self, index: int) -> tuple[Asked, ...]:
        """Return what the questions not asked would have shown of the same two teams.

        A mini-table is that of the two alone. What parts them here may favour either.
        """
        history, (above, below) = self._history, self._pair(index)
        pair = np.arange(1, len(history.level) + 1)
        pair[[above, below]] = 0
        questions = self[index].not_asked
        return tuple(_supposed(history, one, pair, (above, below)) for one in questions)

    def _pair(self, index: int) -> tuple[int, int]:
        above = range(len(self))[index]
        return self._order[above], self._order[above + 1]


def absences(history: History) -> tuple[Absence, ...]:
    """Return every question that could not be asked of some level set, in the order put."""
    return tuple(one for stage in history.stages for one in _absent(history, stage))


def _absent(history: History, stage: Stage) -> Iterator[Absence]:
    if stage.question.resort:
        return
    missing = stage.wanted & ~stage.asked
    for number in np.unique(stage.before[missing]).tolist():
        held = np.flatnonzero(stage.before == number).tolist()
        yield Absence(
            question=stage.question,
            round=stage.round,
            teams=tuple(history.facts.teams[one] for one in held),
            reason=stage.column.reason,
        )


def _separation(history: History, above: int, below: int) -> Separation:
    asked: list[Asked] = []
    by: Question | None = None
    for stage in history.stages:
        if not stage.wanted[above] or stage.before[above] != stage.before[below]:
            continue
        asked.append(_asked(history, stage, above, below))
        if asked[-1].verdict == "parts":
            by = stage.question
            break
    teams, out = history.facts.teams, history.facts.out
    return Separation(
        above=teams[above],
        below=teams[below],
        by=by,
        asked=tuple(asked),
        not_asked=_after(history.questions, by),
        last_resort=history.last_resort,
        below_is_out=teams[below] in out and teams[above] not in out,
    )


def _after(questions: tuple[Question, ...], by: Question | None) -> tuple[Question, ...]:
    return () if by is None else questions[questions.index(by) + 1 :]


def _asked(history: History, stage: Stage, above: int, below: int) -> Asked:
    absent = not stage.asked[above]
    parts = stage.after[above] != stage.after[below]
    put = stage.column
    return Asked(
        question=stage.question,
        above=put.figure(above),
        below=put.figure(below),
        verdict="absent" if absent else "parts" if parts else "level",
        reason=put.reason if absent else None,
        round=stage.round,
        table=_table(history, put, stage.sets, above) if stage.round else (),
        draw=None if absent else put.draws.get(above),
    )


def _table(
    history: History, put: Column, sets: Whole, team: int
) -> tuple[tuple[TeamId, Quantity | None], ...]:
    members = np.flatnonzero(sets == sets[team]).tolist()
    return tuple((history.facts.teams[one], put.figure(one)) for one in members)


def _supposed(history: History, question: Question, pair: Whole, two: tuple[int, int]) -> Asked:
    wanted: Flags = pair == 0
    if question.figure is None:
        put = column(question.criterion, history.facts, pair)
    else:
        tables = made_for(history, pair, wanted)
        put = level_column(question.figure, tables, len(pair))
    above, below = two
    absent = not put.known[wanted].all()
    parts = put.worth[above] != put.worth[below]
    return Asked(
        question=question,
        above=put.figure(above),
        below=put.figure(below),
        verdict="absent" if absent else "parts" if parts else "level",
        reason=put.reason if absent else None,
        round=0 if question.figure is None else 1,
        table=() if question.figure is None else _table(history, put, pair, above),
        draw=put.draws.get(above),
    )
