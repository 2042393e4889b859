"""Reads rows about persons and procedure beside play."""

from typing import Final

from external.law_reading import Facts, Reading, Row, facts

MATTERS: Final = {
    "unnotified_half_time_sub": facts(matter="entering", lapse="untold_at_interval"),
    "substitute_starts_unnotified": facts(matter="entering", lapse="untold_at_start"),
    "substitution_not_completed": facts(matter="entering", lapse="never_on"),
    "goalkeeper_swap": facts(matter="entering", lapse="keeper_told"),
    "substitution_over_10_s": facts(matter="leaving"),
    "pre_match_send_off": facts(matter="sent_off", when_sent="before"),
    "sent_off_after_kickoff": facts(matter="sent_off", when_sent="after"),
    "substitute_sent_off": facts(matter="sent_off", when_sent="substitute"),
    "goalkeeper_sent_off": facts(matter="sent_off", when_sent="keeper_in_kicks"),
    "on_field_treatment": facts(matter="treated"),
    "below_minimum_players": facts(matter="numbers", stands="too_few"),
    "below_seven_in_shootout": facts(matter="numbers", stands="too_few_in_kicks"),
    "unequal_numbers": facts(matter="numbers", stands="unequal"),
    "unequal_numbers_during": facts(matter="numbers", stands="unequal"),
    "sent_off_player_kicks": facts(matter="kicker", kicker_is="sent_off"),
    "temporarily_off_at_end": facts(matter="kicker", kicker_is="briefly_off"),
    "substitute_at_end": facts(matter="kicker", kicker_is="substitute"),
    "second_kick_before_all": facts(matter="kicker", kicker_is="has_kicked"),
    "goalkeeper_unable": facts(matter="unable", unable_is="keeper"),
    "outfield_unable": facts(matter="unable", unable_is="other"),
    "order_change_next_round": facts(matter="order"),
    "shootout_tosses": facts(matter="tosses"),
    "permitted_procedures": facts(matter="winner"),
    "extra_time_length": facts(matter="winner"),
    "wrong_decision_noticed": facts(matter="decision"),
    "flag_moved": facts(matter="flagpost"),
}
ENDS: Final = ("toss", "second_half_start")


def persons(row: Row) -> Reading:
    if row["event"] in ENDS:
        return _ends(row)
    said: Facts = dict(MATTERS[row["event"]])
    if row["event"] == "goalkeeper_unable":
        said |= facts(changes_left="yes" if row.get("subs_left") else "no")
    if row["event"] == "wrong_decision_noticed":
        said |= facts(restarted="yes" if row.get("play_restarted") else "no")
    return Reading(facts=said, persons=True)


def _ends(row: Row) -> Reading:
    if row["event"] == "toss":
        said = facts(matter="ends", half="first", chose=row.get("choice", "end kick_off"))
        return Reading(facts=said, persons=True, swapped=row.get("toss_winner") == "B")
    said = facts(matter="ends", half="second", chose="end")
    return Reading(facts=said, persons=True, swapped=row.get("end_chooser") == "B")


PERSONS: Final = dict.fromkeys((*MATTERS, *ENDS), persons)
