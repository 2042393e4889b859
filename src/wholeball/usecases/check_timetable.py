"""Checks the timetable of a season folder against its rules, where it has any."""

from collections.abc import Iterator

from wholeball.files.folder import SeasonFolder
from wholeball.files.problem import other_games, problem_of
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.kernel.faults import Fault, Level, Place, WholeballError
from wholeball.league.record import LeagueRecord
from wholeball.planning.check import check
from wholeball.rulebook.sentence import counted


def timetable_remarks(read: SeasonFolder, record: LeagueRecord) -> Iterator[Fault]:
    """Doubt each rule that the timetable breaks, and note what its unmet wishes cost.

    Where planning.toml asks for other games than the timetable has, that is a doubt too.

    A folder without planning.toml, slots or a timetable has nothing to be held to.
    """
    planning = read.planning
    has_timetable = bool(read.timetable or read.open_fixtures)
    if planning.said is None or not planning.slots or not has_timetable:
        return
    try:
        problem = problem_of(read)
    except WholeballError as refused:
        yield _remark("infeasible", refused.says, refused.fix)
        return
    there = frozenset(one.game for one in problem.announced)
    report = check(problem, problem.announced)
    for one in report.broken:
        if one.rule != "once" or there.issuperset(one.games):
            cure = f"Move a game, loosen the rule, or plan again: {record.way('plan')}"
            yield _remark("timetable", one.says, cure)
    for says in other_games(read):
        yield _remark("timetable", says, f"Plan again: {record.way('plan')}")
    missing = [game for game in problem.by_game if game not in there]
    if missing:
        some = ", ".join(missing[:6])
        says = f"{counted(len(missing), 'game')} of planning.toml without a place yet: {some}."
        yield _remark("timetable", says, f"Give them one: {record.way('plan')}")
    if report.total:
        says = f"the wishes that the timetable does not meet cost {report.total:,}."
        yield _remark("timetable", says, f"See which: {record.way('explain')}", "note")


def _remark(code: str, says: str, cure: str, level: Level = "doubt") -> Fault:
    return Fault(code=code, place=Place(file=TIMETABLE_FILE), says=says, cure=cure, level=level)
