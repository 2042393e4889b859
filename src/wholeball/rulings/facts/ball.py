"""Declares what is asked when the ball met a line, the time ran out, or play was stopped."""

from typing import Final

from wholeball.rulings.fact import Said
from wholeball.rulings.facts.scene import PLAY

BALL: Final = (
    Said(
        name="whole",
        stage=PLAY,
        question="Was the whole of the ball over the whole of the line?",
        values={"yes": "all of it", "no": "not all of it"},
        when=({"seen": "ball_over"},),
    ),
    Said(
        name="line",
        stage=PLAY,
        question="Over which line?",
        values={
            "touch": "a touchline",
            "own": "the goal line of the side that touched it last",
            "opp": "the other side's goal line",
        },
        when=({"whole": "yes"},),
        cuts=(("own", {"kind": "penalty_kick"}, "a penalty kick goes the other way"),),
    ),
    Said(
        name="mouth",
        stage=PLAY,
        question="Between the posts and under the bar?",
        values={"in": "into the goal", "beside": "beside or above it"},
        when=({"line": "own opp"},),
    ),
    Said(
        name="sent",
        stage=PLAY,
        question="How did it get there?",
        values={"played": "played", "keeper_throw": "thrown by the goalkeeper"},
        when=({"moment": "open", "line": "opp", "mouth": "in"},),
    ),
    Said(
        name="through",
        stage=PLAY,
        question="Did the kick itself put it in?",
        values={
            "straight": "straight, or off the frame or the goalkeeper",
            "second_play": "it was played again after a rebound",
        },
        when=({"kind": "penalty_kick", "line": "opp", "mouth": "in"},),
    ),
    Said(
        name="arm_up",
        stage=PLAY,
        question="Had the referee's arm been raised for an indirect kick?",
        values={"yes": "it was raised", "no": "it was not"},
        when=({"kind": "indirect_free_kick", "line": "opp", "mouth": "in"},),
    ),
    Said(
        name="drop_touched",
        stage=PLAY,
        question="How many players had touched the dropped ball?",
        values={"none": "nobody", "one": "one player"},
        when=({"kind": "dropped_ball", "whole": "yes"},),
    ),
    Said(
        name="reason",
        stage=PLAY,
        question="Why was play stopped?",
        values={
            "ball": "the ball burst or became unfit",
            "frame": "a goal frame broke or moved",
            "noise": "a whistle or call from outside made players stop",
            "early_signal": "an official whistled or signalled while the ball was still in play",
            "injury": "a player was hurt",
            "head": "a head injury was suspected",
            "blood": "a player was bleeding",
            "weather": "thunder was heard or lightning seen",
        },
        when=({"seen": "stop"},),
    ),
    Said(
        name="mended",
        stage=PLAY,
        question="Could the frame be mended or replaced?",
        values={"yes": "yes", "no": "no"},
        when=({"reason": "frame"},),
    ),
    Said(
        name="last_kick",
        stage=PLAY,
        question="Was anything still to be played out?",
        values={
            "nothing": "nothing",
            "penalty": "a penalty kick had been given",
            "chance": "an attack was about to end in a shot",
        },
        when=({"seen": "time_up"},),
        cuts=(("chance", {"moment": "dead"}, "play was stopped"),),
    ),
    Said(
        name="extra_of",
        stage=PLAY,
        question="Whose was the person too many?",
        values={
            "scorers": "a player, substitute or official of the side that scored",
            "conceders": "one of the side that conceded",
            "nobody": "nobody's: a stranger, an animal, a thing",
        },
        when=({"seen": "extra_at_goal"},),
    ),
    Said(
        name="interfered",
        stage=PLAY,
        question="Did they interfere?",
        values={"yes": "they interfered", "no": "they did not"},
        when=({"seen": "extra_at_goal"},),
    ),
)
