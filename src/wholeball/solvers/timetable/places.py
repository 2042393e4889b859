"""Lists the places of games: the starts, or the nights, and which slots of each they may use."""

from collections.abc import Mapping

from wholeball.kernel.identity import GameId
from wholeball.solvers.timetable.build import Places
from wholeball.solvers.timetable.question import Question


def starts(question: Question, games: Mapping[GameId, int] | None = None) -> Places:
    """Return the starts of each game; `games` narrows the slots of those it names."""
    free = question.free if games is None else games
    return {
        game: {
            start: here for start, mask in enumerate(question.masks) if (here := mask & slots)
        }
        for game, slots in free.items()
    }


def nights(question: Question) -> Places:
    """Return the nights of each game, each numbered by its first start."""
    masks = night_masks(question)
    return {
        game: {night: here for night, mask in masks.items() if (here := mask & slots)}
        for game, slots in question.free.items()
    }


def night_masks(question: Question) -> Mapping[int, int]:
    """Return the slots of each night, by its first start."""
    return {
        several[0]: sum(question.masks[start] for start in several)
        for several in question.nights.values()
    }
