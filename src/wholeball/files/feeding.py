"""Finds what is wrong with the sides of play-off games that a seed or another game brings."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date, time
from typing import Final, NamedTuple

from wholeball.files.bracket import Brackets
from wholeball.files.open_sides import open_side
from wholeball.files.row_faults import Known, Once, Wrong, row_fault
from wholeball.files.table import Line
from wholeball.kernel.faults import Fault
from wholeball.kernel.nearest import did_you_mean
from wholeball.kernel.refusals import toml_text
from wholeball.league.fixture import From, OpenSide, Seeded
from wholeball.rulebook.sentence import counted

_STAGES: Final = {"league": "a game of the league", "decider": "a match of level teams"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Feeding:
    """The rows of a timetable, and what their open sides are held to.

    `is_whole` says that every row could be read, so that a game that is missing is unknown.
    `listed` are the games of the bracket that have a result in results.csv; `brackets` are the
    draws, None where none was made or none can be read.
    """

    lines: tuple[Line, ...]
    is_whole: bool
    listed: Collection[str]
    brackets: Brackets | None


class _Open(NamedTuple):
    line: Line
    column: str
    side: OpenSide


def feeding_faults(file: str, feeding: Feeding) -> list[Fault]:
    """Return everything wrong with open sides.

    A game kicks off after each that brings it a side, so no games can wait for one another.
    """
    checks = _Checks(feeding)
    return [
        row_fault(file, one.line, wrong)
        for one in _open_sides(feeding.lines)
        for wrong in checks.wrong(one)
    ]


def _open_sides(lines: tuple[Line, ...]) -> Iterator[_Open]:
    for line in lines:
        for column in ("home", "away"):
            side = open_side(line.need(column, str))
            if side is not None:
                yield _Open(line, column, side)


class _Checks:
    def __init__(self, feeding: Feeding) -> None:
        self._feeding = feeding
        self._by_game = {line.need("game", str): line for line in feeding.lines}
        games = dict.fromkeys((*filter(self._is_play_off, self._by_game), *feeding.listed))
        self._games = Known(games, "Use a play-off game of timetable.csv.")
        self._fed = Once()

    def wrong(self, one: _Open) -> Iterator[Wrong]:
        """Find everything wrong with one open side."""
        line, column, side = one
        stage = _stage(line)
        if stage != "play_off":
            says = f"{side} is a side of a play-off game, and this is {_STAGES[stage]}."
            yield Wrong(column, "contradiction", says, "Write play_off as its stage.")
        first = self._fed.earlier(line, side)
        if first is not None:
            says = f"{side} stands on row {first} too."
            yield Wrong(column, "duplicate", says, "A side plays one game; mend one of them.")
        match side:
            case Seeded():
                yield from self._seed(column, side)
            case From():
                yield from self._from(line, column, side)

    def _seed(self, column: str, side: Seeded) -> Iterator[Wrong]:
        brackets = self._feeding.brackets
        if brackets is not None and side.bracket not in brackets:
            named = toml_text(side.bracket) if side.bracket else "a bracket without a name"
            says = f"{side} is of {named}, which bracket.csv has not drawn."
            cure = did_you_mean(side.bracket, [name for name in brackets if name])
            yield Wrong(column, "unknown_bracket", says, cure)
            return
        seeds = len(brackets[side.bracket]) if brackets is not None else None
        if side.seed < 1 or (seeds is not None and side.seed > seeds):
            has = "" if seeds is None else f"; bracket.csv has {counted(seeds, 'seed')}"
            says = f"there is no {side}{has}."
            yield Wrong(column, "range", says, "Seeds count from 1; mend it, or the draw.")

    def _from(self, line: Line, column: str, side: From) -> Iterator[Wrong]:
        game = line.need("game", str)
        before = self._by_game.get(side.game)
        if side.game == game:
            says = f"game {game} would bring itself a side."
            yield Wrong(column, "contradiction", says, "Name an earlier game.")
        elif before is not None and not self._is_play_off(side.game):
            says = f"game {side.game} is {_STAGES[_stage(before)]}, and brings no side."
            cure = "Name a play-off game, or write play_off as the stage of that one."
            yield Wrong(column, "contradiction", says, cure)
        elif before is not None:
            yield from _too_late(line, column, before)
        elif self._feeding.is_whole and side.game not in self._games:
            says = f"{toml_text(side.game)} is no play-off game of timetable.csv."
            yield Wrong(column, "unknown_game", says, self._games.meant(side.game))

    def _is_play_off(self, game: str) -> bool:
        return _stage(self._by_game[game]) == "play_off"


def _too_late(line: Line, column: str, before: Line) -> Iterator[Wrong]:
    """Find a game that does not kick off before the one that waits for it."""
    one, other = _start(before), _start(line)
    if one >= other:
        says = (
            f"game {before.need('game', str)} on row {before.row} is at {_shown(one)}, and"
            f" brings a side of this game at {_shown(other)}."
        )
        yield Wrong(
            column, "contradiction", says, "Mend the days or starts, or the game named."
        )


def _stage(line: Line) -> str:
    return line.get("stage", str) or "league"


def _start(line: Line) -> tuple[date, time]:
    return line.need("date", date), line.need("start", time)


def _shown(at: tuple[date, time]) -> str:
    return f"{at[0]} {at[1]:%H:%M}"
