"""Gathers what a timeline of a game shows, and tells the same in words."""

from collections.abc import Iterator
from dataclasses import dataclass

from wholeball.game.event import BEFORE, KICKS, Moment
from wholeball.game.happenings import HoldBegan, HoldEnded, PlayStopped
from wholeball.game.state import CardLine, GoalLine, Score
from wholeball.kernel.identity import Side
from wholeball.reports.counts_as import counts
from wholeball.reports.figures import score
from wholeball.reports.game_entries import WHY_HELD, WHY_STOPPED, capital
from wholeball.reports.game_statements import has_time_left
from wholeball.reports.game_told import (
    NO_MINUTE,
    ToldGame,
    kicks_taken,
    length,
    minute,
    minutes,
    period_name,
    running,
    score_at,
    side_name,
    untimed_periods,
)
from wholeball.reports.game_words import PHASES, ended_how, on_kicks
from wholeball.reports.timeline_marks import Mark

_SHOWN_ANYWAY = frozenset({"goal", "caution", "sending_off", "hold"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing on the line; it is on a side, or on neither."""

    at: Moment
    minute: str
    side: Side | None
    mark: Mark
    text: str

    @property
    def label(self) -> str:
        """What stands beside the mark: "12' Goal 7, 3-0"."""
        return f"{self.minute}' {self.text}" if self.minute else self.text


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """One period: how long it is to be, how far it got, and what happened in it.

    `loose` is what happened in it at a minute that nobody wrote down.
    """

    name: str
    seconds: int
    reached: int
    items: tuple[Item, ...]
    loose: tuple[Item, ...]
    foot: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Kick:
    """One kick from the mark: a hit or a miss, and whether it counts as things stand."""

    side: Side
    number: int | None
    scored: bool
    counts: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Timeline:
    """All that the picture shows; `end` says how the game stands or ended.

    `loose` is yellow and red of which nobody wrote down when they were shown.
    """

    home: str
    away: str
    stretches: tuple[Stretch, ...]
    loose: tuple[Item, ...]
    kicks: tuple[Kick, ...]
    end: str

    @property
    def has_minutes(self) -> bool:
        """Whether the minute of anything is known, or nothing happened that could have one."""
        timed = any(stretch.items for stretch in self.stretches)
        return timed or not (self.loose or any(stretch.loose for stretch in self.stretches))


def timeline(told: ToldGame) -> Timeline:
    """Return what the picture of a game shows."""
    items = sorted(_items(told), key=lambda item: item.at)
    loose = tuple(_item(told, one, _card(one)) for one in told.state.cards if not one.timed)
    begun = len(told.state.by_period)
    goals = {goal.at.period for goal in told.state.goals}
    shown = sorted({item.at.period for item in items} | goals | set(range(1, begun + 1)))
    return Timeline(
        home=told.home,
        away=told.away,
        stretches=tuple(_stretch(told, period, items) for period in shown if period != KICKS),
        loose=loose,
        kicks=tuple(
            Kick(side=what.side, number=what.number, scored=what.scored, counts=counts)
            for _, what, counts in kicks_taken(told)
        ),
        end=_end(told),
    )


def described(told: Timeline) -> str:
    """Return the picture in words: everything that it shows, in its order."""
    return " ".join(_described(told))


def _described(told: Timeline) -> Iterator[str]:
    for stretch in told.stretches:
        has_any = stretch.items or stretch.loose
        yield f"{stretch.name}:" if has_any else f"{stretch.name}: nothing to show."
        for item in stretch.items:
            start = f"minute {item.minute}" if item.minute else "before kick-off"
            yield f"{start}{_whose(told, item)}: {item.text};"
        for item in stretch.loose:
            yield f"{NO_MINUTE}{_whose(told, item)}: {item.text};"
        yield f"{stretch.foot}."
    if told.loose:
        yield f"Yellow and red, {NO_MINUTE}:"
        yield "; ".join(f"{_name(told, one.side)}, {one.text}" for one in told.loose) + "."
    sides: tuple[Side, Side] = ("home", "away")
    for side in sides if told.kicks else ():
        kicks = ", ".join(kick_words(kick) for kick in told.kicks if kick.side == side)
        yield f"Kicks from the mark, {_name(told, side)}: {kicks or 'none'}."
    yield f"{told.end}."


def _whose(told: Timeline, item: Item) -> str:
    return "" if item.side is None else f", {_name(told, item.side)}"


def kick_words(kick: Kick) -> str:
    """Return one kick in words: "7 scores"."""
    who = "no number" if kick.number is None else f"{kick.number}"
    how = "scores" if kick.scored else "does not score"
    return f"{who} {how}" if kick.counts else f"{who} {how}, not counted"


def _items(told: ToldGame) -> Iterator[Item]:
    """Yield what has a minute, or is before the game."""
    after = running(told.state.goals)
    goals = (goal for goal in told.state.goals if goal.timed)
    yield from (_item(told, goal, _goal(goal, after.get(goal.event))) for goal in goals)
    yield from (_item(told, card, _card(card)) for card in told.state.cards if card.timed)
    for event in told.events:
        match event.what:
            case HoldBegan(why=why):
                yield _beside(told, event.at, "hold", f"Hold: {WHY_HELD[why]}")
            case HoldEnded():
                yield _beside(told, event.at, "hold", "Hold lifted")
            case PlayStopped(why=stopped) if stopped not in _SHOWN_ANYWAY:
                yield _beside(told, event.at, "stop", f"Stop: {WHY_STOPPED[stopped]}")
            case _:
                pass


def _item(told: ToldGame, line: GoalLine | CardLine, text: str) -> Item:
    shown = minute(told, line.at) if line.timed else ""
    return Item(at=line.at, minute=shown, side=line.side, mark=_mark(line), text=text)


def _beside(told: ToldGame, at: Moment, mark: Mark, text: str) -> Item:
    return Item(at=at, minute=minute(told, at), side=None, mark=mark, text=text)


def _mark(line: GoalLine | CardLine) -> Mark:
    if isinstance(line, CardLine):
        return line.colour
    if not line.counts:
        return "no_goal"
    return "goal" if line.timed else "loose_goal"


def _goal(goal: GoalLine, after: Score | None) -> str:
    kind = "Own goal" if goal.own else "Penalty" if goal.penalty else "Goal"
    who = kind if goal.number is None else f"{kind} {goal.number}"
    if not goal.counts:
        return f"{who} not counted"
    return who if after is None else f"{who}, {score(*after)}"


def _card(card: CardLine) -> str:
    colour = capital(card.colour)
    if card.to == "team_official":
        return f"{colour}, team official"
    return colour if card.number is None else f"{colour} {card.number}"


def _stretch(told: ToldGame, period: int, items: list[Item]) -> Stretch:
    inside = tuple(item for item in items if item.at.period == period)
    goals = (one for one in told.state.goals if one.at.period == period and not one.timed)
    loose = tuple(_item(told, one, _goal(one, None)) for one in goals)
    moments = (
        *(event.at for event in told.events),
        *(one.at for one in told.state.statements),
        *(item.at for item in inside),
        told.state.now,
    )
    reached = max((at.clock for at in moments if at.period == period), default=0)
    name = capital(period_name(told.rules, period))
    if period == BEFORE:
        return Stretch(
            name=name, seconds=0, reached=0, items=inside, loose=loose, foot="Kick-off"
        )
    stands = score_at(told, Moment(period, max(reached, length(told, period))))
    return Stretch(
        name=name,
        seconds=length(told, period),
        reached=reached,
        items=inside,
        loose=loose,
        foot=f"{_played(told, period, reached)} played, {score(*stands)}",
    )


def _played(told: ToldGame, period: int, reached: int) -> str:
    """Return how much of a period was played; about, where the mercy rule ended it by then.

    Where no goal of it has a minute, all that is known is about when the rule was true.
    """
    ending = told.state.ending
    is_so = ending is not None and ending.how == "mercy" and ending.at.period == period
    if ending is None or not is_so or period not in untimed_periods(told):
        return minutes(reached)
    return f"about {minutes(ending.at.clock)}"


def _end(told: ToldGame) -> str:
    ending, settled = told.state.ending, told.settled
    if settled is not None or not told.has_entries:
        return _end_elsewhere(told)
    if ending is None:
        return PHASES[told.state.phase].removesuffix(".")
    result = told.state.result
    counted = "" if result is None else f": {score(*result)}"
    how = ended_how(told, ending).format(by=side_name(told, ending.by))
    if has_time_left(told):
        how = "It ended before time was up"
    return f"{how}{counted}{on_kicks(told)}"


def _end_elsewhere(told: ToldGame) -> str:
    """Return what a game counts as where its own entries do not say it."""
    settled, result = told.settled, counts(told).result
    if settled is None:
        return "Nothing is recorded yet"
    by = "" if settled.ruling is None else f" by ruling {settled.ruling.number}"
    return f"Counts {'for nothing' if result is None else score(*result)}{by}"


def _name(told: Timeline, side: Side | None) -> str:
    return told.home if side == "home" else told.away
