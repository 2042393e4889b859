"""Looks for contradictions about the field, the ball and the distances at restarts."""

from collections.abc import Iterator
from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.checks.check import (
    Contradiction,
    above,
    both,
    longer,
    measured,
    reads,
    stated,
    value_at,
)

_MARKED: Final = (
    ("kick_off.distance", "field.centre_circle"),
    ("penalty.distance", "field.areas.penalty_arc"),
)


@reads("field", "field.limits")
def _limits(book: Rulebook) -> Iterator[Contradiction]:
    yield from longer(book, "field.limits.length_least", "field.limits.length_most")
    yield from longer(book, "field.limits.width_least", "field.limits.width_most")


@reads("field", "field.limits")
def _field_within_limits(book: Rulebook) -> Iterator[Contradiction]:
    for side in ("length", "width"):
        least, most = f"field.limits.{side}_least", f"field.limits.{side}_most"
        if not any(longer(book, least, most)):
            yield from longer(book, f"field.{side}", most)
            yield from longer(book, least, f"field.{side}")


@reads("field")
def _wide_as_long(book: Rulebook) -> Iterator[Contradiction]:
    if measured(book, book.field.width) >= measured(book, book.field.length):
        yield both(
            book,
            "field.width",
            "field.length",
            cure="The touchline is longer than a goal line.",
        )


@reads("field", "field.goal", "field.areas")
def _areas_on_the_field(book: Rulebook) -> Iterator[Contradiction]:
    sides = 2 * measured(book, book.field.areas.penalty_area)
    across = sides + measured(book, book.field.goal.width)
    if across > measured(book, book.field.width):
        yield both(
            book,
            "field.areas.penalty_area",
            "field.width",
            cure="With the goal and both sides of it, the penalty area is wider than the field.",
        )


@reads("field", "field.areas")
def _areas(book: Rulebook) -> Iterator[Contradiction]:
    yield from longer(book, "field.areas.goal_area", "field.areas.penalty_area")
    yield from longer(book, "field.areas.penalty_mark", "field.areas.penalty_area")


@reads("field")
def _circle_on_the_field(book: Rulebook) -> Iterator[Contradiction]:
    if 2 * measured(book, book.field.centre_circle) > measured(book, book.field.width):
        yield both(
            book,
            "field.centre_circle",
            "field.width",
            cure="The centre circle is wider than the field: give a smaller radius.",
        )


@reads("field", "field.areas", "kick_off", "penalty")
def _marked_otherwise(book: Rulebook) -> Iterator[Contradiction]:
    for key, marking in _MARKED:
        line, distance = (measured(book, value_at(book, one)) for one in (marking, key))
        if line not in (0, distance):
            yield Contradiction(
                code="suspicious",
                keys=(marking, key),
                says=f"{stated(book, marking)}, but {stated(book, key)}: players would keep "
                "another distance than the line shows.",
                cure="Give both the same distance, or confirm = true beside one of them.",
            )


@reads("field", "ball")
def _ball(book: Rulebook) -> Iterator[Contradiction]:
    yield from longer(book, "ball.circumference_least", "ball.circumference_most")
    yield from above(book, "ball.weight_least_grams", "ball.weight_most_grams")


@reads("throw_in.countdown", "goal_kick.countdown")
def _countdown(book: Rulebook) -> Iterator[Contradiction]:
    for path in ("throw_in.countdown", "goal_kick.countdown"):
        if value_at(book, f"{path}.seconds") and value_at(book, f"{path}.then") == "none":
            yield both(
                book,
                f"{path}.then",
                f"{path}.seconds",
                cure="Say what follows when it has run out, or write seconds = 0.",
            )


@reads("field", "dropped_ball")
def _far_from_a_contested_ball(book: Rulebook) -> Iterator[Contradiction]:
    ball = book.dropped_ball
    is_contested = ball.to == ball.in_penalty_area == "contested"
    if is_contested and measured(book, ball.distance):
        yield both(
            book,
            "dropped_ball.distance",
            "dropped_ball.to",
            code="suspicious",
            cure='Nobody can contest it from there: write distance = "0 m".',
        )
