"""Takes the results of a season's games from their logs and from the rulings about them."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import PurePosixPath
from typing import NamedTuple, TypeAlias

from wholeball.files.editions import Books, PlayedBy
from wholeball.files.game_log import FOLDER, GameLog, log_name
from wholeball.files.log_doubts import SAYS, chain_doubts, log_doubts
from wholeball.files.logs import Logs
from wholeball.game.codec import events
from wholeball.game.corrections import corrected, distinct
from wholeball.game.event import Event
from wholeball.game.happenings import Forfeited
from wholeball.game.late_case import case_words
from wholeball.game.official import Late, Official, certified_events, official
from wholeball.game.play import play
from wholeball.game.rating_reasons import with_reasons
from wholeball.game.state import GameState
from wholeball.kernel.faults import MOST_SHOWN, Fault, Level, Place
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Fixture, Stage
from wholeball.league.player import Rosters
from wholeball.league.ways import Way
from wholeball.rulebook.sentence import counted, listed
from wholeball.season.appearances import GameSheet, sheet_of
from wholeball.season.from_games import result_of
from wholeball.season.result import Result
from wholeball.season.ruling import Ruling

InTurn: TypeAlias = Callable[[Sequence[Result]], Iterable[Fixture]]


class _Told(NamedTuple):
    """What counts of a game, remarks on it, and why a side forfeited, where one did."""

    state: GameState
    remarks: tuple[Fault, ...] = ()
    forfeited: str | None = None
    is_certified: bool = False
    events: tuple[Event, ...] = ()


class _Counted(NamedTuple):
    """What a game comes to, remarks on it, and why a side forfeited, where one did."""

    sheet: GameSheet
    remarks: tuple[Fault, ...]
    forfeited: str | None


class _Asked(NamedTuple):
    """All that a game is counted by, but for its log."""

    fixture: Fixture
    by: PlayedBy
    ruling: Ruling | None
    way: Way
    rosters: Rosters


@dataclass(slots=True, kw_only=True)
class FromGames:
    """What games and rulings come to, in the order of the timetable, and remarks on them.

    `damaged` are the games with a result in whose log an entry is missing or changed;
    `given_up` says why a side forfeited, where one did. `sheets` are what each game that has a
    log or a ruling says of people, ended or not.
    """

    results: list[Result] = field(default_factory=list)
    deciders: list[Result] = field(default_factory=list)
    play_offs: list[Result] = field(default_factory=list)
    days: dict[GameId, date] = field(default_factory=dict)
    damaged: set[GameId] = field(default_factory=set)
    given_up: dict[GameId, str] = field(default_factory=dict)
    remarks: list[Fault] = field(default_factory=list)
    sheets: list[GameSheet] = field(default_factory=list)

    def of_stage(self, stage: Stage) -> list[Result]:
        """Return the results of the games of a stage."""
        return {"league": self.results, "decider": self.deciders, "play_off": self.play_offs}[
            stage
        ]


def results_of_games(
    logs: Logs,
    in_turn: InTurn,
    books: Books,
    rulings: Mapping[GameId, Ruling],
    *,
    way: Way,
    rosters: Rosters,
) -> FromGames:
    """Return the results of the games that have a log or a ruling.

    A game is counted by the edition of its first entry, where that is kept.
    `in_turn` yields the games; the results of the bracket that it is given grow meanwhile, so
    that it can yield the games whose sides they make known. `way` tells how people do
    what remarks advise.
    """
    found = FromGames()
    for fixture in in_turn(found.play_offs):
        log, ruling = logs.by_game.get(fixture.game), rulings.get(fixture.game)
        if log is None and ruling is None:
            continue
        by = books.of(log, fixture.stage)
        asked = _Asked(fixture, by, ruling, way, rosters)
        counted = _counted(log, asked)
        _take(found, counted)
    found.remarks = list(_gathered(found.remarks, way))
    return found


def _take(found: FromGames, counted: _Counted) -> None:
    """Add what a game comes to to what the games before it came to."""
    fixture, result = counted.sheet.fixture, counted.sheet.result
    if counted.forfeited is not None:
        found.given_up[fixture.game] = counted.forfeited
    found.remarks += counted.remarks
    found.sheets.append(counted.sheet)
    if result is not None:
        found.days[result.game] = fixture.day
        found.damaged |= {result.game for one in counted.remarks if one.code in SAYS}
        found.of_stage(fixture.stage).append(result)


def _counted(log: GameLog | None, asked: _Asked) -> _Counted:
    """Return what a game comes to; of a log that was counted so before, what it came to then."""
    if log is None:
        return _sheet(_Told(play((), asked.by.rules)), asked)
    return log.made.part("counted", asked, lambda: _sheet(_told(log, asked), asked))


def _sheet(told: _Told, asked: _Asked) -> _Counted:
    fixture, state = asked.fixture, told.state
    sheet = sheet_of(fixture, state, None, asked.rosters, is_certified=told.is_certified)
    ratings = with_reasons(sheet.ratings, told.events)
    ruled = [] if asked.ruling is None else [asked.ruling]
    result = result_of(fixture, state, ruled, persons=sheet.shown_to)
    return _Counted(
        replace(sheet, result=result, ratings=ratings), told.remarks, told.forfeited
    )


def _told(log: GameLog, asked: _Asked) -> _Told:
    """Return the state that counts: the certified one, or else what all that is recorded says."""
    fixture, (rules, digest), ruling, way, _ = asked
    file = log_name(fixture.game)
    remarks = [*log_doubts(log, digest, file)]
    certified = official(log.report.standing, rules)
    if certified is None:
        counted_events = events(log.report.standing)
        state = play(counted_events, rules)
    else:
        counted_events = certified_events(certified)
        state = certified.state
        remarks += chain_doubts(certified.findings, file)
        if certified.late is not None:
            remarks.append(_late(certified, certified.late, fixture, way))
    if ruling is None or (ruling.ruled == "stands" and not _waits(state)):
        rule = f"rule on it: {way('rule', game=fixture.game)}"
        remarks += _unsettled(state, file, rule, is_certified=certified is not None)
    forfeited = _forfeited(counted_events, state)
    return _Told(state, tuple(remarks), forfeited, certified is not None, tuple(counted_events))


def _forfeited(found: Iterable[Event], state: GameState) -> str | None:
    """Return why a side forfeited, where the game ended so."""
    if state.ending is None or state.ending.how not in ("forfeit", "double_forfeit"):
        return None
    stand = corrected(distinct(found)[0]).events
    reasons = [one.what.why for one in stand if isinstance(one.what, Forfeited)]
    return reasons[-1] if reasons else None


def _late(result: Official, late: Late, fixture: Fixture, way: Way) -> Fault:
    return _remark(
        "late",
        log_name(fixture.game),
        f"{case_words(late, result.state)}; the official result is unchanged.",
        f"If they should count: {way('reopen', game=fixture.game)}",
        level="doubt" if late.would_change else "note",
    )


def _unsettled(
    state: GameState, file: str, rule: str, *, is_certified: bool
) -> Iterator[Fault]:
    """Note what a game still wants before its result is official; `rule` tells how to rule."""
    if state.phase == "broken_off":
        says = "the game was broken off, and has no result yet."
        cure = f"Enter what is played of it later, or {rule}"
        yield _remark("not_ended", file, says, cure)
    elif state.ending is None:
        says = "the game has not ended by what counts of its log, and has no result yet."
        cure = "Nothing to do while it goes on; else enter the rest from the scorecard."
        yield _remark("not_ended", file, says, cure)
    elif _waits(state):
        says = "the game waits for the coordinator, and has no result yet."
        yield _remark("to_coordinator", file, says, f"{rule[0].upper()}{rule[1:]}")
    elif not is_certified:
        asked = len(state.open_questions)
        still = f"; {counted(asked, 'question')} about it still open" if asked else ""
        says = f"the result counts, and is not certified yet{still}."
        yield _remark("not_certified", file, says, "")


def _waits(state: GameState) -> bool:
    """Tell whether a game was broken off and a person has to say what it counts as."""
    return state.ending is not None and state.ending.how == "to_coordinator"


def _gathered(remarks: list[Fault], way: Way) -> Iterator[Fault]:
    """Yield remarks with the games that are not certified in one of them, the last."""
    waiting = [one for one in remarks if one.code == "not_certified"]
    yield from (one for one in remarks if one.code != "not_certified")
    names = [PurePosixPath(one.place.file).stem for one in waiting]
    if len(waiting) == 1:
        cure = f"Look at it, then certify it: {way('certify', game=names[0])}"
        yield replace(waiting[0], cure=cure)
    elif waiting:
        some = tuple(names[:MOST_SHOWN])
        rest = len(names) - len(some)
        more = (*some, f"{rest} more") if rest else some
        says = f"the results of {len(names)} games count, and are not certified yet: "
        asked = sum("still open" in one.says for one in waiting)
        still = f"; questions about {asked} of them are still open" if asked else ""
        yield _remark(
            "not_certified",
            f"{FOLDER}/",
            f"{says}{listed(more)}{still}.",
            f"Look at each, then certify it: {way('certify_one')}",
        )


def _remark(code: str, file: str, says: str, cure: str, *, level: Level = "note") -> Fault:
    return Fault(code=code, place=Place(file=file), says=says, cure=cure, level=level)
