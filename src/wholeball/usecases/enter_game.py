"""Enters a paper scorecard into a game's log, or takes back what was entered last."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from wholeball.files.editions import book_of
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.game_log import GameLog, HeldLog, held, read_game
from wholeball.files.open_games import refuse_open
from wholeball.files.paper_card import misfit_faults, new_template
from wholeball.files.paper_template import template
from wholeball.files.results import FILE as RESULTS_FILE
from wholeball.files.results import read_results
from wholeball.files.table import MOST_BYTES
from wholeball.game.codec import events
from wholeball.game.envelope import Entry
from wholeball.game.event import Event
from wholeball.game.happenings import Retracted
from wholeball.game.official import certified_events, official
from wholeball.game.paper import PaperCard
from wholeball.game.paper_back import card_back
from wholeball.game.paper_checks import misfits
from wholeball.game.paper_entries import AT_THE_DESK, Told, difference, standing, told
from wholeball.game.play import play
from wholeball.game.rules import GameRules, game_rules
from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError
from wholeball.kernel.identity import GameId, TeamId
from wholeball.kernel.nearest import did_you_mean
from wholeball.league.fixture import Fixture
from wholeball.league.player import Rosters
from wholeball.league.record import LeagueRecord
from wholeball.reports.game_told import Settled, ToldGame
from wholeball.reports.game_told import standing as told_events
from wholeball.season.from_games import result_of
from wholeball.season.ruled import holding
from wholeball.season.ruling import Ruling
from wholeball.usecases.enter_doubts import about, came_late, strangers, two_sources
from wholeball.usecases.enter_steps import Steps, steps_of
from wholeball.usecases.seal_entries import (
    PAPER,
    Author,
    refuse_damage,
    refuse_newer,
    sealed,
)

TYPED: Final = "the scorecard"
"""What a card that was typed in at a terminal is called where it has a fault."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GameToEnter:
    """A game of a season folder: who meets, by which rules, and what is recorded of it."""

    record: LeagueRecord
    game: GameId
    fixture: Fixture
    rules: GameRules
    log: GameLog
    rosters: Rosters
    remarks: tuple[Fault, ...]
    timezone: str
    ruling: Ruling | None = None

    @property
    def home(self) -> TeamId:
        """The home team."""
        return self.fixture.home

    @property
    def away(self) -> TeamId:
        """The away team."""
        return self.fixture.away

    @property
    def events(self) -> tuple[Event, ...]:
        """What stands in the log, without what is of a newer kind."""
        return events(self.log.report.standing)


@dataclass(frozen=True, slots=True, kw_only=True)
class Entered:
    """What was taken back and what is new, and the game before and after it.

    `before` has all that was recorded, `after` what counts; no scorecard stood before the first.
    """

    gone: tuple[Event, ...]
    new: tuple[Event, ...]
    before: ToldGame
    after: ToldGame
    is_first: bool
    remarks: tuple[Fault, ...]
    may_undo: bool
    may_redo: bool


def game_to_enter(record: LeagueRecord, game: GameId) -> GameToEnter:
    """Return a game whose scorecard may be entered.

    Raises:
        InputFaults: as for `game_of_folder`.
        WholeballError: as for `game_of_folder`, or the paper's entries are damaged.
    """
    to = game_of_folder(record, game)
    refuse_damage(to.log, game, PAPER, "the scorecards")
    return to


def game_of_folder(record: LeagueRecord, game: GameId) -> GameToEnter:
    """Return a game that the timetable has.

    Raises:
        InputFaults: everything that is wrong with the folder, or with the game's log.
        WholeballError: there is no such folder or game, its sides are still to be known, or
            results.csv has its result.
    """
    read = read_folder(record)
    fixture = next((one for one in read.timetable if one.game == game), None)
    if fixture is None:
        refuse_open(read.open_fixtures, game)
        raise WholeballError(
            f"There is no game {game} in timetable.csv.",
            fix=did_you_mean(game, [one.game for one in read.timetable])
            if read.timetable
            else "Add a row for it to timetable.csv.",
            code="unknown_game",
        )
    _refuse_listed(record, read, game)
    log = read_game(record, game)
    book = book_of(log, read.season.rulebook, read.editions)
    return GameToEnter(
        record=record,
        game=game,
        fixture=fixture,
        rules=game_rules(book, fixture.stage),
        log=log,
        rosters=read.rosters,
        remarks=about(read.remarks, game),
        timezone=read.season.league.timezone,
        ruling=holding(read.season.rulings).get(game),
    )


def enter_card(
    to: GameToEnter, card: PaperCard, *, by: Author, seen: int | None = None
) -> Entered:
    """Append what a card says anew, and take back what it says no more: all or nothing.

    The log is held and read again first: typing a card takes a while, and others may write.
    `seen` is how many entries the game had when it was looked at; None for any.

    Raises:
        InputFaults: the card cannot be meant so.
        WholeballError: others entered something meanwhile, the name does not do, the log is full, or the disk refuses.
    """
    faults = misfit_faults(misfits(card, to.rules), lambda _: Place(file=TYPED))
    if faults:
        raise InputFaults(faults)
    with held(to.record, to.game) as writes:
        now = _read_again(to, writes, seen)
        changed = difference(standing(now.events), told(card, now.rules))
        return _entered(now, writes, changed.gone, changed.new, by)


def card_so_far(to: GameToEnter) -> PaperCard:
    """Return the scorecard as it was entered; empty where none was."""
    return card_back(standing(to.events), to.rules)


def undo(to: GameToEnter, *, by: Author, seen: int | None = None) -> Entered:
    """Go one entering back: the scorecard stands as it did before it.

    Done again, it goes back one more; not so upon the entries that were `seen` the first time.

    Raises:
        WholeballError: nothing is left to take back, or as for `enter_card`.
    """
    with held(to.record, to.game) as writes:
        now = _read_again(to, writes, seen)
        steps = steps_of(now.log.report.standing)
        if steps.before is None:
            raise _nothing_entered(to, steps)
        return _moved(now, writes, steps.before, by)


def redo(to: GameToEnter, *, by: Author, seen: int | None = None) -> Entered:
    """Bring back what was taken back last.

    Raises:
        WholeballError: nothing was taken back since the last entering, or as for `enter_card`.
    """
    with held(to.record, to.game) as writes:
        now = _read_again(to, writes, seen)
        again = steps_of(now.log.report.standing).after
        if again is None:
            raise WholeballError(
                f"Nothing of game {to.game} has been taken back since it was last entered.",
                fix="There is nothing to bring back.",
                code="nothing_undone",
            )
        return _moved(now, writes, again, by)


def _moved(now: GameToEnter, writes: HeldLog, wanted: Sequence[Told], by: Author) -> Entered:
    """Let the scorecard stand as it stood at another step."""
    changed = difference(standing(now.events), wanted)
    return _entered(now, writes, changed.gone, changed.new, by)


def _nothing_entered(to: GameToEnter, steps: Steps) -> WholeballError:
    if steps.after is None:
        says, fix = f"No scorecard of game {to.game} has been entered.", ""
    else:
        says = f"All that was entered of game {to.game} has been taken back."
        fix = f" To bring it back: {to.record.way('bring_back', game=to.game)}"
    return WholeballError(
        says, fix=f"There is nothing to take back.{fix}", code="nothing_entered"
    )


def write_template(to: GameToEnter) -> str:
    """Write a commented card, as it was entered or to be filled in, and return where.

    Raises:
        WholeballError: there is one already, or the disk refuses.
    """
    name = new_template(to.record, to.game)
    text = template(to.game, home=to.home, away=to.away, rules=to.rules, card=card_so_far(to))
    to.record.write({name: text})
    return to.record.called(name)


def _refuse_listed(record: LeagueRecord, read: SeasonFolder, game: GameId) -> None:
    """Refuse a game whose result somebody wrote into results.csv: it would stand twice."""
    data = record.read(RESULTS_FILE, MOST_BYTES)
    season = read.season
    row = read_results(data, season.league, season.rulebook.ratings)[0].rows.get(game)
    if row is not None:
        raise WholeballError(
            f"{RESULTS_FILE} row {row} has a result of game {game}, and a result stands once.",
            fix="Nothing was written. Take that row out, and enter the scorecard then.",
            code="duplicate",
        )


def _read_again(to: GameToEnter, writes: HeldLog, seen: int | None) -> GameToEnter:
    refuse_newer(writes.log, to.game, seen, done="written")
    refuse_damage(writes.log, to.game, PAPER, "the scorecards")
    return replace(to, log=writes.log)


def _entered(
    to: GameToEnter, writes: HeldLog, gone: tuple[Event, ...], new: Sequence[Told], by: Author
) -> Entered:
    taken_back = [Told(AT_THE_DESK, Retracted(target=one.id)) for one in gone]
    entries = sealed(
        to.log,
        (*taken_back, *new),
        game=to.game,
        writer=PAPER,
        by=by,
        rulebook=to.rules.book.digest,
    )
    if entries:
        writes.append(entries)
    made = events(entries)
    steps = steps_of((*to.log.report.standing, *entries))
    before = told_so_far(replace(to, ruling=None), to.events)
    return Entered(
        gone=gone,
        new=made[len(gone) :],
        before=before,
        after=told_as_counted(to, (*to.log.report.standing, *entries)),
        is_first=not standing(before.events),
        remarks=(
            *to.remarks,
            *two_sources(to.events, to.game, to.record),
            *came_late(to.log.report.standing, to.game, to.rules, to.record),
            *strangers(made, to.rosters, {"home": to.home, "away": to.away}, before=to.events),
        ),
        may_undo=steps.before is not None,
        may_redo=steps.after is not None,
    )


def told_as_counted(to: GameToEnter, entries: Sequence[Entry]) -> ToldGame:
    """Return a game as it counts: as certified, where it is, with what came too late beside it."""
    counted = official(entries, to.rules)
    if counted is None:
        return told_so_far(to, events(entries))
    told_game = told_so_far(to, certified_events(counted))
    return replace(told_game, official=counted)


def told_so_far(to: GameToEnter, found: Iterable[Event]) -> ToldGame:
    """Return a game as those events, and the ruling about it, tell it to officials."""
    every = tuple(found)
    state = play(every, to.rules)
    ruled = None if to.ruling is None else result_of(to.fixture, state, [to.ruling])
    return ToldGame(
        game=to.game,
        home=to.home,
        away=to.away,
        rules=to.rules,
        state=state,
        events=told_events(every),
        reader="officials",
        settled=None if ruled is None else Settled(result=ruled, ruling=to.ruling),
    )
