"""Declares the field of play and the ball."""

from typing import ClassVar, Literal

from wholeball.kernel.units import Unit
from wholeball.rulebook.value import Always, Article, Distance, Kind, key


class Limits(Article):
    """How long and how wide a field may be."""

    own_kind: ClassVar[Kind] = "permitted"

    length_least: Distance = key("The shortest touchline.")
    length_most: Distance = key("The longest touchline.")
    width_least: Distance = key("The shortest goal line.")
    width_most: Distance = key("The longest goal line.")


class Goal(Article):
    """The goals."""

    own_kind: ClassVar[Kind] = "permitted"

    width: Distance = key("Between the posts, inside.")
    height: Distance = key("From the ground to the lower edge of the bar.")
    posts_most: Distance = key("The widest that posts, bar and the goal line may be.")
    anchored: Always = key("Goals are anchored to the ground; nothing else is allowed.")


class Areas(Article):
    """The goal areas and the penalty areas."""

    own_kind: ClassVar[Kind] = "permitted"

    goal_area: Distance = key("Goal area: from each post and into the field; 0 m for none.")
    penalty_area: Distance = key("Penalty area: from each post and into the field.")
    penalty_mark: Distance = key("Penalty mark: from the middle of the goal line.")
    penalty_arc: Distance = key("Penalty arc: radius from the penalty mark; 0 m for none.")


class Field(Article):
    """The field of play as it is marked out."""

    own_kind: ClassVar[Kind] = "permitted"

    unit: Unit = key("The unit that the field is measured in and its sizes are printed in.")
    length: Distance = key("The touchline of the field that is drawn.")
    width: Distance = key("The goal line of the field that is drawn.")
    lines_most: Distance = key("The widest that a line may be.")
    centre_circle: Distance = key("The radius of the centre circle.")
    corner_arc: Distance = key("The radius of the corner arcs; 0 m for none.")
    flags: Literal["required", "optional", "none"] = key("Whether corner flags stand.")
    limits: Limits = key("How long and wide a field may be.")
    goal: Goal = key("The goals.")
    areas: Areas = key("The areas.")


class Ball(Article):
    """The ball."""

    own_kind: ClassVar[Kind] = "permitted"

    circumference_least: Distance = key("The smallest ball.")
    circumference_most: Distance = key("The largest ball.")
    weight_least_grams: int = key("The lightest ball at the start.", least=100, most=600)
    weight_most_grams: int = key("The heaviest ball at the start.", least=100, most=600)
    bounce: Literal["ordinary", "low"] = key("Whether a ball of low bounce is used.")
