"""Explains the timetable of a season folder: its rules in words, and why there is no plan."""

from dataclasses import dataclass
from datetime import datetime

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.problem import problem_of
from wholeball.league.record import LeagueRecord
from wholeball.planning.answer import Impossible, Report
from wholeball.planning.check import check
from wholeball.planning.problem import TimetableProblem
from wholeball.usecases.plan_timetable import from_now, why_not


@dataclass(frozen=True, slots=True, kw_only=True)
class Explained:
    """The question; why it has no answer, None where nothing speaks against one.

    `report` is what the timetable in the folder breaks and costs, None where there is none.
    """

    read: SeasonFolder
    problem: TimetableProblem
    why_not: Impossible | None
    report: Report | None


def explain_timetable(record: LeagueRecord, *, now: datetime) -> Explained:
    """Return what a timetable of the folder is held to, and what speaks against one.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is nothing to plan by.
    """
    read = read_folder(record)
    problem = problem_of(read, on=from_now(read, now), as_planned=True)
    reasons = why_not(problem)
    present = problem_of(read)
    return Explained(
        read=read,
        problem=problem,
        why_not=reasons if reasons.reasons else None,
        report=check(present, present.announced) if present.announced else None,
    )
