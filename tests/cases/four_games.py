"""Has four games of four teams in two weeks, and a plan in which each has its own place."""

from typing import Final

from cases.tiny_season import EARLY, LATE, MIDDLE, at, pairing, question, slots
from wholeball.planning.answer import Report
from wholeball.planning.problem import TimetableProblem
from wholeball.planning.rule import Rule

FOUR: Final = (
    pairing("1", "Ash", "Birch"),
    pairing("2", "Cedar", "Dogwood"),
    pairing("3", "Ash", "Cedar", 2),
    pairing("4", "Birch", "Dogwood", 2),
)
PLACES: Final = slots((0, 1, 2, 7, 8), (EARLY, MIDDLE, LATE))
APART: Final = {
    "1": at(0, EARLY),
    "2": at(0, MIDDLE),
    "3": at(7, EARLY),
    "4": at(7, MIDDLE),
}
PASS: Final = Report(broken=(), lines=())


def asked(*rules: Rule) -> TimetableProblem:
    """Return the question of the four games by some rules."""
    return question(FOUR, PLACES, *rules)
