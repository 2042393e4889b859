"""Folds a game a second time, plainly and slowly, written from conformance/README.md alone."""

from collections.abc import Iterable
from typing import Any, Final

from oracles.naive_counts import SIDES, ahead, are_kicks_over, result
from oracles.naive_game import NaiveGame
from oracles.naive_log import NaiveLog
from wholeball.game.event import KICKS, Event, Moment
from wholeball.rulebook.book import Rulebook

FIRST: Final = Moment(0, 0)
AFTER: Final = {"mercy": "mercy", "golden_goal": "decided"}


def naive_fold(
    events: Iterable[Event], book: Rulebook, stage: str, until: Moment = FIRST
) -> dict[str, Any]:
    """Return what a game comes to, and each question of a goal or kick with its event."""
    game = NaiveFold(book, stage, NaiveLog(events))
    for event in game.log.in_order:
        game.let_time_pass(event.at)
        getattr(game, event.what.type, game.nothing)(event)
    game.let_time_pass(until)
    return game.told()


class NaiveFold(NaiveGame):
    """A game with its goals, its kicks and who was shown yellow and red."""

    def __init__(self, book: Rulebook, stage: str, log: NaiveLog) -> None:
        super().__init__(book, stage, log)
        self.taken: list[tuple[str, bool]] = []
        self.cautions: list[tuple[str, int, bool]] = []
        self.reds: set[tuple[str, int | None]] = set()
        self.injured: set[tuple[str, int | None]] = set()

    def goal(self, event: Any) -> None:
        goes = [
            self.ask(event, code, counts=counts)
            for code, counts in self.doubts(event.at, event.what)
        ]
        goes.append(self.ask_about_person(event))
        is_allowed = event.id not in self.log.disallowed
        after_mercy = self.ending is not None and self.ending[0] == "mercy"
        counts = is_allowed and all(goes)
        self.goals.append(
            (event.at, event.what.side, counts, is_allowed and (all(goes) or after_mercy))
        )
        if not counts or self.ending is not None:
            return
        if self.is_mercy(*event.at):
            self.end("mercy", event.at)
        is_golden = event.at.period > self.regular and self.book.overtime.ends == "golden_goal"
        if is_golden and ahead(self.score()):
            self.end("golden_goal", event.at)

    def doubts(self, at: Moment, what: Any) -> list[tuple[str, bool]]:
        """Return why a goal may not count, each with whether it counts all the same."""
        doubts = []
        if self.ending is not None:
            doubts.append((AFTER.get(self.ending[0], "after_end"), False))
        elif not self.started:
            doubts.append(("before_start", False))
        elif self.phase != "playing" or self.hold:
            doubts.append(("not_in_play", False))
        elif at.period > self.last:
            doubts.append(("not_in_rulebook", False))
        else:
            doubts += [("not_in_play", True)] if self.is_stopped(at) else []
            doubts += [("after_time", False)] if self.is_after_time(at, what) else []
        near = [
            one
            for one, side, counts, _ in self.goals
            if counts and side == what.side and one.period == at.period
        ]
        doubts += (
            [("double_tap", True)] if any(at.clock - one.clock <= 2 for one in near) else []
        )
        return doubts

    def is_stopped(self, at: Moment) -> bool:
        """Tell whether a moment is strictly between a stop and its restart."""
        restarts = [
            one.at
            for one in self.log.in_order
            if one.what.type == "play_restarted" and at <= one.at < Moment(at.period + 1, 0)
        ]
        return self.stop.period == at.period and self.stop < at < min(restarts, default=at)

    def is_after_time(self, at: Moment, what: Any) -> bool:
        rules = self.book.game
        is_past = at.clock > self.length(at.period)
        time_ends = rules.period_end.at == "time" and rules.stoppages.lost_time == "not_added"
        return (
            is_past and time_ends and not (what.penalty and rules.period_end.penalty_completed)
        )

    def kick(self, event: Any) -> None:
        sides = [side for side, _ in self.taken]
        taken = [sides.count(side) for side in SIDES]
        turn = ahead(taken[::-1]) or (sides[0] if sides else event.what.side)
        if self.ending is not None and self.ending[0] == "kicks":
            goes = self.ask(event, "decided", counts=False)
        elif self.phase != "kicks":
            goes = self.ask(event, "not_in_rulebook", counts=False)
        else:
            goes = turn == event.what.side or self.ask(event, "turn", counts=True)
        if self.ask_about_person(event) and goes:
            self.taken.append((event.what.side, event.what.scored and event.what.taken))
            if self.ending is None and are_kicks_over(self.book, *self.kicks()):
                self.end("kicks", event.at)

    def kicks(self) -> tuple[list[int], list[int]]:
        sides = [side for side, _ in self.taken]
        scored = [self.taken.count((side, True)) for side in SIDES]
        return scored, [sides.count(side) for side in SIDES]

    def caution(self, event: Any) -> None:
        counts = self.ask_about_person(event)
        if counts and event.what.number is not None and event.what.to != "team_official":
            is_apart = event.at.period == KICKS and not self.book.kicks.takers.yellow_carried
            self.cautions.append((event.what.side, event.what.number, is_apart))
            if self.cautions.count(self.cautions[-1]) >= self.book.cards.cautions_for_red:
                self.reds.add((event.what.side, event.what.number))

    def sending_off(self, event: Any) -> None:
        if self.ask_about_person(event):
            self.reds.add((event.what.side, event.what.number))

    def head_injury(self, event: Any) -> None:
        self.injured.add((event.what.side, event.what.number))

    def ask_about_person(self, event: Any) -> bool:
        """Ask about a number that should not be there, and say whether its entry counts."""
        what = event.what
        side = SIDES[what.side == "home"] if getattr(what, "own", False) else what.side
        there = [one.number for one in self.log.of("checked_in") if one.side == side]
        doubts = {
            "unknown_player": bool(there) and what.number not in there,
            "already_off": (side, what.number) in self.reds,
            "out_for_the_day": (side, what.number) in self.injured,
        }
        codes = [code for code, is_so in doubts.items() if is_so and what.number is not None]
        goes = [self.ask(event, code, counts=True) for code in codes]
        return all(goes)

    def told(self) -> dict[str, Any]:
        how = self.ending and self.ending[0]
        counted = result(self.book, how, self.loser, self.score())
        scored, taken = self.kicks()
        kicked = ahead(scored) if how == "kicks" else None
        kicks = {"scored": scored, "taken": taken, "winner": kicked}
        played = [side for _, side, _, was_played in self.goals if was_played]
        periods = self.started | {at.period for at, _, counts, _ in self.goals if counts}
        ending = self.ending and {"how": how, "at": list(self.ending[1]), "by": self.loser}
        return {
            "score": self.score(),
            "played": [played.count(side) for side in SIDES],
            "by_period": [self.score(period) for period in sorted(periods)],
            "kicks": kicks if self.taken or self.phase == "kicks" else None,
            "ending": ending,
            "result": counted,
            "winner": kicked or ahead(counted or [0, 0]),
            "reds": self.reds,
            "questions": self.questions,
        }
