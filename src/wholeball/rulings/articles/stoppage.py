"""Declares stops without an offence, the end of a period, and care: Laws 1, 2, 5, 7 and 8."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_play = Writer("play")
_care = Writer("care")
_SOFT: Final = "noise early_signal injury head blood weather"

STOPPAGE: Final[tuple[Article, ...]] = (
    _play(
        "stopped_for_no_offence",
        "A stop of play that is nobody's offence brings a dropped ball.",
        "Law 8.2",
        when={"moment": "open", "seen": "stop"},
        outcome="dropped_ball",
        path="dropped_ball",
    ),
    _play(
        "ball_unfit_at_restart",
        "A restart whose ball becomes unfit before another player touches it is taken again.",
        "Law 2.2",
        when={"moment": "taking", "reason": "ball"},
        outcome="retake",
    ),
    _play(
        "stopped_at_restart",
        "What stops a restart before it is taken does not change it.",
        "Law 8",
        when={"moment": "taking", "reason": f"frame {_SOFT}"},
        outcome="unchanged",
    ),
    _play(
        "stopped_while_stopped",
        "What happens while play is stopped does not change the restart.",
        "Law 8",
        when={"moment": "dead", "seen": "stop"},
        outcome="unchanged",
    ),
    _play(
        "no_goal_frame",
        "A frame that can be neither mended nor replaced ends the game.",
        "Law 1.10",
        when={"mended": "no"},
        outcome="abandon",
        over="stopped_for_no_offence stopped_at_restart stopped_while_stopped",
    ),
    _play(
        "time",
        "A period ends when its time is up.",
        "Law 7",
        when={"last_kick": "nothing"},
        outcome="period_over",
        path="game.period_end",
    ),
    _play(
        "chance_cut_off",
        "A period ends when its time is up, whatever the attack.",
        "Law 7",
        when={"last_kick": "chance"},
        outcome="period_over",
        path="game.period_end",
        given={"game.period_end.at": "time"},
    ),
    _play(
        "chance_played_out",
        "An attack that is about to end in a shot is played out.",
        "common practice, no source",
        when={"last_kick": "chance"},
        outcome="play_on",
        path="game.period_end",
        given={"game.period_end.at": "chance_played_out"},
    ),
    _play(
        "penalty_taken_at_time",
        "A penalty kick that has been given is still taken.",
        "Law 7.4",
        when={"last_kick": "penalty"},
        outcome="unchanged",
        path="game.period_end",
        given={"game.period_end.penalty_completed": "yes"},
    ),
    _play(
        "penalty_lost_at_time",
        "A penalty kick that has not been taken when the time is up is not taken.",
        "common practice, no source",
        when={"last_kick": "penalty"},
        outcome="period_over",
        path="game.period_end",
        given={"game.period_end.penalty_completed": "no"},
    ),
)

CARE: Final[tuple[Article, ...]] = (
    _care("no_care", "Nobody needs care.", "Law 5", then={"care": "none"}),
    *(
        _care(
            f"hurt_{leaves}",
            "Stop if it is serious, send for help, and let the player be treated; an official "
            "never diagnoses. Local policy and licensed practice come first.",
            "Law 5.3",
            when={"reason": "injury"},
            then={"care": f"help_then_{leaves}"},
            over="no_care",
            path="injury",
            given={"injury.leaves": leaves},
        )
        for leaves in ("after_treatment", "until_next_dead_ball", "may_stay")
    ),
    _care(
        "hurt_keeper",
        "A goalkeeper may be treated on the field and stay.",
        "Law 5.3",
        when={"hurt": "keeper"},
        then={"care": "help_then_may_stay"},
        over="no_care hurt_after_treatment hurt_until_next_dead_ball",
        path="injury",
        given={"injury.goalkeeper_exempt": "yes", "injury.leaves": "not may_stay"},
    ),
    _care(
        "suspected_head_injury",
        "Stop, protect, call for help, write it down and leave the rest to those who are "
        "trained: a player with a suspected head injury does not come back that day.",
        "common practice, no source",
        when={"reason": "head"},
        then={"care": "out_for_the_day"},
        over="no_care",
        path="injury",
        given={"injury.suspected_head_injury": "out_for_the_day"},
    ),
    _care(
        "bleeding",
        "A bleeding player leaves, and comes back with permission once it has stopped and "
        "blood on the equipment is gone.",
        "Law 5.3",
        when={"reason": "blood"},
        then={"care": "off_until_bleeding_stopped"},
        over="no_care",
        path="injury",
        given={"injury.bleeding": "off_until_stopped_and_covered"},
    ),
    _care(
        "thunder",
        "Thunder or lightning stops play at once; everybody goes where local policy says, and "
        "only the supervisor resumes.",
        "common practice, no source",
        when={"reason": "weather"},
        then={"care": "take_shelter"},
        over="no_care",
    ),
    _care(
        "broken_frame",
        "Nobody plays near a broken or loose goal frame until it is mended and checked.",
        "Law 1.10",
        when={"reason": "frame"},
        then={"care": "mend_first"},
        over="no_care",
        path="field.goal",
    ),
)
