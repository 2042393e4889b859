"""Reads Laws 1 to 5, 7, 11 and the rest of Law 12 for the slow reader: people and stops."""

from dataclasses import replace
from typing import Final

from oracles.slow_reader_words import (
    ABANDON,
    PERIOD_OVER,
    PLAY_ON,
    UNCHANGED,
    Answer,
    Situation,
    again,
    drop,
    goal_for,
    indirect,
    penalty,
    waiting,
)

WHOSE: Final = {
    "player": "A.offender",
    "substitute": "A.substitute",
    "team_official": "A.team_official",
    "unknown": "A.senior_coach_present",
}
AT_THE_BALL: Final = Answer(restart="indirect_free_kick", taker="B", spot="ball_when_stopped")
"""For coming or going without permission (Law 13.2)."""

INTERFERENCE: Final = Answer(restart="direct_free_kick", taker="B", spot="interference")
NO_RESTARTS: Final = ("goal_kick", "throw_in", "corner_kick")
"""Restarts at which nobody is offside (Law 11.3)."""


def offside(case: Situation) -> Answer:
    """Law 11: the position is no offence, taking part from it is."""
    let_go = goal_for("A") if case("scored") == "yes" else PLAY_ON
    if not case.book.offside.played:
        return let_go
    if case("moment") == "taking" and case("kind") in NO_RESTARTS:
        return let_go
    throw = {"first_contact": "at_first", "last_contact": "at_last"}
    if case("ahead") not in ("yes", "short", throw[case.book.offside.goalkeeper_throw]):
        return let_go
    return indirect(case) if case("part") in ("plays", "hinders", "gains") else let_go


def outsider(case: Situation) -> Answer:
    """Laws 3.7, 9.1 and 14: an official, a stranger or a person too many meets play."""
    if case("moment") == "taking":
        return _at_a_penalty(case)
    effect, person = case("effect"), case("person")
    if person == "extra":
        return _extra(case)
    if effect == "none":
        return PLAY_ON
    return goal_for("A") if effect == "in_free" else drop(case)


def _at_a_penalty(case: Situation) -> Answer:
    flight = case("flight")
    if flight == "forward":
        return again("penalty_kick")
    if flight == "forward_in":
        return goal_for("A")
    return PERIOD_OVER if case("at") != "normal" else drop(case)


def _extra(case: Situation) -> Answer:
    """Judge a substitute, a team official or a player sent off."""
    effect = case("effect")
    if effect == "leaving":
        return Answer(restart="indirect_free_kick", taker="B", spot="interference")
    if effect == "none":
        return PLAY_ON.costing("caution", WHOSE[case("role")])
    answer = penalty() if case("place") == "own_area" else INTERFERENCE
    if case("bench") == "yes":
        return answer.costing("send_off", "A.team_official")
    return answer.costing("caution", "A.substitute")


def stop(case: Situation) -> Answer:
    """Laws 1, 2 and 5: a stop for which nobody is to blame."""
    if case("reason") == "frame" and case("mended") == "no":
        return ABANDON
    if case("moment") == "open":
        return drop(case)
    if case("moment") == "dead":
        return UNCHANGED
    return again(case("kind")) if case("reason") == "ball" else waiting(case("kind"))


def time_up(case: Situation) -> Answer:
    """Law 7.4: only a penalty kick is still taken."""
    return UNCHANGED if case("last_kick") == "penalty" else PERIOD_OVER


FREE: Final = ("joy", "stays_on")
"""No offence by itself (Laws 3.3 and 12.3)."""

RED: Final = ("abuse", "plays_before_red")


def conduct(case: Situation) -> Answer:
    """Law 12.3 and 12.4: words, signs and unsporting behaviour."""
    what = case("conduct")
    if case("moment") != "open":
        answer = UNCHANGED
    elif what in ("trick", "plays_before_red") or case("halted") == "yes":
        answer = indirect(case)
    else:
        answer = PLAY_ON
    if what in FREE:
        return answer
    if what == "trick":
        return answer.costing("caution", "A.initiator")
    if what == "plays_before_red":
        return answer.costing("send_off", "A.offender")
    cost = "send_off" if what in RED else "warning" if what == "minor" else "caution"
    return answer.costing(cost, WHOSE[case("role")])


def bounds(case: Situation) -> Answer:
    """Laws 3, 4, 11.4 and 12.3: crossing the lines, and changing places."""
    move = case("move")
    if move == "with_play":
        return PLAY_ON
    if move == "swap":
        return PLAY_ON.costing("caution", "A.both")
    if move == "enters" and case("hampers") == "yes":
        answer = penalty() if case("place") == "own_area" else INTERFERENCE
    else:
        answer = AT_THE_BALL if case("halted") == "yes" else PLAY_ON
    return answer.costing("caution", "A.offender")


def extra_at_goal(case: Situation) -> Answer:
    """Law 3.9: a goal by A while somebody too many was on the field."""
    if case("moment") == "open":
        return _noticed_late(case)
    if case("extra_of") == "conceders" or case("interfered") == "no":
        return goal_for("A")
    return INTERFERENCE if case("extra_of") == "scorers" else drop(case)


def _noticed_late(case: Situation) -> Answer:
    """After the kick-off the goal stands; play is stopped for the person still there."""
    if case("extra_of") == "nobody" or case("interfered") == "no":
        return replace(drop(case), goal="A")
    taker = "B" if case("extra_of") == "scorers" else "A"
    return replace(INTERFERENCE, taker=taker, goal="A")
