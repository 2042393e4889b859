"""Gathers what a timeline of a game shows, and tells the same in words."""

from collections.abc import Iterator
from dataclasses import dataclass

from wholeball.game.event import BEFORE, KICKS, Moment
from wholeball.game.happenings import HoldBegan, HoldEnded, PlayStopped
from wholeball.game.state import CardLine, GoalLine, Score
from wholeball.kernel.identity import Side
from wholeball.reports.figures import score
from wholeball.reports.game_entries import WHY_HELD, WHY_STOPPED, capital
from wholeball.reports.game_told import (
    ToldGame,
    kicks_taken,
    length,
    minute,
    minutes,
    period_name,
    running,
    score_at,
    side_name,
)
from wholeball.reports.game_words import ENDINGS, PHASES, on_kicks
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
    """One period: how long it is to be, how far it got, and what happened in it."""

    name: str
    seconds: int
    reached: int
    items: tuple[Item, ...]
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
    """All that the picture shows; `end` says how the game stands or ended."""

    home: str
    away: str
    stretches: tuple[Stretch, ...]
    kicks: tuple[Kick, ...]
    end: str


def timeline(told: ToldGame) -> Timeline:
    """Return what the picture of a game shows."""
    items = sorted(_items(told), key=lambda item: item.at)
    begun = len(told.state.by_period)
    shown = sorted({item.at.period for item in items} | set(range(1, begun + 1)))
    return Timeline(
        home=told.home,
        away=told.away,
        stretches=tuple(_stretch(told, period, items) for period in shown if period != KICKS),
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
        yield f"{stretch.name}:" if stretch.items else f"{stretch.name}: nothing to show."
        for item in stretch.items:
            who = "" if item.side is None else f", {_name(told, item.side)}"
            start = f"minute {item.minute}" if item.minute else "before kick-off"
            yield f"{start}{who}: {item.text};"
        yield f"{stretch.foot}."
    sides: tuple[Side, Side] = ("home", "away")
    for side in sides if told.kicks else ():
        kicks = ", ".join(kick_words(kick) for kick in told.kicks if kick.side == side)
        yield f"Kicks from the mark, {_name(told, side)}: {kicks or 'none'}."
    yield f"{told.end}."


def kick_words(kick: Kick) -> str:
    """Return one kick in words: "7 scores"."""
    who = "no number" if kick.number is None else f"{kick.number}"
    how = "scores" if kick.scored else "does not score"
    return f"{who} {how}" if kick.counts else f"{who} {how}, not counted"


def _items(told: ToldGame) -> Iterator[Item]:
    after = running(told.state.goals)
    for goal in told.state.goals:
        yield _item(told, goal.at, goal.side, *_goal(goal, after.get(goal.event)))
    for card in told.state.cards:
        yield _item(told, card.at, card.side, card.colour, _card(card))
    for event in told.events:
        match event.what:
            case HoldBegan(why=why):
                yield _item(told, event.at, None, "hold", f"Hold: {WHY_HELD[why]}")
            case HoldEnded():
                yield _item(told, event.at, None, "hold", "Hold lifted")
            case PlayStopped(why=stopped) if stopped not in _SHOWN_ANYWAY:
                yield _item(told, event.at, None, "stop", f"Stop: {WHY_STOPPED[stopped]}")
            case _:
                pass


def _item(told: ToldGame, at: Moment, side: Side | None, mark: Mark, text: str) -> Item:
    return Item(at=at, minute=minute(told, at), side=side, mark=mark, text=text)


def _goal(goal: GoalLine, after: Score | None) -> tuple[Mark, str]:
    kind = "Own goal" if goal.own else "Penalty" if goal.penalty else "Goal"
    who = kind if goal.number is None else f"{kind} {goal.number}"
    if after is None:
        return "no_goal", f"{who} not counted"
    return "goal", f"{who}, {score(*after)}"


def _card(card: CardLine) -> str:
    colour = capital(card.colour)
    if card.to == "team_official":
        return f"{colour}, team official"
    return colour if card.number is None else f"{colour} {card.number}"


def _stretch(told: ToldGame, period: int, items: list[Item]) -> Stretch:
    inside = tuple(item for item in items if item.at.period == period)
    moments = (
        *(event.at for event in told.events),
        *(one.at for one in told.state.statements),
        *(item.at for item in inside),
        told.state.now,
    )
    reached = max((at.clock for at in moments if at.period == period), default=0)
    name = capital(period_name(told.rules, period))
    if period == BEFORE:
        return Stretch(name=name, seconds=0, reached=0, items=inside, foot="Kick-off")
    stands = score_at(told, Moment(period, max(reached, length(told, period))))
    return Stretch(
        name=name,
        seconds=length(told, period),
        reached=reached,
        items=inside,
        foot=f"{minutes(reached)} played, {score(*stands)}",
    )


def _end(told: ToldGame) -> str:
    ending = told.state.ending
    if ending is None:
        return PHASES[told.state.phase].removesuffix(".")
    result = told.state.result
    counts = "" if result is None else f": {score(*result)}"
    how = ENDINGS[ending.how].format(by=side_name(told, ending.by))
    return f"{how}{counts}{on_kicks(told)}"


def _name(told: Timeline, side: Side) -> str:
    return told.home if side == "home" else told.away
