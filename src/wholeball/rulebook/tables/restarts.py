"""Declares every restart of play."""

from typing import ClassVar, Literal, TypeAlias

from wholeball.kernel.length import length
from wholeball.rulebook.value import (
    Always,
    Article,
    Distance,
    Idle,
    idle,
    key,
)

Then: TypeAlias = Literal[
    "retake",
    "direct_free_kick",
    "indirect_free_kick",
    "penalty_kick",
    "throw_in",
    "goal_kick",
    "corner_kick",
    "dropped_ball",
    "play_on",
]
"""What play goes on with; a free kick, throw-in or corner is the opponents'."""


class KickOff(Article):
    """The kick-off."""

    direction: Literal["any", "forward"] = key("Where the first kick may go.")
    distance: Distance = key("How far the opponents stay.")
    direct_goal: bool = key("Whether a goal may be scored straight from it.")
    only_kicker_over_halfway: Always = key("Everybody else is in their own half.")
    on_signal: Always = key("It waits for the official's signal.")


class Offside(Article):
    """Offside."""

    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle("from_line", "goalkeeper_throw", played=(False,)),
    )

    played: bool = key("Whether offside is played.")
    from_line: Literal["halfway_line", "penalty_area_line"] = key("From where on.")
    goalkeeper_throw: Literal["first_contact", "last_contact"] = key(
        "Which contact with the ball counts at a goalkeeper's throw."
    )


class DroppedBall(Article):
    """The dropped ball."""

    idle_keys: ClassVar[tuple[Idle, ...]] = (idle("too_close", distance=(length("0 m"),)),)

    to: Literal["contested", "last_touch", "clear_possession_or_last_touch"] = key(
        "Who receives it outside the penalty area."
    )
    in_penalty_area: Literal["contested", "defending_goalkeeper"] = key(
        "Who receives it inside."
    )
    spot: Literal["last_touch", "where_stopped"] = key("Where it is dropped.")
    distance: Distance = key("How far the others stay; 0 m where it is contested.")
    too_close: Literal["nothing", "caution"] = key("What staying too close costs.")


class BallOffOfficial(Article):
    """The ball that touches an official."""

    then: Literal["play_on", "dropped_ball_in_three_cases"] = key(
        "What follows: play on, or a dropped ball where a promising attack starts, the ball goes "
        "straight into the goal, or possession changes."
    )


class Misplayed(Article):
    """A throw-in taken wrongly, with the feet or hands or from the wrong place."""

    first: Literal["retake", "throw_in"] = key("The first time; throw_in is the opponents'.")
    second: Literal["retake", "throw_in"] = key("When taken wrongly again.")


class NotEntering(Article):
    """A throw-in that never comes into the field."""

    first: Literal["retake", "throw_in"] = key("The first time; throw_in is the opponents'.")
    second: Literal["retake", "throw_in"] = key("When it does not come in again.")


class Countdown(Article):
    """A visible countdown at a restart that is delayed."""

    idle_keys: ClassVar[tuple[Idle, ...]] = (idle("then", seconds=(0,)),)

    seconds: int = key("How long; 0 where there is none.", least=0, most=30)
    then: Literal["throw_in", "corner_kick", "indirect_free_kick", "none"] = key(
        "What the opponents get when it has run out."
    )


class ThrowIn(Article):
    """The throw-in, or what stands in for it."""

    method: Literal["throw", "kick_in"] = key("Whether the ball is thrown or kicked in.")
    distance: Distance = key("How far the opponents stay from the point on the line.")
    seconds_most: int = key("How long the taker has; 0 for no limit.", least=0, most=60)
    direct_goal: bool = key("Whether a goal may be scored straight from it.")
    misplayed: Misplayed = key("Taken wrongly.")
    not_entering: NotEntering = key("The throw that does not come in.")
    countdown: Countdown = key("The visible countdown.")


class GoalKick(Article):
    """The goal kick."""

    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle("not_leaving", must_leave_area=(False,)),
        idle("too_far", may_pass_halfway=(True,)),
    )

    taken: Literal["kicked", "thrown_by_goalkeeper"] = key("How it is taken.")
    must_leave_area: bool = key("Whether the ball must leave the penalty area to be in play.")
    not_leaving: Literal["retake", "indirect_free_kick"] = key("What follows if it does not.")
    may_pass_halfway: bool = key("Whether it may cross the halfway line untouched.")
    too_far: Literal["retake", "indirect_free_kick"] = key("What follows if it does.")
    direct_goal: bool = key("Whether a goal may be scored straight from it.")
    countdown: Countdown = key("The visible countdown.")


class Corner(Article):
    """The corner kick."""

    distance: Distance = key("How far the opponents stay from the corner arc.")
    direct_goal: bool = key("Whether a goal may be scored straight from it.")


class Wall(Article):
    """Attackers near a wall of defenders."""

    idle_keys: ClassVar[tuple[Idle, ...]] = (idle("distance", players=(0,)),)

    players: int = key("How many make a wall; 0 for no such rule.", least=0, most=8)
    distance: Distance = key("How far attackers stay from it.")


class OwnArea(Article):
    """A free kick to the defenders in their own penalty area."""

    must_leave_area: bool = key("Whether the ball must leave the area to be in play.")


class NearGoal(Article):
    """Where an indirect kick to the attackers inside the goal area is taken.

    Very close kicks crowd players between ball and goal.
    """

    spot: Literal[
        "goal_area_line", "where_it_happened", "penalty_area_line", "penalty_mark"
    ] = key("Where it is taken.")


class Crossing(Article):
    """Crossing the line an official has set for the distance."""

    caution: bool = key("Whether it is a caution.")


class FreeKick(Article):
    """Free kicks."""

    kinds: Literal["direct_and_indirect", "all_indirect", "all_direct"] = key(
        "Which kinds there are."
    )
    distance: Distance = key("How far the opponents stay.")
    distance_given: Literal["always", "on_request"] = key("When the official measures it.")
    wall: Wall = key("Attackers near a wall.")
    own_area: OwnArea = key("Defenders' kicks in their own penalty area.")
    near_goal: NearGoal = key("Attackers' indirect kicks in the goal area.")
    crossing: Crossing = key("Crossing the official's line.")


class PenaltyGoalkeeper(Article):
    """The goalkeeper at a penalty kick."""

    on_line: Literal["both_feet", "part_of_one_foot"] = key("What is on the goal line.")
    first_offence: Literal["caution", "warning"] = key("What the first offence costs.")
    missed_unaffected: Literal["retake", "no_retake"] = key(
        "What follows a kick that misses though the goalkeeper offended, the kicker unaffected."
    )
    with_kicker: Literal["retake", "kicker_penalised_if_goal", "kicker_penalised"] = key(
        "What follows when goalkeeper and kicker offend together."
    )


class Encroachment(Article):
    """Players who come too near before a penalty kick is taken."""

    punished: Literal["always", "with_impact"] = key("When it is punished.")


class DoubleTouch(Article):
    """A kicker who touches the ball twice at a penalty kick without meaning to."""

    goal: Literal["indirect_free_kick", "retake"] = key("If the ball goes in.")
    no_goal: Literal["indirect_free_kick", "play_on"] = key("If it does not.")


class Penalty(Article):
    """The penalty kick."""

    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle("ball", "distance", "goalkeeper", "encroachment", "double_touch", played=(False,)),
    )

    played: bool = key("Whether penalty kicks are taken.")
    ball: Literal["on_mark", "touches_or_overhangs_centre"] = key("Where the ball must be.")
    distance: Distance = key("How far the others stay from the mark.")
    goalkeeper: PenaltyGoalkeeper = key("The goalkeeper.")
    encroachment: Encroachment = key("The other players.")
    double_touch: DoubleTouch = key("An accidental second touch.")
