"""Searches for a timetable in a process of its own, which knows the season's texts and no database.

It reads one line of JSON, what is asked and upon which texts; any line after it, or the end of
them, ends the search with the best so far. It prints lines of JSON: progress, then what was found.
"""

import json
import os
import sys
import threading
from base64 import b64decode
from collections.abc import Callable, Mapping
from datetime import date, datetime
from typing import Any, Final, TextIO

from wholeball.files.problem import problem_of
from wholeball.files.timetable_write import timetable_rows
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.league.record import LeagueRecord
from wholeball.league.texts import Texts
from wholeball.planning.answer import Plan
from wholeball.planning.problem import TimetableProblem
from wholeball.planning.turns import in_rounds, kept
from wholeball.solvers.timetable.budget import Budget, Progress
from wholeball.usecases.ask_what_if import what_helps
from wholeball.usecases.explain_timetable import explain_timetable
from wholeball.usecases.plan_timetable import Watch, plan_timetable
from wholeball.usecases.repair_timetable import Happened, repair_timetable

Found = dict[str, Any]
_HELPS_SECONDS: Final = 10.0


def main(given: TextIO, out: TextIO) -> None:
    """Search for what the first line asks, and print what comes of it."""
    asked = json.loads(given.readline())
    stops = threading.Event()
    threading.Thread(target=_listen, args=(given, stops), daemon=True).start()

    def tell(told: Found) -> None:
        print(json.dumps(told), file=out, flush=True)

    def progress(now: Progress) -> None:
        tell(
            {
                "best": now.best,
                "bound": now.bound,
                "seconds": now.seconds,
                "left": now.left,
            }
        )

    try:
        tell({"found": search(asked, Watch(on_progress=progress, stop=stops.is_set))})
    except InputFaults as faults:
        tell({"refused": [f"{one.says} {one.cure}".strip() for one in faults.faults]})
    except WholeballError as refused:
        tell({"refused": [str(refused)]})


def search(asked: Mapping[str, Any], watch: Watch) -> Found:
    """Return what was found, as plain values.

    Raises:
        InputFaults: everything wrong with the season, or why there is no plan.
        WholeballError: there is nothing to plan by, or no plan was found in the time.
    """
    texts = {name: b64decode(data) for name, data in asked["texts"].items()}
    record = Texts(place=asked["place"], texts=texts)
    now = datetime.fromisoformat(asked["now"])
    budget = Budget(seconds=float(asked["seconds"]))
    return _KINDS[asked["kind"]](record, asked, budget, now, watch)


def _plan(
    record: LeagueRecord, asked: Mapping[str, Any], budget: Budget, now: datetime, watch: Watch
) -> Found:
    del asked
    planned = plan_timetable(record, budget, now=now, writes=False, watch=watch)
    stay = kept(planned.problem, planned.plan.placements) if planned.problem.played else ()
    games = in_rounds(planned.problem, planned.plan.placements, stay)
    stages = {one.game: one.stage for one in planned.read.timetable}
    text = timetable_rows(planned.plan.placements, games, stages)
    return {
        **_plan_told(planned.plan),
        "text": text.decode(),
        "moved": len(planned.changes),
        "remarks": [one.says for one in planned.remarks],
    }


def _repair(
    record: LeagueRecord, asked: Mapping[str, Any], budget: Budget, now: datetime, watch: Watch
) -> Found:
    done = repair_timetable(
        record, _happened(asked["happened"]), budget, now=now, writes=False, watch=watch
    )
    before: TimetableProblem = problem_of(done.read)
    placements = done.found.plan.placements
    games = in_rounds(done.found.problem, placements, kept(before, placements))
    stages = {one.game: one.stage for one in done.read.timetable}
    return {
        **_plan_told(done.found.plan),
        "text": timetable_rows(placements, games, stages).decode(),
        "moved": len(done.found.moved),
        "is_least": done.found.is_least,
        "lost": [list(one.cells()) for one in done.lost],
        "remarks": [one.says for one in done.remarks],
    }


def _explain(
    record: LeagueRecord, asked: Mapping[str, Any], budget: Budget, now: datetime, watch: Watch
) -> Found:
    del asked, budget, watch
    told = explain_timetable(record, now=now)
    why, report = told.why_not, told.report
    return {
        "reasons": [one.says for one in why.reasons] if why else [],
        "cures": [one.says for one in why.cures] if why else [],
        "broken": [one.says for one in report.broken] if report else [],
        "lines": [one.says for one in report.lines] if report else [],
        "total": report.total if report else None,
    }


def _helps(
    record: LeagueRecord, asked: Mapping[str, Any], budget: Budget, now: datetime, watch: Watch
) -> Found:
    del asked, watch
    several = what_helps(record, Budget(seconds=min(budget.seconds, _HELPS_SECONDS)), now=now)
    return {"helps": [str(one.says) for one in several]}


_KINDS: Final[
    Mapping[str, Callable[[LeagueRecord, Mapping[str, Any], Budget, datetime, Watch], Found]]
] = {"plan": _plan, "repair": _repair, "explain": _explain, "helps": _helps}


def _plan_told(plan: Plan) -> Found:
    return {
        "total": plan.total,
        "bound": plan.bound,
        "proof": plan.proof,
        "lines": [one.says for one in plan.lines],
    }


def _happened(told: Mapping[str, str]) -> Happened:
    night = date.fromisoformat(told["night"]) if told.get("night") else None
    field, team, site = told.get("field"), told.get("team"), told.get("site")
    is_night, is_site = night is not None and not field, night is None and not field
    return Happened(
        lost_nights=((night, site or None),) if is_night and night is not None else (),
        lost_sites=(site,) if is_site and site else (),
        lost_fields=((field, night),) if field else (),
        withdrawn=(team,) if team else (),
        edited=True,
    )


def _listen(given: TextIO, stops: threading.Event) -> None:
    given.readline()
    stops.set()


if __name__ == "__main__":
    try:
        main(sys.stdin, sys.stdout)
    except BrokenPipeError:  # the site has ended, and nobody waits for what is found
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
