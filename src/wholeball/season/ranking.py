"""Parts level teams, criterion after criterion, and keeps each stage for the reasons."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np

from wholeball.rulebook.criteria import AmongLevel, Criterion, LastResort, LevelFigure
from wholeball.season.column import Column
from wholeball.season.columns import Step, column
from wholeball.season.count import Flags, Whole
from wholeball.season.mini_tables import MiniTables, level_column, mini_tables
from wholeball.season.tally import Facts


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One comparison that the rules ask for: a criterion, or one figure of a mini-table.

    `resort` marks the last resort, asked after every criterion.
    """

    criterion: Step
    figure: LevelFigure | None = None
    resort: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One question put to all level sets at once; each array has shape (teams,).

    `sets` are the level sets the column was made for: those before the mini-table began, or
    else `before`. `wanted` marks the teams the question was for, `asked` those of a set in
    which it could be asked. `round` counts the mini-tables of one criterion from 1; it is 0
    for a figure of the whole table.
    """

    question: Question
    round: int
    sets: Whole
    before: Whole
    after: Whole
    wanted: Flags
    asked: Flags
    column: Column


@dataclass(slots=True, kw_only=True)
class History:
    """How the ranking came about: the facts, every question in order, every stage so far.

    `level` numbers the level sets, best first, shape (teams,).
    """

    facts: Facts
    questions: tuple[Question, ...]
    last_resort: LastResort
    level: Whole
    stages: list[Stage] = field(default_factory=list)


def rank(facts: Facts, criteria: Sequence[Criterion], last_resort: LastResort) -> History:
    """Return the ranking's history; its `level` is the order, with ties where none parts.

    Tiers stand apart from the start, and teams that are out below all others. Each criterion is
    asked of the teams that all before it left level, and of those only. A mini-table that is
    made again is made within the sets into which it split, until it splits none; then those
    sets go on to the next criterion, never back to an earlier one.
    """
    steps = [*criteria, *_resort(criteria, last_resort)]
    history = History(
        facts=facts,
        questions=tuple(_questions(steps, len(criteria))),
        last_resort=last_resort,
        level=_start(facts),
    )
    for position, step in enumerate(steps):
        wanted = crowded(history.level)
        if not wanted.any():
            break
        if isinstance(step, AmongLevel):
            _make_mini_tables(history, step, wanted)
        else:
            question = Question(criterion=step, resort=position >= len(criteria))
            level = history.level
            put = column(step, facts, level)
            _ask(history, question, put, sets=level, wanted=wanted)
    return history


def _start(facts: Facts) -> Whole:
    tiers = [(team in facts.out, facts.outside.tiers.get(team, 0)) for team in facts.teams]
    number = {tier: position for position, tier in enumerate(sorted(set(tiers)))}
    return np.array([number[tier] for tier in tiers], dtype=np.int64)


def crowded(level: Whole) -> Flags:
    """Return for each team whether its level set holds another, shape (teams,)."""
    return np.asarray(np.bincount(level)[level] > 1, dtype=np.bool_)


def made_for(history: History, level: Whole, wanted: Flags) -> MiniTables | None:
    """Return the mini-tables of these level sets; None where no games are known."""
    games = history.facts.games
    return None if games is None else mini_tables(games, level, wanted)


def _resort(criteria: Sequence[Criterion], last_resort: LastResort) -> list[Step]:
    return [] if last_resort == "shared" or last_resort in criteria else [last_resort]


def _questions(steps: Sequence[Step], criteria: int) -> Iterator[Question]:
    for position, step in enumerate(steps):
        if isinstance(step, AmongLevel):
            for figure in step.among_level:
                yield Question(criterion=step, figure=figure)
        else:
            yield Question(criterion=step, resort=position >= criteria)


def _make_mini_tables(history: History, step: AmongLevel, wanted: Flags) -> None:
    count = 1
    while wanted.any():
        sets = history.level
        tables = made_for(history, sets, wanted)
        for figure in step.among_level:
            put = level_column(figure, tables, len(sets))
            still = wanted & crowded(history.level)
            question = Question(criterion=step, figure=figure)
            _ask(history, question, put, sets=sets, wanted=still, count=count)
        if not step.again:
            return
        wanted = crowded(history.level) & _has_shrunk(sets, history.level)
        count += 1


def _has_shrunk(before: Whole, after: Whole) -> Flags:
    return np.asarray(np.bincount(after)[after] < np.bincount(before)[before], dtype=np.bool_)


def _ask(
    history: History,
    question: Question,
    put: Column,
    *,
    sets: Whole,
    wanted: Flags,
    count: int = 0,
) -> None:
    before = history.level
    asked = wanted & _known_throughout(put.known, sets)
    history.level = _parted(before, put.worth, asked) if asked.any() else before
    history.stages.append(
        Stage(
            question=question,
            round=count,
            sets=sets,
            before=before,
            after=history.level,
            wanted=wanted,
            asked=asked,
            column=put,
        )
    )


def _known_throughout(known: Flags, sets: Whole) -> Flags:
    unknown = np.bincount(sets[~known], minlength=int(sets.max(initial=0)) + 1)
    return np.asarray(unknown[sets] == 0, dtype=np.bool_)


def _parted(level: Whole, worth: Whole, asked: Flags) -> Whole:
    """Return finer level sets: within each, the teams asked are sorted by worth, best first."""
    compared = np.where(asked, -worth, 0)
    order = np.lexsort((compared, level))
    steps = (np.diff(level[order]) != 0) | (np.diff(compared[order]) != 0)
    finer = np.empty_like(level)
    finer[order] = np.concatenate(([0], np.cumsum(steps)))
    return finer
