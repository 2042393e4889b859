"""Measures drawing a scene as SVG against formatting the same bytes.

The reference writes the very text of the picture again: every number in it is formatted anew
and joined with the text between. It lays nothing out.
"""

import re
from statistics import median

from benchmarks.in_turn import Measured, in_turn
from wholeball.kernel.units import Tenths
from wholeball.reports.field_frame import px
from wholeball.reports.field_of_play import field_plan
from wholeball.reports.scene_svg import scene_svg
from wholeball.rulebook.editions import edition
from wholeball.rulings.bind import bind
from wholeball.rulings.ruling import Ruling, Situation
from wholeball.rulings.spaces import GAME
from wholeball.training.answered import Answered, answered
from wholeball.training.compose import scene_of
from wholeball.training.scene import Scene
from wholeball.training.thirty import THIRTY

REPEATS = 9
MOST = 10.0
BALL = Tenths(1_114)
_NUMBER = re.compile(r"(-?\d+(?:\.\d+)?)")


def measure() -> list[Measured]:
    """Return the ratio, medians of 9 in turn, over the thirty situations of the project."""
    scenes = _scenes()
    pictures = [scene_svg(*scene, "m") for scene in scenes]
    parts = [_parts(picture) for picture in pictures]
    formatted, drawn = in_turn(
        lambda: [_formatted(one) for one in parts],
        lambda: [scene_svg(*scene, "m") for scene in scenes],
        times=REPEATS,
    )
    told = f"scene as SVG, {len(scenes)} of {sum(map(len, pictures)):,} letters"
    return [(told, "formatting the same bytes", median(drawn) / median(formatted), MOST)]


def _scenes() -> list[tuple[Scene, Situation, Ruling]]:
    book = edition("laws-2025-26")
    rules, plan = bind(GAME, book), field_plan(book)
    found = [answered(told.seen, rules) for told in THIRTY]
    ruled = [(one.situation, one.ruling) for one in found if isinstance(one, Answered)]
    return [(scene_of(*one, plan, ball=BALL), *one) for one in ruled]


def _parts(picture: str) -> list[str | float]:
    """Return a picture as text and numbers in turn."""
    split = _NUMBER.split(picture)
    return [float(one) if index % 2 else one for index, one in enumerate(split)]


def _formatted(parts: list[str | float]) -> str:
    return "".join(one if isinstance(one, str) else px(one) for one in parts)
