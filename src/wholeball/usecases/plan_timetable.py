"""Plans the timetable of a season folder, and writes it where nothing must be broken."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from wholeball.files.closures_write import Lost, with_closures
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.problem import problem_of
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.files.timetable_write import timetable_rows, with_the_old_one
from wholeball.kernel.faults import Fault, InputFaults, WholeballError
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Stage
from wholeball.league.record import LeagueRecord
from wholeball.planning.answer import Impossible, Plan
from wholeball.planning.counting import quick_reasons
from wholeball.planning.problem import Pairing, Placement, TimetableProblem
from wholeball.planning.turns import in_rounds, kept
from wholeball.reports.timetable_words import infeasible, not_proved
from wholeball.solvers.timetable.budget import Budget, OnProgress, Stop
from wholeball.solvers.timetable.explain import explained
from wholeball.solvers.timetable.plan import WHOLE, can_be, plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Watch:
    """What a search tells on its way, and what ends it early."""

    on_progress: OnProgress | None = None
    stop: Stop | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A plan of a season, what is doubtful about it, and the files that were written."""

    read: SeasonFolder
    problem: TimetableProblem
    plan: Plan
    remarks: tuple[Fault, ...]
    written: tuple[str, ...] = ()

    @property
    def changes(self) -> tuple[Placement, ...]:
        """The games that were announced for another start or field."""
        before = {one.game: one for one in self.problem.announced}
        return tuple(one for one in self.plan.placements if before.get(one.game, one) != one)


def plan_timetable(
    record: LeagueRecord,
    budget: Budget,
    *,
    now: datetime,
    writes: bool,
    watch: Watch | None = None,
) -> Planned:
    """Plan a season's timetable; what has been played stays where it was.

    Its games are those that planning.toml asks for; once one has been played, timetable.csv must
    have the same. Once the season has begun, all else begins later than now. Rounds are numbered by the
    calendar; once games have been played, those that do not move keep theirs. The timetable that is replaced
    is kept in timetables/.

    Raises:
        InputFaults: everything wrong with the folder, or why there is no plan (infeasible).
        WholeballError: there is nothing to plan by, planning.toml asks for other games than have
            been played of, no plan was found in the time, the folder changed meanwhile, or the
            disk refuses.
    """
    read = read_folder(record)
    on = from_now(read, now)
    problem = problem_of(read, on=on, as_planned=True)
    found = _planned(problem, budget, watch or Watch())
    planned = Planned(
        read=read,
        problem=problem,
        plan=found,
        remarks=(*read.remarks, *not_proved(found)),
    )
    if not writes:
        return planned
    stay = kept(problem, found.placements) if problem.played else ()
    games = in_rounds(problem, found.placements, stay)
    written = write_plan(
        record, problem, found.placements, games, now=now, on=on, as_planned=True
    )
    return Planned(
        read=read, problem=problem, plan=found, remarks=planned.remarks, written=written
    )


def zone_of(record: LeagueRecord) -> ZoneInfo:
    """Return the time zone of a season.

    Raises:
        InputFaults: everything that is wrong with the folder.
    """
    return ZoneInfo(read_folder(record).season.league.timezone)


def from_now(read: SeasonFolder, now: datetime) -> datetime | None:
    """Return the local time on a day of the season; one to come or over is planned whole."""
    league = read.season.league
    local = now.astimezone(ZoneInfo(league.timezone)).replace(tzinfo=None)
    return local if league.first_day <= local.date() <= league.last_day else None


def _planned(problem: TimetableProblem, budget: Budget, watch: Watch) -> Plan:
    if quick_reasons(problem):
        raise InputFaults(infeasible(why_not(problem)))
    found = plan(problem, budget, on_progress=watch.on_progress, stop=watch.stop)
    if isinstance(found, Impossible):
        raise InputFaults(infeasible(found))
    return found


def why_not(problem: TimetableProblem) -> Impossible:
    """Return why there is no plan; where the season is small enough, also what would cure it."""
    return explained(problem, can_be if len(problem.pairings) <= WHOLE else None)


def write_plan(  # noqa: PLR0913 - each comes from somewhere else
    record: LeagueRecord,
    asked: TimetableProblem,
    placements: Iterable[Placement],
    games: Mapping[GameId, Pairing],
    *,
    now: datetime,
    on: datetime | None,
    as_planned: bool = False,
    lost: Sequence[Lost] = (),
) -> tuple[str, ...]:
    """Write a plan as the folder's timetable, and keep the one that it replaces.

    `asked` is the question that the folder asked when the search began, as of the local time `on`
    and with the games that planning.toml asks for where `as_planned`; `lost` is what comes to closures.csv with the plan.

    Raises:
        InputFaults: the folder with it would not be read, and nothing was written.
        WholeballError: the folder asks another question by now, or the disk refuses.
    """
    with record.held():
        read = read_folder(record)
        if problem_of(read, on=on, as_planned=as_planned) != asked:
            raise WholeballError(
                f"{record.place} was changed while the timetable was planned.",
                fix="Nothing was written. Plan again.",
                code="conflict",
            )
        data = timetable_rows(placements, games, _stages(read))
        closures = with_closures(record, lost)
        read_folder(record, instead={TIMETABLE_FILE: data, **closures})
        local = now.astimezone(ZoneInfo(read.season.league.timezone))
        contents = {**with_the_old_one(record, data, at=local), **closures}
        record.write(contents)
    return tuple(record.called(name) for name in contents)


def _stages(read: SeasonFolder) -> Mapping[GameId, Stage]:
    return {one.game: one.stage for one in read.timetable}
