"""Repairs the timetable of a season folder: as few games as can be move, and not far."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime
from itertools import count
from pathlib import Path
from zoneinfo import ZoneInfo

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.planning_toml import amount_of
from wholeball.files.problem import problem_of
from wholeball.kernel.faults import Fault, InputFaults, WholeballError
from wholeball.kernel.identity import GameId, SiteId, TeamId
from wholeball.kernel.nearest import did_you_mean
from wholeball.planning.answer import Impossible
from wholeball.planning.problem import Pairing, TimetableProblem
from wholeball.reports.timetable_words import infeasible
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.changes import (
    Added,
    Change,
    LostField,
    LostNight,
    LostSite,
    Withdrawn,
)
from wholeball.solvers.timetable.repair import Repaired, repair
from wholeball.usecases.plan_timetable import Watch, write_plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Happened:
    """What has happened to a season; a place is a night, with a site or a field beside it."""

    lost_nights: tuple[tuple[date, str | None], ...] = ()
    lost_fields: tuple[tuple[str, date | None], ...] = ()
    withdrawn: tuple[str, ...] = ()
    added: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RepairedSeason:
    """A repaired timetable, what is doubtful about the folder, and the files written."""

    read: SeasonFolder
    found: Repaired
    remarks: tuple[Fault, ...]
    written: tuple[Path, ...] = ()


def repair_timetable(
    folder: Path,
    happened: Happened,
    budget: Budget,
    *,
    now: datetime,
    writes: bool,
    watch: Watch | None = None,
) -> RepairedSeason:
    """Mend a season's timetable; what has begun by now stays, nights kept for rain are used.

    Raises:
        InputFaults: everything wrong with the folder, or why there is no plan (infeasible).
        WholeballError: nothing happened, a name is not known, there is no timetable, no plan
            was found in the time, the folder changed meanwhile, or the disk refuses.
    """
    read = read_folder(folder)
    asked = problem_of(read)
    if not asked.announced:
        raise WholeballError(
            "There is no timetable to repair.",
            fix=f"Plan one: wholeball plan {folder}",
            code="missing_file",
        )
    problem, changes = _changes(read, asked, happened)
    local = now.astimezone(ZoneInfo(read.season.league.timezone)).replace(tzinfo=None)
    tell = watch or Watch()
    found = repair(
        problem,
        changes,
        budget,
        now=local,
        on_progress=tell.on_progress,
        stop=tell.stop,
    )
    if isinstance(found, Impossible):
        raise InputFaults(infeasible(found))
    repaired = RepairedSeason(read=read, found=found, remarks=read.remarks)
    if not writes:
        return repaired
    written = write_plan(
        folder, asked, found.plan.placements, found.problem.by_game, now=now, on=None
    )
    return replace(repaired, written=written)


def _changes(
    read: SeasonFolder, problem: TimetableProblem, happened: Happened
) -> tuple[TimetableProblem, tuple[Change, ...]]:
    """Return what has happened as changes, and the question without the teams that come in."""
    fields = {slot.field for slot in problem.slots}
    sites = {slot.site for slot in problem.slots if slot.site}
    nights = {slot.night for slot in problem.slots}
    teams = {one.team for one in problem.teams}
    changes: list[Change] = []
    for night, site in happened.lost_nights:
        _refuse_unknown("night", f"{night}", map(str, nights))
        if site is None:
            changes.append(LostNight(night=night))
        else:
            _refuse_unknown("site", site, sites)
            changes.append(LostSite(site=SiteId(site), night=night))
    for field, on in happened.lost_fields:
        _refuse_unknown("field", field, fields)
        changes.append(LostField(field=field, night=on))
    for name in happened.withdrawn:
        _refuse_unknown("team", name, teams)
        changes.append(Withdrawn(team=TeamId(name)))
    come = tuple(map(TeamId, happened.added))
    for team in come:
        _refuse_unknown("team", team, teams)
    changes += _added(read, problem, come)
    if not changes:
        raise WholeballError(
            "Nothing has happened.",
            fix="Say what: --lost-night, --lost-field, --withdraw or --add.",
            code="missing",
        )
    rest = tuple(one for one in problem.teams if one.team not in come)
    return replace(problem, teams=rest), tuple(changes)


def _added(
    read: SeasonFolder, problem: TimetableProblem, come: tuple[TeamId, ...]
) -> Iterator[Added]:
    """Yield each team that comes in, with games against the teams of its pool.

    Where teams play so many games each, it meets those with the fewest games first.
    """
    said = read.planning.said
    games = {one.team: 0 for one in problem.teams}
    for one in problem.pairings:
        for side in one.sides:
            if isinstance(side, str):
                games[TeamId(side)] += 1
    taken = {f"{one.game}" for one in problem.pairings}
    names = (GameId(f"{number}") for number in count(1) if f"{number}" not in taken)
    for team in come:
        if games[team]:
            raise WholeballError(
                f"{team} has {games[team]} games in timetable.csv already.",
                fix="Only a team without a game can be added.",
                code="contradiction",
            )
        planned = next(one for one in problem.teams if one.team == team)
        mates = [
            one.team for one in problem.teams if one.pool == planned.pool and one.team != team
        ]
        amount = None if said is None else amount_of(said.entry, planned.pool)
        meets = sorted(mates, key=lambda one: games[one])
        if amount is not None:
            meets = (
                meets * amount.meetings
                if amount.games_each is None
                else meets[: amount.games_each]
            )
        pairings = []
        for number, other in enumerate(meets, start=1):
            sides = (team, other) if number % 2 else (other, team)
            pairings.append(
                Pairing(
                    game=next(names),
                    home=sides[0],
                    away=sides[1],
                    round=min(number, 99),
                    pool=planned.pool,
                )
            )
            games[other] += 1
        games[team] = len(pairings)
        yield Added(team=planned, games=tuple(pairings))


def _refuse_unknown(what: str, name: str, known: Iterable[str]) -> None:
    names = sorted(known)
    if name not in names:
        where = {"team": "teams.csv", "night": "slots.csv"}.get(what, "slots.csv")
        raise WholeballError(
            f"{name} is no {what} of {where}.",
            fix=did_you_mean(name, names),
            code=f"unknown_{what}",
        )
