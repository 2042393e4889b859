"""Says what the articles about the field and the ball mean."""

from typing import Final

from wholeball.kernel.units import Unit
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import Dictionary, Sentence, Words, say
from wholeball.rulebook.words.phrases import is_none, measured

_UNITS: Final[dict[Unit, str]] = {
    "mm": "millimetres",
    "cm": "centimetres",
    "m": "metres",
    "in": "inches",
    "ft": "feet",
    "yd": "yards",
}
_FLAGS: Final = {
    "required": "a flag stands",
    "optional": "a flag may stand",
    "none": "no flag stands",
}
_BOUNCE: Final = {"ordinary": "bounces as usual", "low": "has a low bounce"}


def _field(book: Rulebook) -> tuple[Sentence, ...]:
    field = book.field
    return (
        say(
            "The field is {length} long and {width} wide.",
            length=measured(field.length, book),
            width=measured(field.width, book),
        ),
        say("Its sizes are printed in {unit}.", unit=_UNITS[field.unit]),
        say("Lines are at most {most} wide.", most=measured(field.lines_most, book)),
        say(
            "The centre circle has a radius of {radius}.",
            radius=measured(field.centre_circle, book),
        ),
        _corner_arc(book),
        say("At each corner {flags}.", flags=_FLAGS[field.flags]),
    )


def _corner_arc(book: Rulebook) -> Sentence:
    arc = book.field.corner_arc
    if is_none(arc):
        return say("The corners have {no} arcs.", no="no")
    return say("The corner arcs have a radius of {radius}.", radius=measured(arc, book))


def _limits(book: Rulebook) -> tuple[Sentence, ...]:
    limits = book.field.limits
    return (
        say(
            "A touchline is {least} to {most} long.",
            least=measured(limits.length_least, book),
            most=measured(limits.length_most, book),
        ),
        say(
            "A goal line is {least} to {most} long.",
            least=measured(limits.width_least, book),
            most=measured(limits.width_most, book),
        ),
    )


def _goal(book: Rulebook) -> tuple[Sentence, ...]:
    goal = book.field.goal
    return (
        say(
            "A goal is {width} wide between the posts and {height} high under the bar.",
            width=measured(goal.width, book),
            height=measured(goal.height, book),
        ),
        say(
            "Posts, bar and goal line are at most {most} wide.",
            most=measured(goal.posts_most, book),
        ),
        say("Goals are anchored to the ground before anybody plays, as local policy says."),
    )


def _areas(book: Rulebook) -> tuple[Sentence, ...]:
    areas = book.field.areas
    return (
        _goal_area(book),
        say(
            "The penalty area reaches {size} from each post and into the field.",
            size=measured(areas.penalty_area, book),
        ),
        say(
            "The penalty mark is {distance} from the middle of the goal line.",
            distance=measured(areas.penalty_mark, book),
        ),
        _penalty_arc(book),
    )


def _goal_area(book: Rulebook) -> Sentence:
    size = book.field.areas.goal_area
    if is_none(size):
        return say("There is {no} goal area.", no="no")
    return say(
        "The goal area reaches {size} from each post and into the field.",
        size=measured(size, book),
    )


def _penalty_arc(book: Rulebook) -> Sentence:
    radius = book.field.areas.penalty_arc
    if is_none(radius):
        return say("There is {no} penalty arc.", no="no")
    return say(
        "The penalty arc has a radius of {radius} from the mark.", radius=measured(radius, book)
    )


def _ball(book: Rulebook) -> tuple[Sentence, ...]:
    ball = book.ball
    return (
        say(
            "The ball measures {least} to {most} around.",
            least=measured(ball.circumference_least, book),
            most=measured(ball.circumference_most, book),
        ),
        say(
            "It weighs {least} g to {most} g at the start of the game.",
            least=ball.weight_least_grams,
            most=ball.weight_most_grams,
        ),
        say("It {bounce}.", bounce=_BOUNCE[ball.bounce]),
    )


WORDS: Final[Dictionary] = {
    "field": Words(title="The field of play", says=_field),
    "field.limits": Words(title="How large a field may be", says=_limits),
    "field.goal": Words(title="The goals", says=_goal),
    "field.areas": Words(title="The goal area and the penalty area", says=_areas),
    "ball": Words(title="The ball", says=_ball),
}
