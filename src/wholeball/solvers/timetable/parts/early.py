"""Has the model parts about what comes first: rounds in the order of the weeks, early starts."""

from typing import Final

from wholeball.planning.kinds.early import due_weeks
from wholeball.solvers.timetable.build import Build
from wholeball.solvers.timetable.part import Part
from wholeball.solvers.timetable.question import Read


def _late(build: Build, read: Read) -> None:
    """Charge each game of the league for the weeks by which it is after its round."""
    problem = build.question.problem
    due = due_weeks(problem)
    weeks = {start: week for week, starts in build.question.weeks.items() for start in starts}
    for game, places in build.x.items():
        if problem.by_game[game].pool is not None:
            by = due[problem.by_game[game].round]
            for place, column in places.items():
                build.rows.costs[column] += read.rule.cost * max(0, weeks[place] - by)


def _empty(build: Build, read: Read) -> None:
    """Charge each start that is empty where a later one of its night has a game."""
    for starts in build.question.nights.values():
        later: list[int] = []
        slots = 0
        for start in reversed(starts):
            here = build.everywhere.get(start, ())
            if later:
                empty = build.rows.column(cost=read.rule.cost)
                signs = [1] * len(later) + [-slots] * (len(here) + 1)
                build.rows.at_most([*later, *here, empty], 0, read.rule.rule, signs)
            later += here
            slots += build.question.masks[start].bit_count()


EARLY: Final = (
    Part(kind="round_by_round", adds=_late, by_night=_late),
    Part(kind="no_gap", adds=_empty),
)
