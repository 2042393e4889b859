"""Reads Laws 8, 9, 10 and 13 to 17 for the slow reader: the ball out, and restarts taken."""

from collections.abc import Callable
from typing import Final

from oracles.slow_reader_words import (
    PERIOD_OVER,
    PLAY_ON,
    RESULT_STANDS,
    Answer,
    Situation,
    again,
    corner,
    direct,
    goal_for,
    goal_kick,
    indirect,
    penalty,
    throw_in,
    waiting,
)

SCORES: Final = ("kick_off", "direct_free_kick", "penalty_kick", "goal_kick", "corner_kick")
"""Restarts from which a goal may be scored straight (Laws 8, 13, 14, 16 and 17)."""


# Laws 9 and 10: the ball over a line


def ball_over(case: Situation) -> Answer:
    """Judge a ball and a line."""
    if case("whole") == "no":
        return PLAY_ON
    taking = case("moment") == "taking"
    if taking and case("kind") == "dropped_ball" and case("drop_touched") == "none":
        return again("dropped_ball")
    if case("line") == "touch":
        return throw_in("where_it_left")
    if case("line") == "own":
        return goal_for("B") if case("mouth") == "in" and not taking else corner()
    if case("mouth") == "beside":
        return goal_kick()
    return _straight(case) if taking else _from_play(case)


def _from_play(case: Situation) -> Answer:
    """Law 10.1: a goalkeeper's throw straight into the other goal does not count."""
    thrown = (
        case("sent") == "keeper_throw" and not case.book.goalkeeper.distribution.direct_goal
    )
    return goal_kick() if thrown else goal_for("A")


def _straight(case: Situation) -> Answer:
    """Judge a restart that went into the opponents' goal."""
    kind = case("kind")
    if kind == "penalty_kick" and case("at") != "normal":
        return PERIOD_OVER if case("through") == "second_play" else goal_for("A")
    if kind == "indirect_free_kick" and case("arm_up") == "no":
        return again(kind)
    if kind == "kick_off" and not case.book.kick_off.direct_goal:
        return goal_kick()
    return goal_for("A") if kind in SCORES else goal_kick()


# Laws 8, 13, 15, 16 and 17: others too near or out of place


def near(case: Situation) -> Answer:
    """Judge those who stood too near, or where they may not, when a restart was taken."""
    kind = case("kind")
    if kind == "kick_off":
        return again(kind)
    if kind == "penalty_kick":
        return _near_penalty(case)
    if kind == "throw_in":
        taken = case("thrown") == "yes"
        answer = indirect(case, "A") if taken else waiting(kind)
        return answer.costing("caution", "B.offender")
    if kind == "dropped_ball":
        culprit = "A.offender" if case("by") == "own" else "B.offender"
        return again(kind).costing("caution", culprit)
    if case("by") == "own":
        return indirect(case) if case("wall") == "yes" else PLAY_ON
    return _opponents_near(case)


def _opponents_near(case: Situation) -> Answer:
    """Judge opponents at a free kick, a goal kick or a corner kick."""
    how = case("how_near")
    if how == "challenges":
        return again(case("kind"))
    if how == "in_way":
        return PLAY_ON if case("used") == "yes" else again(case("kind"))
    return PLAY_ON


def _near_penalty(case: Situation) -> Answer:
    """Law 14.3, by who offended, with what impact, and whether the ball went in."""
    by = case("by")
    if by == "keeper_and_taker":
        return indirect(case).costing("caution", "A.kicker")
    goal = case("result") == "goal"
    stands = goal_for("A") if goal else RESULT_STANDS
    if by == "keeper":
        if goal or case("saved") == "missed":
            return stands
        cost = "caution" if case("warned") == "yes" else "warning"
        return again("penalty_kick").costing(cost, "B.goalkeeper")
    if case("impact") == "no":
        return stands
    if by == "both" or goal == (by == "own"):
        return again("penalty_kick")
    return goal_for("A") if by == "opp" else indirect(case)


# Laws 8 and 13 to 17: how it was taken


def form(case: Situation) -> Answer:
    """Judge what was wrong with how a restart was taken."""
    if case("flaw") in ALLOWED:
        return PLAY_ON
    if case("flaw") == "absent":
        return RESULT_STANDS
    return FLAWS[case("flaw")](case)


def _nothing(case: Situation) -> Answer:
    """Nothing was wrong: play goes on; of a last kick one must know if it went in."""
    if case("kind") == "penalty_kick" and case("at") != "normal":
        return goal_for("A") if case("in_net") == "yes" else RESULT_STANDS
    return PLAY_ON


def _retaken(case: Situation) -> Answer:
    return again(case("kind"))


def _wrong_place(case: Situation) -> Answer:
    if case("kind") == "throw_in":
        return _thrown_wrongly(case)
    return again(case("kind"))


def _wrong_place_to_delay(case: Situation) -> Answer:
    return _wrong_place(case).costing("caution", "A.kicker")


def _thrown_wrongly(case: Situation) -> Answer:
    """Law 15.1, or the house's second try."""
    rule = case.book.throw_in.misplayed
    if rule.first == rule.second:
        then = rule.first
    else:
        then = rule.second if case("again") == "yes" else rule.first
    return throw_in("same_place") if then == "throw_in" else again("throw_in")


def _slowly(case: Situation) -> Answer:
    """No time is set for it here: it is still to be taken, as before."""
    return waiting(case("kind"))


def _backward(case: Situation) -> Answer:
    """A kick-off may go backwards, a penalty kick may not (Laws 8.1 and 14.2)."""
    return PLAY_ON if case("kind") == "kick_off" else indirect(case)


def _feint(case: Situation) -> Answer:
    """Only at a penalty kick a feint after the run-up is an offence (Laws 13.3 and 14.1)."""
    if case("kind") != "penalty_kick":
        return PLAY_ON
    return indirect(case).costing("caution", "A.kicker")


def _wrong_taker(case: Situation) -> Answer:
    return indirect(case).costing("caution", "A.kicker")


def _twice(case: Situation) -> Answer:
    """A second touch: Circular 31 at a penalty kick, an indirect free kick elsewhere."""
    if case("kind") == "penalty_kick":
        by_accident = case("meant") == "no"
        return (
            again("penalty_kick") if by_accident and case("in_net") == "yes" else indirect(case)
        )
    return _for_a_chance(case, indirect(case))


def _twice_hand(case: Situation) -> Answer:
    """A second touch with the hand: as any handling, and the goalkeeper's in the own area."""
    if case("kind") == "penalty_kick":
        return direct(case)
    if case("zone") == "elsewhere":
        return _for_a_chance(case, direct(case))
    return _for_a_chance(case, indirect(case) if case("who") == "keeper" else penalty())


def _for_a_chance(case: Situation, answer: Answer) -> Answer:
    """Law 12.3: yellow for a promising attack, red for an obvious chance."""
    cost = {"none": "none", "promising": "caution", "obvious": "send_off"}[case("chance")]
    return answer.costing(cost, "A.goalkeeper" if case("who") == "keeper" else "A.offender")


ALLOWED: Final = ("inside", "too_far")
"""What the Laws of today allow: no ball has to leave an area, or may not pass halfway."""

FLAWS: Final[dict[str, Callable[[Situation], Answer]]] = {
    "none": _nothing,
    "moving": _retaken,
    "early": _retaken,
    "place": _wrong_place,
    "place_to_delay": _wrong_place_to_delay,
    "stance": _thrown_wrongly,
    "not_in": _retaken,
    "backward": _backward,
    "feint": _feint,
    "wrong_taker": _wrong_taker,
    "twice": _twice,
    "twice_hand": _twice_hand,
    "before_ground": _retaken,
    "slow": _slowly,
    "countdown": _slowly,
}
