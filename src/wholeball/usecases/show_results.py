"""Shows the results of a season, night by night, and what does not stand as it was played."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, time
from pathlib import Path

from wholeball.files.exports import Format, exported
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.write import write_files
from wholeball.kernel.faults import Fault
from wholeball.kernel.identity import GameId
from wholeball.kernel.plain_table import PlainTable
from wholeball.league.fixture import Stage
from wholeball.league.record import LeagueRecord
from wholeball.reports.figures import score
from wholeball.reports.not_as_played import Change, as_awarded, changes, notes_of
from wholeball.season.result import Result
from wholeball.season.season import Season, regulation
from wholeball.season.upheld import Upheld, upheld


@dataclass(frozen=True, slots=True, kw_only=True)
class ResultLine:
    """One game as it counts; what nobody wrote down is None.

    `goals` are home and away as they count, None where the game counts for nothing.
    """

    result: Result
    stage: Stage
    round: int
    day: date | None
    start: time | None
    field: str | None
    goals: tuple[int, int] | None

    @property
    def score(self) -> str:
        """The score in words, with kicks where they decided."""
        if self.goals is None:
            return "annulled" if self.result.how == "annulled" else "counts for nothing"
        kicks = self.result.kicks
        after = "" if kicks is None else f" ({score(*kicks)} on kicks)"
        return f"{score(*self.goals)}{after}"


@dataclass(frozen=True, slots=True, kw_only=True)
class ResultsShown:
    """The results in the order in which they were played, and remarks on the folder.

    `changed` says what does not stand as played; `open_games` are those without a result.
    """

    league: str
    lines: tuple[ResultLine, ...]
    changed: tuple[Change, ...]
    open_games: tuple[GameId, ...]
    remarks: tuple[Fault, ...]


def show_results(record: LeagueRecord, *, night: date | None = None) -> ResultsShown:
    """Return all results of a season, or those of one night.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder.
    """
    return results_of(read_folder(record), night=night)


def results_of(read: SeasonFolder, *, night: date | None = None) -> ResultsShown:
    """Return all results of a season that was read, or those of one night."""
    stand = _standing(read.season)
    lines = sorted(_lines(read, stand), key=_in_order)
    shown = tuple(one for one in lines if night in (None, one.day))
    games = {one.result.game for one in shown}
    with_result = {one.result.game for one in lines}
    return ResultsShown(
        league=read.season.league.name,
        lines=shown,
        changed=tuple(
            one
            for one in _changes(read.season, stand)
            if one.result is not None and one.result.game in games
        ),
        open_games=tuple(
            game
            for game, day in _listed(read)
            if game not in with_result and night in (None, day)
        ),
        remarks=read.remarks,
    )


def write_results(shown: ResultsShown, files: Mapping[Format, Path]) -> tuple[Path, ...]:
    """Write results as tables for a spreadsheet, and return what was written.

    Raises:
        WholeballError: the disk refuses.
    """
    table = results_table(shown)
    for kind, path in files.items():
        write_files(path.parent, {path.name: exported(table, kind)})
    return tuple(files.values())


def results_table(shown: ResultsShown) -> PlainTable:
    """Return results as a table for a spreadsheet."""
    header = (
        "game",
        "stage",
        "round",
        "date",
        "start",
        "field",
        "home",
        "away",
        "home_goals",
        "away_goals",
        "home_kicks",
        "away_kicks",
        "how",
        "by",
        "home_played",
        "away_played",
        "ruling",
    )
    return PlainTable(title="Results", header=header, rows=tuple(map(_row, shown.lines)))


def _row(line: ResultLine) -> tuple[str | int | date | None, ...]:
    result = line.result
    return (
        result.game,
        line.stage,
        line.round,
        line.day,
        None if line.start is None else f"{line.start:%H:%M}",
        line.field,
        result.home,
        result.away,
        *(line.goals or (None, None)),
        *(result.kicks or (None, None)),
        result.how,
        result.by,
        *(result.played_score or (None, None)),
        result.ruling,
    )


def _listed(read: SeasonFolder) -> Iterator[tuple[GameId, date]]:
    for known in read.timetable:
        yield known.game, known.day
    for to_come in read.open_fixtures:
        yield to_come.game, to_come.day


def _standing(season: Season) -> dict[Stage, Upheld]:
    """Return how the results of each stage stand; only the league's take teams out."""
    return {
        "league": upheld(season.results, season.rulebook),
        "decider": Upheld(results=tuple(season.outside.play_offs)),
        "play_off": Upheld(results=season.play_offs),
    }


def _lines(read: SeasonFolder, stand: dict[Stage, Upheld]) -> list[ResultLine]:
    fixtures = {one.game: one for one in read.timetable}
    counting = regulation(read.season.rulebook).counting
    lines = []
    for stage, standing in stand.items():
        for result in standing.results:
            fixture = fixtures.get(result.game)
            lines.append(
                ResultLine(
                    result=result,
                    stage=stage,
                    round=result.round,
                    day=read.season.days.get(result.game),
                    start=None if fixture is None else fixture.start,
                    field=None if fixture is None else fixture.field,
                    goals=as_awarded(result, counting) if counting.counts(result) else None,
                )
            )
    return lines


def _in_order(line: ResultLine) -> tuple[object, ...]:
    """Put games without a day by their round, before those of the round that have one."""
    return (line.round, line.day or date.min, line.start or time.min, line.result.game)


def _changes(season: Season, stand: dict[Stage, Upheld]) -> list[Change]:
    counting, notes = regulation(season.rulebook).counting, notes_of(season)
    rulings = {one.number: one for one in season.rulings}
    return [
        one
        for standing in stand.values()
        for one in changes(standing, (), counting, {}, notes, rulings)
    ]
