"""Plans the timetable for the command line, and tells what came of it."""

import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from types import FrameType
from typing import Final

from rich.console import Console

from wholeball.cli.output import print_json, print_lines, print_remarks, printing_refusals
from wholeball.files.local_times import moment_of
from wholeball.league.record import LeagueRecord
from wholeball.planning.answer import Plan
from wholeball.planning.days import clock
from wholeball.planning.problem import TimetableProblem
from wholeball.reports.dates import day
from wholeball.reports.timetable_words import cost_lines, infeasible, proof_line, rule_line
from wholeball.rulebook.sentence import counted
from wholeball.solvers.timetable.budget import Budget, Progress
from wholeball.usecases.explain_timetable import Explained, explain_timetable
from wholeball.usecases.plan_timetable import Planned, Watch, plan_timetable, zone_of

WORK_A_SECOND: Final = 1.0
"""The deterministic work that stands for a second of --seconds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class How:
    """How a timetable is searched for and told; `now` is a moment that was typed."""

    seconds: float
    is_reproducible: bool
    writes: bool
    now: str | None
    as_json: bool

    @property
    def budget(self) -> Budget:
        """How much the search may take, by the clock or by work."""
        work = self.seconds * WORK_A_SECOND if self.is_reproducible else None
        return Budget(seconds=self.seconds, work=work)


def tell_plan(record: LeagueRecord, how: How) -> None:
    """Plan, and print the plan or why there is none."""
    with (
        printing_refusals(file=record.place, as_json=how.as_json, writes=how.writes),
        watched(how.seconds, _cost) as watch,
    ):
        found = plan_timetable(
            record,
            how.budget,
            now=moment(record, how.now),
            writes=how.writes,
            watch=watch,
        )
    print_remarks(found.remarks)
    if how.as_json:
        print_json(plan_values(found.plan, found.problem, found.written))
        return
    print_lines(_plan_lines(found))


def tell_explained(record: LeagueRecord, *, now: str | None, as_json: bool) -> None:
    """Print what a timetable is held to, and what speaks against one."""
    with printing_refusals(file=record.place, as_json=as_json):
        found = explain_timetable(record, now=moment(record, now))
    if as_json:
        print_json(_explained_values(found))
        return
    print_lines(_explained_lines(found))


def moment(record: LeagueRecord, text: str | None) -> datetime:
    """Return a moment that was typed, in the season's zone or its own, or now."""
    return datetime.now(UTC) if text is None else moment_of(text, zone_of(record)).at


@contextmanager
def watched(seconds: float, says: Callable[[Progress], str]) -> Iterator[Watch]:
    """Show on a terminal how a search goes; Ctrl-C ends it with the best plan so far."""
    is_stopped = False

    def stop(number: int, frame: FrameType | None) -> None:
        nonlocal is_stopped
        del number, frame
        is_stopped = True

    console = Console(stderr=True)
    before = signal.signal(signal.SIGINT, stop)
    try:
        if not sys.stderr.isatty():
            yield Watch(stop=lambda: is_stopped)
            return
        with console.status("Searching. Ctrl-C takes the best plan so far.") as status:

            def tell(one: Progress) -> None:
                left = counted(max(0, round(seconds - one.seconds)), "second")
                found = "no plan yet" if one.best is None else says(one)
                takes = "" if one.best is None else " Ctrl-C takes it."
                status.update(f"Searching: {found}, {left} left.{takes}")

            yield Watch(on_progress=tell, stop=lambda: is_stopped)
    finally:
        signal.signal(signal.SIGINT, before)


def _cost(one: Progress) -> str:
    """Return what the best plan costs, and how much of it could be saved."""
    best = one.best or 0
    gain = max(0.0, best - max(0.0, one.bound)) / max(1, best)
    return f"a plan that costs {best:,}, at most {gain:.0%} could be saved"


def _plan_lines(found: Planned) -> Iterator[str]:
    plan_, problem = found.plan, found.problem
    yield f"{counted(len(plan_.placements), 'game')} placed. It costs {plan_.total:,}."
    yield proof_line(plan_)
    if problem.announced:
        yield f"{counted(len(found.changes), 'game')} moved from where they were announced."
    yield from (f"  {line}" for line in cost_lines(plan_, problem))
    yield ""
    yield from game_lines(plan_, problem)
    if found.written:
        yield ""
        yield from (str(path) for path in found.written)


def game_lines(plan_: Plan, problem: TimetableProblem) -> Iterator[str]:
    """Yield the games night by night."""
    tonight = None
    for one in sorted(plan_.placements, key=lambda each: (each.start, each.field)):
        if one.start.night != tonight:
            tonight = one.start.night
            yield day(tonight)
        game = problem.by_game[one.game]
        yield f"  {clock(one.start.at)}  {one.field}  {game.home} v {game.away}  ({one.game})"


def plan_values(
    plan_: Plan, problem: TimetableProblem, written: tuple[str, ...]
) -> dict[str, object]:
    """Return a plan as plain values."""
    return {
        "ok": True,
        "total": plan_.total,
        "bound": max(0.0, plan_.bound),
        "proof": plan_.proof,
        "room": plan_.room,
        "games": [
            {
                "game": one.game,
                "date": f"{one.start.night}",
                "start": clock(one.start.at),
                "field": one.field,
                "home": f"{problem.by_game[one.game].home}",
                "away": f"{problem.by_game[one.game].away}",
            }
            for one in sorted(plan_.placements, key=lambda each: (each.start, each.field))
        ],
        "wishes": [
            {
                "rule": line.rule,
                "about": line.about,
                "times": line.times,
                "cost": line.cost,
                "says": line.says,
            }
            for line in plan_.lines
        ],
        "written": [str(path) for path in written],
    }


def _explained_lines(found: Explained) -> Iterator[str]:
    problem = found.problem
    yield (
        f"{counted(len(problem.pairings), 'game')}, "
        f"{counted(sum(map(len, problem.starts.values())), 'place')} to play them in."
    )
    for strength, heading in (("must", "What must hold:"), ("wish", "What is wished for:")):
        rules = [rule for rule in problem.rules if rule.strength == strength]
        if rules:
            yield heading
        for rule in rules:
            cost = f" Each time it is not met costs {rule.cost}." if rule.cost else ""
            yield f"  {rule_line(rule)}{cost}"
    yield ""
    if found.why_not is None:
        yield "Nothing speaks against a timetable."
    else:
        yield "There is no timetable:"
        yield from (f"  {one.says} {one.cure}" for one in infeasible(found.why_not))
    if found.report is not None:
        broken = found.report.broken
        yield f"The timetable in the folder costs {found.report.total:,}."
        yield from (f"  It breaks what must hold: {one.says}" for one in broken)
        yield from (f"  {one.says} Costs {one.cost}." for one in found.report.lines)


def _explained_values(found: Explained) -> dict[str, object]:
    reasons = () if found.why_not is None else found.why_not.reasons
    report = found.report
    return {
        "ok": True,
        "games": len(found.problem.pairings),
        "places": sum(map(len, found.problem.starts.values())),
        "rules": [
            {
                "rule": rule.rule,
                "kind": rule.kind,
                "strength": rule.strength,
                "cost": rule.cost,
                "says": rule_line(rule),
            }
            for rule in found.problem.rules
        ],
        "reasons": [
            {"rules": list(one.rules), "says": one.says, "shortage": one.shortage}
            for one in reasons
        ],
        "cures": [
            {"says": one.says, "is_tried": one.is_tried}
            for one in (() if found.why_not is None else found.why_not.cures)
        ],
        "present": None
        if report is None
        else {
            "total": report.total,
            "broken": [one.says for one in report.broken],
            "wishes": [one.says for one in report.lines],
        },
    }
