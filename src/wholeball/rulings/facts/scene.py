"""Declares the first questions: was the ball in play, what was seen, at which restart."""

from typing import Final

from wholeball.rulings.fact import Said

PLAY: Final = "play"
_EXEMPT: Final = "throw_in goal_kick corner_kick"

SCENE: Final = (
    Said(
        name="moment",
        stage=PLAY,
        question="Was the ball in play?",
        values={
            "open": "the ball was in play",
            "taking": "a restart was being taken and no other player had touched the ball",
            "dead": "play was stopped",
        },
    ),
    Said(
        name="seen",
        stage=PLAY,
        question="What was it about?",
        values={
            "ball_over": "the ball and a line of the field",
            "foul": "something physical done to somebody, or an object thrown",
            "handling": "the ball and a hand or arm",
            "keeper_hands": "the goalkeeper's hands on the ball in the own penalty area",
            "offside": "offside",
            "outsider": "the ball or play met an official, a stranger, or a person too many",
            "bounds": "a player left, came back or changed places",
            "conduct": "what somebody said, showed or held up",
            "form": "how the restart was taken",
            "near": "others too near, or out of place, when it was taken",
            "extra_at_goal": "a goal, and a person too many on the field",
            "stop": "a stop for none of these",
            "time_up": "the time of a period was up",
        },
        cuts=(
            (
                "handling keeper_hands bounds",
                {"moment": "not open"},
                "it belongs to open play; at a restart it is how the restart was taken",
            ),
            ("form near", {"moment": "not taking"}, "no restart was being taken"),
            ("ball_over offside outsider", {"moment": "dead"}, "play was stopped"),
            ("extra_at_goal", {"moment": "taking"}, "no goal has just been scored"),
        ),
    ),
    Said(
        name="kind",
        stage=PLAY,
        question="Which restart was being taken?",
        values={
            "kick_off": "a kick-off",
            "direct_free_kick": "a direct free kick",
            "indirect_free_kick": "an indirect free kick",
            "penalty_kick": "a penalty kick",
            "throw_in": "a throw-in, or the kick-in that stands in for it",
            "goal_kick": "a goal kick",
            "corner_kick": "a corner kick",
            "dropped_ball": "a dropped ball",
        },
        when=({"moment": "taking", "seen": "ball_over form near offside outsider stop"},),
        cuts=(
            (
                "kick_off penalty_kick dropped_ball",
                {"seen": "offside"},
                "nobody can be offside there",
            ),
            (
                f"kick_off direct_free_kick indirect_free_kick dropped_ball {_EXEMPT}",
                {"seen": "outsider"},
                "an outsider counts as in open play, save at a penalty kick",
            ),
        ),
    ),
    Said(
        name="at",
        stage=PLAY,
        question="Was time still running for this kick?",
        values={
            "normal": "the game went on after it",
            "extended": "the period was extended for this kick alone",
            "kicks": "it was one of the kicks from the mark",
        },
        when=({"kind": "penalty_kick"},),
    ),
)
