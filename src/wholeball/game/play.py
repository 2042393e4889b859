"""Plays a game through: events in any order, a state with an article for all that follows."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import assert_never

from wholeball.game import (
    beside,
    cards,
    endings,
    goals,
    grace,
    kicks,
    people,
    periods,
)
from wholeball.game import happenings as was
from wholeball.game.clock import advance
from wholeball.game.corrections import answered, corrected, distinct
from wholeball.game.event import Event, Moment
from wholeball.game.ledger import Ledger
from wholeball.game.rules import GameRules
from wholeball.game.sequence import Key, is_played, place
from wholeball.game.state import Both, GameState, KicksState, Phase, Score
from wholeball.kernel.identity import Side

_NOT_AT_THE_END = (
    was.Retracted
    | was.Disallowed
    | was.Amended
    | was.Answered
    | was.Replayed
    | was.PlayRestarted
)
"""What may change what came before it, so that all is played through again."""
_TOLD_LAST = was.Rated | was.IncidentNoted | was.Signed | was.SignRefused | was.Unread
"""What has no place in the game and is told after it: one more event would come before."""


def play(events: Iterable[Event], rules: GameRules) -> GameState:
    """Return what a set of events comes to; their order and repetitions say nothing.

    Reads no clock and nothing of an envelope. O(n log n) in events.
    """
    found, clashes = distinct(events)
    left = corrected(found)
    game = Ledger(rules)
    game.answers = left.answers
    game.disallowed = left.disallowed
    game.voided = left.voided
    played = sorted((event for event in left.events if is_played(event)), key=place)
    game.is_whole = any(_is_whole(event) for event in played)
    for event in played:
        if isinstance(event.what, was.PlayRestarted):
            game.restarts.setdefault(event.at.period, []).append(event.at.clock)
    for event in played:
        _happen(game, event)
    apart = [event for event in left.events if not is_played(event)]
    for event in sorted(apart, key=_apart):
        _happen(game, event)
    clashed = answered(clashes, left.answers)
    game.questions = [*clashed, *left.questions, *game.questions]
    last = place(played[-1]) if played else (-1, 0, 0, "")
    is_plain = not any(isinstance(event.what, _TOLD_LAST) for event in apart)
    return _state(_Going(found, game, last, is_plain))


@dataclass(frozen=True, slots=True)
class _Going:
    """What a state goes on from: its events, its figures, and the last event's place."""

    events: dict[was.EventId, Event]
    game: Ledger
    last: Key
    is_plain: bool

    def at(self, moment: Moment) -> GameState:
        game = self.game.copied()
        advance(game, moment)
        return _state(_Going(self.events, game, self.last, self.is_plain))

    def then(self, event: Event) -> GameState:
        events = [*self.events.values(), event]
        if not self._is_at_the_end(event):
            return play(events, self.game.rules)
        game = self.game.copied()
        _happen(game, event)
        return _state(
            _Going({**self.events, event.id: event}, game, place(event), is_plain=True)
        )

    def _is_at_the_end(self, event: Event) -> bool:
        """Tell whether all that came before stays as it is."""
        if event.id in self.events or isinstance(event.what, _NOT_AT_THE_END):
            return False
        if _is_whole(event):
            return False
        return (
            self.is_plain
            and is_played(event)
            and place(event) > self.last
            and event.at >= self.game.now
            and not self.game.is_waiting_for(event.id)
        )


def _is_whole(event: Event) -> bool:
    """Tell whether an event says that the game was played to its time."""
    return isinstance(event.what, was.PeriodEnded) and event.what.whole


def _happen(game: Ledger, event: Event) -> None:  # noqa: C901, PLR0912, PLR0915 - a branch a kind
    """Let one event happen; what happens most is asked first."""
    what = event.what
    if event.at > game.now and is_played(event):
        advance(game, event.at)
    match what:
        case was.Goal():
            people.dead_ball(game, event.at)
            goals.score(game, event, what)
        case was.Cautioned():
            cards.caution(game, event, what)
        case was.SentOff():
            cards.send_off(game, event, what)
        case was.PlayStopped():
            people.dead_ball(game, event.at)
            periods.stop(game, event)
        case was.PlayRestarted():
            people.restarted(game, event.at)
            periods.restart(game)
        case was.Substituted():
            people.substitute(game, event, what)
        case was.KickTaken():
            kicks.kick(game, event, what)
        case was.PeriodStarted():
            periods.start_period(game, event, what)
        case was.PeriodEnded():
            people.dead_ball(game, event.at)
            periods.end_period(game, event, what)
        case was.TimeUp():
            periods.time_up(game, event, what)
        case was.CheckedIn():
            people.check_in(game, event, what)
        case was.EndsChosen():
            periods.choose_ends(game, event, what)
        case was.ShortAtStart():
            grace.be_short(game, event, what)
        case was.WaitChosen():
            grace.choose(game, event, what)
        case was.GotReady():
            grace.get_ready(game, event, what)
        case was.HoldBegan():
            periods.begin_hold(game, event)
        case was.HoldEnded():
            periods.end_hold(game, event, what)
        case was.Counted():
            people.count(game, event, what)
        case was.CameOff():
            people.come_off(game, event, what)
        case was.CameBack():
            people.come_back(game, event, what)
        case was.Injured():
            people.injure(game, event, what)
        case was.HeadInjurySuspected():
            people.suspect_head_injury(game, event, what)
        case was.GoalkeeperChanged():
            game.sides[what.side].goalkeeper = what.number
        case was.KickersListed():
            kicks.list_kickers(game, what)
        case was.KickersReduced():
            kicks.reduce_kickers(game, what)
        case was.Forfeited():
            endings.forfeit(game, event, what)
        case was.Defaulted():
            endings.default(game, event, what)
        case was.BrokenOff():
            endings.break_off(game, event, what)
        case was.Resumed():
            endings.resume(game, event, what)
        case was.Replayed():
            endings.replay(game, event, what)
        case was.Protested():
            beside.protest(game, event, what)
        case was.IncidentNoted():
            beside.note_incident(game, event, what)
        case was.Rated():
            beside.rate(game, event, what)
        case was.Signed():
            beside.sign(game, event, what)
        case was.SignRefused():
            beside.refuse(game, event, what)
        case was.Unread():
            game.ask("update_needed", event.at, event.id, counts=False)
        case (
            was.Noted()
            | was.Retracted()
            | was.Disallowed()
            | was.Amended()
            | was.Answered()
            | was.Certified()
            | was.Reopened()
        ):
            pass  # corrections were taken into account before; the rest changes nothing here
        case _:
            assert_never(what)


def _apart(event: Event) -> tuple[str, Moment, str]:
    return (event.what.type, event.at, event.id)


def _state(going: _Going) -> GameState:
    game = going.game
    home, away = game.sides["home"], game.sides["away"]
    return GameState(
        phase=_phase(game),
        now=game.now,
        score=game.score,
        played=Score(home.all_goals, away.all_goals),
        by_period=tuple(Score(*game.by_period[period]) for period in sorted(game.by_period)),
        kicks=_kicks(game),
        ending=game.ending,
        result=game.result,
        winner=_winner(game),
        kick_off=game.kick_off,
        on_field=Both(home.on_field, away.on_field),
        goalkeepers=Both(home.goalkeeper, away.goalkeeper),
        checked=(*home.checked, *away.checked),
        goals=tuple(game.goals),
        cards=tuple(game.cards),
        away=tuple(game.away),
        resumptions=tuple(game.resumptions),
        ratings=tuple(game.ratings),
        protests=tuple(game.protests),
        records=tuple(game.records),
        signatures=tuple(game.signatures),
        statements=tuple(game.statements),
        questions=tuple(game.questions),
        going_on=going,
    )


def _phase(game: Ledger) -> Phase:
    """Return the phase; a hold overrides everything but a game broken off or over."""
    is_held = game.is_in_hold and game.phase not in ("broken_off", "over")
    return "hold" if is_held else game.phase


def _kicks(game: Ledger) -> KicksState | None:
    home, away = game.sides["home"], game.sides["away"]
    taken = Score(home.kicks_taken, away.kicks_taken)
    if game.phase != "kicks" and not any(taken):
        return None
    return KicksState(
        first=game.kicks_first,
        scored=Score(home.kicks_scored, away.kicks_scored),
        taken=taken,
        turn=kicks.turn_of(taken, game.kicks_first) if game.phase == "kicks" else None,
        winner=game.kicks_winner,
        decided_by=game.kicks_decided_by,
    )


def _winner(game: Ledger) -> Side | None:
    if game.ending is None or game.result is None:
        return None
    if game.ending.how == "kicks":
        return game.kicks_winner
    home, away = game.result
    if home == away:
        return None
    return "home" if home > away else "away"
