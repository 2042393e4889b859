"""Repairs the timetable of a season folder: as few games as can be move, and not far."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime
from zoneinfo import ZoneInfo

from wholeball.files.closures_write import Lost
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.problem import problem_of
from wholeball.kernel.faults import Fault, InputFaults, WholeballError
from wholeball.kernel.identity import SiteId, TeamId
from wholeball.kernel.nearest import did_you_mean
from wholeball.league.record import LeagueRecord
from wholeball.planning.answer import Impossible
from wholeball.planning.problem import TimetableProblem
from wholeball.planning.turns import in_rounds, kept
from wholeball.reports.timetable_words import infeasible
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.changes import (
    Change,
    LostField,
    LostNight,
    LostSite,
    Withdrawn,
)
from wholeball.solvers.timetable.repair import Repaired, repair
from wholeball.usecases.lost_places import lost_places
from wholeball.usecases.newcomers import newcomers
from wholeball.usecases.plan_timetable import Watch, write_plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Happened:
    """What has happened to a season; a place is a night, with a site or a field beside it.

    Of `lost_sites` nothing can be used from now on.
    Where something was `edited`, rules, slots, closures or absences are others than they were when
    the timetable was made.
    """

    lost_nights: tuple[tuple[date, str | None], ...] = ()
    lost_sites: tuple[str, ...] = ()
    lost_fields: tuple[tuple[str, date | None], ...] = ()
    withdrawn: tuple[str, ...] = ()
    added: tuple[str, ...] = ()
    edited: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class RepairedSeason:
    """A repaired timetable, what is doubtful about the folder, and the files written.

    `lost` is what closures.csv did not say yet of the places that are lost.
    """

    read: SeasonFolder
    found: Repaired
    remarks: tuple[Fault, ...]
    lost: tuple[Lost, ...] = ()
    written: tuple[str, ...] = ()


def repair_timetable(
    record: LeagueRecord,
    happened: Happened,
    budget: Budget,
    *,
    now: datetime,
    writes: bool,
    watch: Watch | None = None,
) -> RepairedSeason:
    """Mend a season's timetable; what has begun by now stays, nights kept for rain are used.

    Games that do not move keep their round. Places that are lost are written into closures.csv
    together with the timetable.

    Raises:
        InputFaults: everything wrong with the folder, or why there is no plan (infeasible).
        WholeballError: nothing happened, a name is not known, there is no timetable, no plan
            was found in the time, the folder changed meanwhile, or the disk refuses.
    """
    read = read_folder(record)
    asked = problem_of(read)
    if not asked.announced:
        raise WholeballError(
            "There is no timetable to repair.",
            fix=f"Plan one: {record.way('plan')}",
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
    lost = lost_places(asked, changes, now=local)
    repaired = RepairedSeason(read=read, found=found, remarks=read.remarks, lost=lost)
    if not writes:
        return repaired
    placements = found.plan.placements
    written = write_plan(
        record,
        asked,
        placements,
        in_rounds(found.problem, placements, kept(asked, placements)),
        now=now,
        on=None,
        lost=lost,
    )
    return replace(repaired, written=written)


def _changes(
    read: SeasonFolder, problem: TimetableProblem, happened: Happened
) -> tuple[TimetableProblem, tuple[Change, ...]]:
    """Return what has happened as changes, and the question without the teams that come in."""
    every = (*problem.slots, *(one.slot for one in problem.closed))
    fields = {slot.field for slot in every}
    sites = {slot.site for slot in every if slot.site}
    nights = {slot.night for slot in every}
    teams = {one.team for one in read.season.league.teams}
    changes: list[Change] = []
    for night, site in happened.lost_nights:
        _refuse_unknown("night", f"{night}", map(str, nights))
        if site is None:
            changes.append(LostNight(night=night))
        else:
            _refuse_unknown("site", site, sites)
            changes.append(LostSite(site=SiteId(site), night=night))
    for site in happened.lost_sites:
        _refuse_unknown("site", site, sites)
        changes.append(LostSite(site=SiteId(site)))
    for field, on in happened.lost_fields:
        _refuse_unknown("field", field, fields)
        changes.append(LostField(field=field, night=on))
    for name in happened.withdrawn:
        _refuse_unknown("team", name, teams)
        changes.append(Withdrawn(team=TeamId(name)))
    come = tuple(map(TeamId, happened.added))
    for team in come:
        _refuse_unknown("team", team, teams)
    leave = frozenset(map(TeamId, happened.withdrawn))
    changes += newcomers(read, problem, come, leave=leave)
    if not changes and not happened.edited:
        raise WholeballError(
            "Nothing has happened.",
            fix="Say what: --lost-night, --lost-field, --withdraw, --add or --edited.",
            code="missing",
        )
    rest = tuple(one for one in problem.teams if one.team not in come)
    return replace(problem, teams=rest), tuple(changes)


def _refuse_unknown(what: str, name: str, known: Iterable[str]) -> None:
    names = sorted(known)
    if name not in names:
        where = {"team": "teams.csv", "night": "slots.csv"}.get(what, "slots.csv")
        raise WholeballError(
            f"{name} is no {what} of {where}.",
            fix=did_you_mean(name, names),
            code=f"unknown_{what}",
        )
