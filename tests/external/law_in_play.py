"""Reads rows about what happened while the ball was in play."""

from collections.abc import Callable
from typing import Final

from external.law_fouls import GRADED, KEEPER, OTHER_FOULS, foul, hand, keeper_hands
from external.law_reading import (
    Reading,
    Row,
    facts,
    is_by_b,
    kind,
    moment,
    role,
    where,
)

PARTS: Final = {
    False: "none",
    "plays_ball": "plays",
    "interferes_with_opponent": "hinders",
    "gains_advantage_rebound": "gains",
    "gains_advantage_save": "gains",
    "gains_advantage_deflection": "gains",
    "opponent_deliberate_play": "opponent_played",
    "opponent_deliberate_handball": "opponent_handled",
}


AHEAD: Final = ("offside", "in_goal", "off_field_not_involved")


def offside(row: Row) -> Reading:
    from_restart = row.get("from_restart") or row["restart_in_progress"]
    receives = row["event"] == "offside_position_receives"
    said = facts(
        moment="taking" if from_restart else "open",
        seen="offside",
        ahead="yes" if row.get("position", "offside") in AHEAD else "no",
        part=PARTS[row.get("involved", "plays_ball" if receives else False)],
        scored="yes" if row.get("ball_enters_goal") else "no",
    )
    named = {**row, "restart_in_progress": from_restart}
    return Reading(facts={**said, **kind(named), **where(row)}, swapped=is_by_b(row))


CONDUCT: Final = {
    "dissent": "dissent",
    "abusive_language": "abuse",
    "simulation": "simulation",
    "delays_restart": "delay",
    "leaves_throw_to_teammate": "delay",
    "failing_distance": "distance",
    "prevents_quick_kick": "blocks_quick",
    "deliberate_trick": "trick",
    "shirt_removal": "too_much_joy",
    "leaves_to_celebrate": "joy",
    "slow_leaving_substitution": "slow_off",
    "refuses_substitution": "stays_on",
    "offender_plays_ball_after_advantage": "plays_before_red",
    "technical_area_unidentified": "dissent abuse unsporting minor",
}
DURING_STOPS: Final = frozenset(
    {"delay", "distance", "blocks_quick", "too_much_joy", "joy", "slow_off", "stays_on"}
)


def conduct(row: Row) -> Reading:
    if row["event"] == "failing_distance" and row["restart_in_progress"] == "dropped_ball":
        by = "own" if row["offender_team"] == row["restart_team"] else "opp"
        return Reading(facts=facts(moment="taking", seen="near", kind="dropped_ball", by=by))
    what = CONDUCT[row["event"]]
    when = moment(row)
    if what in DURING_STOPS and when == "open":
        when = "dead"
    if what in {"trick", "plays_before_red"}:
        when = "open"
    nobody = "unknown" if row["event"] == "technical_area_unidentified" else role(row)
    said = facts(moment=when, seen="conduct", conduct=what, halted="yes", role=nobody)
    return Reading(facts={**said, **where(row)}, swapped=is_by_b(row))


MOVES: Final = {
    "crosses_line_playing_movement": facts(move="with_play"),
    "leaves_without_permission": facts(move="leaves", halted="yes"),
    "defender_leaves_field_for_offside": facts(move="offside_trap", halted="no"),
    "re_enters_without_permission": facts(move="enters", halted="yes"),
    "goalkeeper_swap_no_permission": facts(move="swap"),
    "substitution_offence_other": facts(move="enters", halted="yes", hampers="no"),
}


def bounds(row: Row) -> Reading:
    if row["event"] == "substitution_offence_other" and moment(row) != "open":
        said = facts(moment="dead", seen="conduct", conduct="unsporting", role=role(row))
        return Reading(facts=said, swapped=is_by_b(row))
    said = {**where(row), **facts(moment="open", seen="bounds"), **MOVES[row["event"]]}
    if row["event"] == "re_enters_without_permission":
        said |= facts(hampers="yes" if row.get("interfered") else "no")
    return Reading(facts=said, swapped=is_by_b(row))


def official(row: Row) -> Reading:
    effect = "none"
    for key, name in (
        ("possession_changes", "turnover"),
        ("promising_attack", "attack"),
        ("enters_goal", "in_goal"),
    ):
        effect = name if row.get(key) else effect
    said = facts(moment="open", seen="outsider", person="official", effect=effect)
    return Reading(facts=said, swapped=row.get("team_last_touch") == "B")


def agent(row: Row) -> Reading:
    effect = "hampers"
    if row.get("ball_enters_goal"):
        effect = "in_hampered" if row.get("defender_prevented") else "in_free"
    if row.get("interferes") is False:
        effect = "none"
    return Reading(facts=facts(moment="open", seen="outsider", person="agent", effect=effect))


def extra(row: Row) -> Reading:
    effect = {
        "extra_person_interferes": "hampers",
        "extra_person_no_interference": "none",
        "non_player_touches_ball_leaving_field": "hampers"
        if row.get("unfair_intent")
        else "leaving",
    }[row["event"]]
    said = facts(
        moment="open",
        seen="outsider",
        person="extra",
        effect=effect,
        role=role(row, "substitute"),
        bench="yes" if role(row) == "team_official" else "no",
    )
    return Reading(facts={**said, **where(row)}, swapped=is_by_b(row))


def extra_at_goal(row: Row) -> Reading:
    scorers = row.get("scoring_team", "A")
    whose = {scorers: "scorers", None: "nobody"}.get(row.get("extra_person_team"), "conceders")
    interfered = row.get("interfered", whose == "scorers")
    return Reading(
        facts=facts(
            moment="open" if row.get("play_restarted", row["phase"] == "in_play") else "dead",
            seen="extra_at_goal",
            extra_of=whose,
            interfered="yes" if interfered else "no",
        ),
        swapped=scorers == "B",
    )


def kick_place(row: Row) -> Reading:
    """The side named takes the kick: the other side, which then acts, offended there."""
    is_near_goal = row["location"] in {"opp_goal_area", "opp_penalty_area"}
    goal_area = {"opp_goal_area": "own", "own_goal_area": "opp"}.get(row["location"], "neither")
    what = {"ifk_location": "risky", "fk_location": "risky hold"}[row["event"]]
    said = facts(
        moment="open",
        seen="foul",
        foul=what,
        contact="no",
        zone="own_area" if is_near_goal else "elsewhere",
        goal_area=goal_area,
        chance="none",
    )
    return Reading(facts=said, swapped=row["restart_team"] == "A")


IN_PLAY: Final[dict[str, Callable[[Row], Reading]]] = {
    **dict.fromkeys((*GRADED, *OTHER_FOULS), foul),
    **dict.fromkeys(("handball", "arm_contact"), hand),
    **dict.fromkeys(KEEPER, keeper_hands),
    **dict.fromkeys(("offside_question", "offside_position_receives"), offside),
    **dict.fromkeys(CONDUCT, conduct),
    **dict.fromkeys(MOVES, bounds),
    "ball_hits_official": official,
    **dict.fromkeys(
        ("outside_agent_touches_ball", "outside_agent_interferes", "outside_agent_enters"),
        agent,
    ),
    **dict.fromkeys(
        (
            "extra_person_interferes",
            "extra_person_no_interference",
            "non_player_touches_ball_leaving_field",
        ),
        extra,
    ),
    "goal_with_extra_person": extra_at_goal,
    **dict.fromkeys(("ifk_location", "fk_location"), kick_place),
}
