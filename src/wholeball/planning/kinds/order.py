"""Has the kinds about which game comes after which, and games that are fixed."""

from collections.abc import Iterator
from datetime import datetime
from typing import Final

from pydantic import Field

from wholeball.league.fixture import From, Seeded
from wholeball.planning.days import clock, day
from wholeball.planning.kind import AnyKind, Clock, Found, Kind, Night, Params
from wholeball.planning.placed import Game, Placed
from wholeball.planning.problem import Pairing, Start, TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.rulebook.sentence import counted


class After(Params):
    """How many minutes lie from the start of a game to that of the one its winner plays."""

    minutes: int = Field(ge=1, le=60 * 24 * 30)


class Fixed(Params):
    """A game that is to be at a start, and on a field where one is named."""

    game_name: str = Field(alias="name", min_length=1, max_length=80)
    night: Night
    at: Clock
    field: str = Field(default="", max_length=80)


def feeds(problem: TimetableProblem) -> Iterator[tuple[Pairing, Pairing]]:
    """Yield each pairing with one that needs its outcome: the earlier game first.

    A side that a seed brings needs every game of the pools.
    """
    league = [one for one in problem.pairings if one.pool is not None]
    for later in problem.pairings:
        for side in later.sides:
            if isinstance(side, From):
                yield problem.by_game[side.game], later
        if any(isinstance(side, Seeded) for side in later.sides):
            for earlier in league:
                yield earlier, later


def minutes_between(one: Start, other: Start) -> int:
    """Return the minutes from one start to another by the clock on the wall."""
    first, second = (datetime.combine(start.night, start.at) for start in (one, other))
    return int((second - first).total_seconds()) // 60


def _after(rule: Rule, params: After, placed: Placed) -> Iterator[Found]:
    del rule
    for earlier, later in feeds(placed.problem):
        one, other = placed.by_game.get(earlier.game), placed.by_game.get(later.game)
        if one is None or other is None:
            continue
        between = minutes_between(one.start, other.start)
        if between < params.minutes:
            yield _too_soon(one, other, between, params.minutes)


def _too_soon(one: Game, other: Game, between: int, least: int) -> Found:
    says = (
        f"Game {other.game} starts before game {one.game}, whose outcome it needs."
        if between < 0
        else f"{other.game} starts {counted(between, 'minute')} after {one.game}; {least} at least."
    )
    return Found(about=other.game, games=(one.game, other.game), says=says)


def _fixed(rule: Rule, params: Fixed, placed: Placed) -> Iterator[Found]:
    del rule
    one = next((one for one in placed.games if one.game == params.game_name), None)
    if one is None:
        return
    is_there = one.start == Start(params.night, params.at)
    if not is_there or params.field not in ("", one.field):
        yield Found(
            about=one.game,
            games=(one.game,),
            says=f"Game {one.game} is on {day(one.start.night)} at {clock(one.start.at)}, {one.field}.",
        )


ORDER: Final[tuple[AnyKind, ...]] = (
    Kind(
        name="after",
        params=After,
        strengths=("must",),
        says=lambda rule, params: (  # noqa: ARG005
            f"A game starts {counted(params.minutes, 'minute')} or more after the starts of those "
            "that bring its sides."
        ),
        breaks=_after,
        teams="none",
        stages=False,
    ),
    Kind(
        name="fixed",
        params=Fixed,
        strengths=("must", "wish"),
        says=lambda rule, params: (  # noqa: ARG005
            f"Game {params.game_name} is on {day(params.night)} at {clock(params.at)}"
            + (f", {params.field}." if params.field else ".")
        ),
        breaks=_fixed,
        teams="none",
        stages=False,
    ),
)
