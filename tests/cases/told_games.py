"""Games to try the words and the pictures on, of an invented league."""

from collections.abc import Iterable
from typing import Final

from wholeball.game.event import Event, Moment
from wholeball.game.happenings import (
    Cautioned,
    Goal,
    Happening,
    HoldBegan,
    HoldEnded,
    KickTaken,
    PeriodEnded,
    PeriodStarted,
    PlayStopped,
    SentOff,
)
from wholeball.game.play import play
from wholeball.game.rules import GameRules, game_rules
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import Stage
from wholeball.reports.game_told import Reader, ToldGame, standing
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import edition

TO: Final = "\N{EN DASH}"
MERCY = {"ladder": [{"lead": 9, "minutes_left": 8}, {"lead": 6, "minutes_left": 3}]}


def eights(stage: Stage = "league", **tables: dict[str, object]) -> GameRules:
    """Return the rules of two halves of 22 minutes with a mercy rule, and what is changed."""
    values = edition("laws-2025-26").model_dump()
    values["game"] |= {"periods": 2, "minutes": 22, "counts": "down", "ref": "H 5.1"}
    values["mercy"] |= {"ladder": (*MERCY["ladder"],), "ref": "H 10.1"}
    for table, changed in tables.items():
        values[table] |= changed
    return game_rules(Rulebook.model_validate(values), stage)


def event(name: str, period: int, clock: int, what: Happening) -> Event:
    """Return an event of a game; `name` is its identity."""
    return Event(id=name, at=Moment(period, clock), order=(0, 0, name, 0), what=what)


START: Final = event("s", 1, 0, PeriodStarted(kick_off="home"))
"""The entry that a game of home's kick-off begins with."""


def told(
    events: Iterable[Event],
    rules: GameRules | None = None,
    *,
    home: str = "Salt and Static",
    away: str = "Ninth Floor",
    reader: Reader = "everybody",
) -> ToldGame:
    """Return a game as it is told."""
    rules = rules or eights()
    listed = list(events)
    return ToldGame(
        game=GameId("G31"),
        home=home,
        away=away,
        rules=rules,
        state=play(listed, rules),
        events=standing(listed),
        reader=reader,
    )


def crowded() -> list[Event]:
    """Return a half with twelve goals within three minutes, and yellow and red among them."""
    return [
        event("start", 1, 0, PeriodStarted(kick_off="home")),
        *(
            event(
                f"g{one:02}",
                1,
                1110 + 15 * one,
                Goal(side="home" if one % 3 else "away", number=one + 1),
            )
            for one in range(12)
        ),
        event("y", 1, 1200, Cautioned(side="away", number=4)),
        event("r", 1, 1201, SentOff(side="away", number=5)),
        event("hold", 1, 1202, HoldBegan(why="thunder")),
        event("lifted", 1, 1203, HoldEnded(by="supervisor")),
        event("stop", 1, 1204, PlayStopped(why="injury")),
        event("end", 1, 1320, PeriodEnded()),
    ]


def by_mercy() -> list[Event]:
    """Return a game that the mercy rule ends 9-0 with eight minutes left."""
    return [
        event("s1", 1, 0, PeriodStarted(kick_off="home")),
        *(event(f"g{one}", 1, 60 + 100 * one, Goal(side="home", number=7)) for one in range(8)),
        event("e1", 1, 1320, PeriodEnded()),
        event("s2", 2, 0, PeriodStarted(kick_off="away")),
        event("ninth", 2, 840, Goal(side="home", number=11)),
        event("late", 2, 850, Goal(side="away")),
    ]


def with_kicks() -> list[Event]:
    """Return a level play-off game that kicks decide, 3-1 after four each."""
    scored = (True, False, True, True, False, False, True, False)
    kicks = [
        event(
            f"k{one}",
            9,
            one,
            KickTaken(side="home" if one % 2 else "away", number=one, scored=hit),
        )
        for one, hit in enumerate(scored, start=1)
    ]
    return [
        event("s1", 1, 0, PeriodStarted(kick_off="home")),
        event("e1", 1, 1320, PeriodEnded()),
        event("s2", 2, 0, PeriodStarted(kick_off="away")),
        event("e2", 2, 1325, PeriodEnded()),
        *kicks,
    ]
