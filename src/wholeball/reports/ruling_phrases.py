"""Has the words for what a ruling answers: restarts, sides, places, who is shown what."""

from collections.abc import Mapping
from typing import Final

ACTING: Final[Mapping[str, str]] = {
    "ball_over": "the side that touched it last",
    "outsider": "the side that touched it last",
    "stop": "the side that touched it last",
    "form": "the side that took it",
    "near": "the side that took it",
    "extra_at_goal": "the side that scored",
    "offside": "the attacking side",
}
"""Who the side that acts is, by what was seen; else it is the side that offended."""
OFFENDING: Final = "the offending side"
OTHER: Final = "the other side"
TAKERS: Final[Mapping[str, str]] = {
    "other": OTHER,
    "toucher": "the side that touched it last",
    "both": "one player of each side",
}
RESTARTS: Final[Mapping[str, str]] = {
    "throw_in": "throw-in",
    "goal_kick": "goal kick",
    "corner_kick": "corner kick",
    "direct_free_kick": "direct free kick",
    "indirect_free_kick": "indirect free kick",
    "penalty_kick": "penalty kick",
    "dropped_ball": "dropped ball",
    "kick_off": "kick-off",
}
WHOLE: Final[Mapping[str, str]] = {
    "play_on": "play goes on",
    "natural": "what the ball itself brings follows",
    "unchanged": "the restart stays what it was",
    "period_over": "the period is over",
    "abandon": "the game ends here",
}
"""Restarts that are a sentence of their own."""
SPOTS: Final[Mapping[str, str]] = {
    "where_it_left": "where the ball left the field",
    "goal_area": "from anywhere in the goal area",
    "corner_nearest": "from the nearest corner area",
    "centre_mark": "on the centre mark",
    "penalty_mark": "on the penalty mark",
    "offence": "where the offence happened",
    "nearest_boundary": "on the line of the field nearest to the offence",
    "struck": "where the object struck or would have struck",
    "interference": "where they interfered",
    "ball_when_stopped": "where the ball was when play was stopped",
    "goal_area_line_nearest": "on the nearest point of the goal-area line, parallel to the "
    "goal line",
    "penalty_area_line_nearest": "on the nearest point of the penalty-area line",
    "same_place": "in the same place",
    "last_touch": "where it was touched last",
    "goalkeeper_in_penalty_area": "to the goalkeeper, in the own penalty area",
}
WHOM: Final[Mapping[str, str]] = {
    "A.offender": "the player who did it",
    "A.goalkeeper": "the goalkeeper",
    "A.kicker": "the kicker",
    "A.initiator": "the player who started it",
    "A.both": "both players",
    "A.substitute": "the substitute",
    "A.team_official": "the team official",
    "A.senior_coach_present": "the senior coach in the technical area",
    "A.technical_area": "the technical area",
    "B.offender": "the player of the other side who did it",
    "B.goalkeeper": "the other side's goalkeeper",
    "A.kicker+B.goalkeeper": "the kicker and the goalkeeper",
}
SHOWN: Final[Mapping[str, str]] = {
    "none": "Neither yellow nor red.",
    "warning": "A warning for {whom}{when}; neither yellow nor red.",
    "caution": "Yellow for {whom}{when}.",
    "second_caution": "Yellow, and with it red, for {whom}{when}: it is the yellow too many.",
    "send_off": "Red for {whom}{when}.",
    "told": "A word to {whom}{when}: behave, or leave; neither yellow nor red.",
}
AT_ONCE: Final[Mapping[str, str]] = {
    "now": ", before play resumes",
    "next_stop": ", at the next stop",
    "none": "",
}
RESUMED: Final[Mapping[str, str]] = {
    "as_ruled": "",
    "period_over": "After it the period is over.",
    "shootout": "It is one of the kicks from the mark: no other restart follows.",
}
KICK: Final[Mapping[str, str]] = {
    "none": "",
    "scored": "The kick is written down as scored.",
    "not_scored": "The kick is written down as not scored.",
    "retake": "The kick is taken again.",
}
CARE: Final[Mapping[str, str]] = {
    "none": "",
    "help_then_after_treatment": "Send for help; the player leaves after treatment, and comes "
    "back with permission once play has resumed.",
    "help_then_until_next_dead_ball": "Send for help; the player leaves, and may come back at "
    "the next stop.",
    "help_then_may_stay": "Send for help; after treatment the player may stay.",
    "out_for_the_day": "The player is out for the day, whatever anybody at the field thinks.",
    "off_until_bleeding_stopped": "The player leaves until the bleeding has stopped and the "
    "equipment is clean, and comes back with permission.",
    "take_shelter": "Everybody goes where local policy says; only the supervisor resumes.",
    "mend_first": "Nobody plays near the frame until it is mended and checked.",
}
BESIDE: Final[Mapping[str, Mapping[str, str]]] = {
    "kicks_off": {
        "winner": "The side that won the toss kicks off.",
        "other": "The side that lost the toss kicks off.",
    },
    "resumes": {
        "play_on": "Play goes on.",
        "kicks": "Kicks from the mark follow.",
        "not_continued": "The game does not go on.",
        "decision_may_change": "The decision may still be changed.",
        "decision_stands": "The decision stands.",
    },
    "allowed": {
        "yes": "It is allowed.",
        "no": "It is not allowed.",
        "after_reducing": "It is allowed once the larger side has left players out.",
    },
    "replaced_by": {
        "nobody": "Nobody comes on instead.",
        "substitute_not_counted": "A named substitute may come on; it does not count as a "
        "substitution.",
        "anybody_after_a_time": "Somebody may come on once the time for it is over.",
        "eligible_player": "A player who may kick takes over.",
        "substitute_or_left_out": "A substitute may take over, or a player who was left out.",
        "left_out": "A player who was left out may take over.",
    },
    "waits": {
        "substitute": "The substitute waits.",
        "until_restart": "It waits until play has restarted.",
        "after_restart": "It is dealt with after the restart.",
    },
    "reported": {"yes": "It goes into the report."},
    "dealt": {
        "caution": "Yellow for the one who did it.",
        "send_off": "Red for the one who did it.",
    },
}
"""What is said of persons and procedure; what is not listed goes without saying."""
