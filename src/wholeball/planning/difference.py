"""Tells two timetables apart: which games move, and what each team is told of it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from wholeball.kernel.identity import GameId, TeamId
from wholeball.planning.days import clock, day
from wholeball.planning.problem import Pairing, Placement

How: TypeAlias = Literal["added", "dropped", "field", "night", "week", "season"]
"""How far a game moves: to another field, within its night, its week, or further; or it is new."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A game that is elsewhere than it was; None where it is new, or no longer played."""

    game: GameId
    was: Placement | None
    now: Placement | None

    @property
    def how(self) -> How:
        """How far it moves; weeks begin on Monday."""
        if self.was is None:
            return "added"
        if self.now is None:
            return "dropped"
        old, new = self.was.start, self.now.start
        if old == new:
            return "field"
        if old.night == new.night:
            return "night"
        is_week = old.night.isocalendar()[:2] == new.night.isocalendar()[:2]
        return "week" if is_week else "season"


def difference(before: Iterable[Placement], after: Iterable[Placement]) -> tuple[Moved, ...]:
    """Return the games that are elsewhere, in the order of the timetable that was."""
    old = {one.game: one for one in sorted(before, key=_by_time)}
    new = {one.game: one for one in sorted(after, key=_by_time)}
    return tuple(
        Moved(game=game, was=old.get(game), now=new.get(game))
        for game in dict.fromkeys((*old, *new))
        if old.get(game) != new.get(game)
    )


def told(
    moved: Iterable[Moved], pairings: Mapping[GameId, Pairing]
) -> Mapping[TeamId, tuple[str, ...]]:
    """Return what each team whose games move is told, a sentence a game."""
    says: dict[TeamId, list[str]] = {}
    for one in moved:
        pairing = pairings[one.game]
        for side, other in zip(pairing.sides, reversed(pairing.sides), strict=True):
            if isinstance(side, str):
                says.setdefault(TeamId(side), []).append(_says(one, f"{other}"))
    return {team: tuple(several) for team, several in says.items()}


def _says(one: Moved, other: str) -> str:
    game = f"Game {one.game} against {other}"
    if one.now is None:
        was = "" if one.was is None else f" It was {_where(one.was)}."
        return f"{game} is not played.{was}"
    if one.was is None:
        return f"{game} is new: {_where(one.now)}."
    if one.how == "field":
        return f"{game} keeps its start and moves from {one.was.field} to {one.now.field}."
    return f"{game} moves from {_where(one.was)} to {_where(one.now)}."


def _where(one: Placement) -> str:
    return f"{day(one.start.night)} at {clock(one.start.at)}, {one.field}"


def _by_time(one: Placement) -> tuple[object, ...]:
    return (one.start, one.field, one.game)
