"""Reads rows about fouls at any moment, hands on the ball, and the goalkeeper's hands."""

from typing import Final

from external.law_reading import (
    Facts,
    Reading,
    Row,
    chance,
    facts,
    is_by_b,
    keeper,
    kind,
    moment,
    role,
    where,
)

GRADED: Final = (
    "charge",
    "jump_at",
    "kick",
    "push",
    "strike",
    "tackle",
    "trip",
    "challenge_goalkeeper_in_control",
    "offence_off_field",
    "offence_vs_outside_agent",
    "offence_ball_not_in_play",
    "two_cautionable_offences",
    "second_caution",
    "persistent_offences",
    "foul_before_offside_offence",
    "advantage_not_realised",
    "quick_kick_before_card",
)
OTHER_FOULS: Final = {
    "violent_conduct": "violent",
    "hold": "hold",
    "spit_or_bite": "bite_spit",
    "dangerous_play": "risky",
    "impede_contact": "impede",
    "impede_no_contact": "impede",
    "throws_object": "object",
    "throws_object_at_ball": "object",
    "held_object_contact": "held_object",
    "thrown_at_opponent": "object",
    "kicked_at_opponent": "object",
    "prevents_goalkeeper_release": "hinder_keeper",
    "kicks_ball_being_released": "hinder_keeper",
    "shielding": "shield",
}
VICTIMS: Final = {"teammate": "own_side", "match_official": "official"}
AGAINST: Final = {
    "offence_vs_outside_agent": "stranger",
    "throws_object_at_ball": "the_ball",
}
DEGREES: Final = {
    "two_cautionable_offences": "reckless",
    "second_caution": "reckless",
}
STRUCK_DURING_RESTART: Final = ("thrown_at_opponent", "kicked_at_opponent")
OPEN_THOUGH_RESTART: Final = (*STRUCK_DURING_RESTART, "quick_kick_before_card")


def foul(row: Row) -> Reading:
    event = row["event"]
    if event in STRUCK_DURING_RESTART and row.get("severity") == "none":
        return Reading(facts={**facts(moment="taking", seen="form", flaw="none"), **kind(row)})
    when = moment(row)
    if event in OPEN_THOUGH_RESTART or (when == "taking" and row["ball_in_play"]):
        when = "open"
    return Reading(facts={**_foul(row), "moment": frozenset({when})}, swapped=is_by_b(row))


def _foul(row: Row) -> Facts:
    event = row["event"]
    what = OTHER_FOULS.get(event, "graded")
    has_contact = row.get("contact", event == "impede_contact")
    said = facts(
        seen="foul",
        foul=what,
        contact="yes" if has_contact else "no",
        against=VICTIMS.get(row.get("victim", ""), AGAINST.get(event, "opponent")),
        degree=row.get("severity", DEGREES.get(event, "careless")),
        chance=chance(row),
        fair_try="yes" if row.get("attempt_to_play_ball") else "no",
        advantage="yes" if row.get("advantage") else "no",
        role=role(row),
    )
    if event == "quick_kick_before_card":
        said |= facts(advantage="quick")
    if event in DEGREES:
        said |= facts(earlier="yes")
    if event == "persistent_offences":
        said |= facts(often="yes")
    return {**said, **where(row)}


ARMS: Final = {
    "deliberate": "deliberate",
    "unnaturally_bigger": "bigger",
    "attempt_to_score": "to_score",
    "accidental_scores_directly": "accident",
    "accidental_scores_immediately": "accident",
    "accidental_teammate_scores": "accident",
    "natural": "accident",
}
NETS: Final = {
    "accidental_scores_directly": "self",
    "accidental_scores_immediately": "self",
    "accidental_teammate_scores": "mate",
}


def hand(row: Row) -> Reading:
    how = row.get("kind", "deliberate")
    into_own = "own" if row.get("ball_enters_goal") and how != "attempt_to_score" else "no"
    said = facts(
        moment="open",
        seen="handling",
        arm=ARMS[how],
        net=NETS.get(how, into_own),
        who=keeper(row),
        chance=chance(row),
        advantage="yes" if row.get("advantage") else "no",
        fair_try="no",
    )
    return Reading(facts={**said, **where(row)}, swapped=is_by_b(row))


KEEPER: Final = {
    "goalkeeper_handles": facts(hands="fair"),
    "goalkeeper_holds_too_long": facts(hands="too_long"),
    "goalkeeper_rehandles": facts(hands="again"),
    "back_pass_handled": facts(hands="received", source="kick"),
    "back_pass_handled_after_attempted_clearance": facts(
        hands="received", source="kick", cleared="yes"
    ),
    "goalkeeper_handles_teammate_throw": facts(hands="received", source="throw"),
    "headed_back": facts(hands="received", source="other"),
    "deflected_to_goalkeeper": facts(hands="received", source="other"),
}


def keeper_hands(row: Row) -> Reading:
    if row.get("trick"):
        return Reading(facts=facts(moment="open", seen="conduct", conduct="trick"))
    said = {**where(row), **facts(moment="open", seen="keeper_hands"), **KEEPER[row["event"]]}
    if row.get("deliberate_kick"):
        said |= facts(source="kick")
    return Reading(facts=said, swapped=is_by_b(row))
