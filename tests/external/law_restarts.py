"""Reads rows about the ball and the lines, stops, restarts and penalty kicks."""

from collections.abc import Callable
from typing import Final

from external.law_reading import (
    Facts,
    Reading,
    Row,
    at,
    chance,
    facts,
    is_by_b,
    keeper,
    kind,
    moment,
    where,
)

STRAIGHT: Final = {
    "feint_in_run_up",
    "none",
    "deflection_in",
    "rebound_off_post_and_goalkeeper_in",
}
AFTER_ANOTHER: Final = (
    "ball_enters_goal_after_touch",
    "ball_enters_goal_after_two_players",
    "passed_forward",
    "goal_scored",
)


def _over(when: str, line: str, mouth: str, **more: str) -> Facts:
    said = facts(moment=when, seen="ball_over", whole="yes", mouth=mouth, sent="played", **more)
    return said if line == "any" else {**said, "line": frozenset({line})}


def line_not_crossed(_row: Row) -> Reading:
    return Reading(facts=facts(moment="open", seen="ball_over", whole="no"))


def over_line(row: Row) -> Reading:
    last = row.get("last_touch_team") or row["restart_team"] or "A"
    if row["event"] == "ball_wholly_over_touchline":
        said = _over(moment(row), "touch", "in beside")
    else:
        line = "own" if row.get("goal_line_of", last) == last else "opp"
        said = _over(moment(row), line, "in" if row.get("between_posts") else "beside")
    return Reading(
        facts={**said, **kind(row), **facts(drop_touched="one")}, swapped=last == "B"
    )


def thrown_in_goal(row: Row) -> Reading:
    said = {**_over("open", "opp", "in"), **facts(sent="keeper_throw")}
    return Reading(facts=said, swapped=is_by_b(row))


def directly(row: Row) -> Reading:
    taker = row["restart_team"] or "A"
    line = "own" if row.get("goal_of", "B") == taker else "opp"
    raised = "no" if row.get("signal_given") is False else "yes"
    said = _over("taking", line, "in", arm_up=raised, drop_touched="one", through="straight")
    return Reading(facts={**said, **kind(row), **facts(at=at(row))}, swapped=taker == "B")


def after_another(row: Row) -> Reading:
    if row["event"] == "passed_forward" and not row.get("ball_enters_goal", True):
        return Reading(facts={**facts(moment="taking", seen="form", flaw="none"), **kind(row)})
    scorers = row.get("scoring_team") or {"A": "B", "B": "A"}[row.get("goal_of", "B")]
    return Reading(facts=_over("open", "opp", "in"), swapped=scorers == "B")


def straight_or_on(row: Row) -> Reading:
    """A kick without fault: in, or play goes on."""
    went_in = row.get("ball_enters_goal", row["event"] == "rebound_off_post_and_goalkeeper_in")
    said = facts(moment="taking", seen="form", flaw="none")
    if went_in:
        said = _over("taking", "opp", "in", through="straight")
    return Reading(facts={**said, **kind(row, "penalty_kick"), **facts(at=at(row))})


def rebound(row: Row) -> Reading:
    if row["event"] == "rebound_off_frame_or_flag":
        return line_not_crossed(row)
    if row.get("ball_enters_goal") is False:
        return straight_or_on(row)
    said = _over("taking", "opp", "in", through="second_play", kind="penalty_kick", at=at(row))
    return Reading(facts=said)


def leaves_untouched(row: Row) -> Reading:
    said = _over("taking", "any", "beside in", drop_touched="none")
    return Reading(
        facts={**said, **kind(row, "dropped_ball")}, swapped=row["restart_team"] == "B"
    )


STOPS: Final = {
    "ball_defective": "ball",
    "crossbar_broken": "frame",
    "outside_whistle": "noise",
    "goal_signalled_too_early": "early_signal",
    "blood": "blood",
    "neutral_stoppage": "noise ball early_signal",
}


def stop(row: Row) -> Reading:
    is_neutral = row["event"] == "neutral_stoppage"
    last = row.get("last_touch_team") or "A"
    would = row.get("would_have_possession")
    said = facts(
        moment="open" if is_neutral else moment(row),
        seen="stop",
        reason=STOPS[row["event"]],
        mended="no" if row.get("repairable") is False else "yes",
        at=at(row),
        ball_at=_area(row.get("ball_location"), last),
        last_at=_area(row.get("last_touch_location"), last),
        would="unclear" if would is None else ("same" if would == last else "other"),
    )
    return Reading(
        facts={**said, **kind(row)}, swapped=last == "B" or row["restart_team"] == "B"
    )


def _area(place: str | None, last: str) -> str:
    if place is None or not place.endswith("penalty_area"):
        return "elsewhere"
    return "own_area" if place.startswith(last) else "opp_area"


FLAWS: Final = {
    "ball_not_stationary": "moving",
    "taken_before_signal": "early",
    "wrong_place": "place",
    "wrong_place_to_force_retake": "place_to_delay",
    "ball_misplaced": "place",
    "not_stationary_or_outside_area": "moving place",
    "foul_throw": "stance",
    "ground_before_entering": "not_in",
    "never_enters": "not_in",
    "ball_does_not_leave_area": "inside",
    "played_inside_area": "inside",
    "kicked_backwards": "backward",
    "illegal_feint": "feint",
    "kicker_offence": "feint",
    "caution_in_match_and_shootout": "feint",
    "feint": "feint",
    "lifted": "none",
    "stays_in_corner_area": "none",
    "wrong_kicker": "wrong_taker",
    "second_touch": "twice",
    "second_touch_after_restart": "twice",
    "accidental_double_touch": "twice",
    "second_touch_handball": "twice_hand",
    "touched_before_ground": "before_ground",
    "countdown_expired": "countdown",
    "kicker_absent": "absent",
}
KIND_OF: Final = {
    "second_touch_after_restart": "goal_kick",
    "touched_before_ground": "dropped_ball",
}


def form(row: Row) -> Reading:
    event = row["event"]
    default = "penalty_kick" if row["phase"] == "shootout" else KIND_OF.get(event)
    went_in = row.get("ball_enters_goal")
    said = facts(
        moment="taking",
        seen="form",
        flaw=FLAWS[event],
        at=at(row),
        who=keeper(row),
        meant="no" if event == "accidental_double_touch" else "yes",
        chance=chance(row),
    )
    if went_in is not None:
        said |= facts(in_net="yes" if went_in else "no")
    if event == "caution_in_match_and_shootout":
        said |= facts(earlier="in_the_game")
    return Reading(
        facts={**where(row), **said, **kind(row, default)}, swapped=row["restart_team"] == "B"
    )


NEAR: Final = {
    "opponent_in_area_no_time": "no_time",
    "opponent_in_area_challenges": "challenges",
    "opponent_intercepts_quick_kick": "quick",
    "opponent_too_close": "in_way",
    "defenders_on_goal_line": "on_line",
}


def near(row: Row) -> Reading:
    how = "quick" if row.get("quick") else NEAR[row["event"]]
    said = facts(
        moment="taking",
        seen="near",
        by="opp",
        how_near=how,
        used="yes" if row.get("advantage") else "no",
    )
    return Reading(facts={**said, **kind(row, "free_kick")}, swapped=row["restart_team"] == "B")


def others(row: Row) -> Reading:
    taker = row["restart_team"] or "A"
    offender = row["offender_team"]
    both = {"both": "both", None: "own opp", taker: "own"}
    said = facts(moment="taking", seen="near", by=both.get(offender, "opp"), at=at(row))
    if row["event"] == "attacker_near_wall":
        said |= facts(by="own", wall="yes" if row.get("wall_size", 3) >= 3 else "no")
    if row["event"] == "distracts_thrower":
        said |= facts(by="opp", thrown=_yes_no(row.get("throw_taken")))
    if row.get("impact") is not None:
        said |= facts(impact="yes" if row["impact"] else "no")
    defaults = {"player_in_wrong_half": "kick_off", "distracts_thrower": "throw_in"}
    restart = kind(row, defaults.get(row["event"], "penalty_kick"))
    return Reading(facts={**said, **_result(row), **restart}, swapped=taker == "B")


def _yes_no(said: object) -> str:
    if said is None:
        return "yes no"
    return "yes" if said else "no"


def _result(row: Row) -> Facts:
    went_in = row.get("ball_enters_goal")
    if went_in is None:
        return {}
    return facts(result="goal" if went_in else "no_goal")


def keeper_at_penalty(row: Row) -> Reading:
    by = "keeper" if row["event"] == "goalkeeper_offence" else "keeper_and_taker"
    said = facts(
        moment="taking", seen="near", by=by, at=at(row), kind="penalty_kick", saved=_saved(row)
    )
    if row.get("previous_offences"):
        said |= facts(warned="yes")
    went_in = row.get("ball_enters_goal", False if "saved" in row else None)
    return Reading(facts={**said, **_result({"ball_enters_goal": went_in})})


def _saved(row: Row) -> str:
    if row.get("saved", True):
        return "saved"
    return "affected" if row.get("impact") else "missed"


def stranger(row: Row) -> Reading:
    went_in = "forward_in" if row.get("ball_enters_goal") else "forward"
    flight = "rebound" if row["event"] == "outside_agent_after_rebound" else went_in
    said = facts(
        moment="taking",
        seen="outsider",
        kind="penalty_kick",
        person="agent",
        flight=flight,
        at=at(row),
    )
    return Reading(facts=said)


RESTARTS: Final[dict[str, Callable[[Row], Reading]]] = {
    "ball_on_line": line_not_crossed,
    **dict.fromkeys(("ball_wholly_over_touchline", "ball_wholly_over_goal_line"), over_line),
    "goalkeeper_throws_into_opponents_goal": thrown_in_goal,
    **dict.fromkeys(
        ("ball_enters_goal_directly", "ball_enters_goal_fewer_than_two_players"), directly
    ),
    **dict.fromkeys(AFTER_ANOTHER, after_another),
    **dict.fromkeys(sorted(STRAIGHT), straight_or_on),
    **dict.fromkeys(
        ("rebound_off_goalkeeper", "rebound_second_play", "rebound_off_frame_or_flag"), rebound
    ),
    "leaves_field_untouched": leaves_untouched,
    **dict.fromkeys(STOPS, stop),
    **dict.fromkeys(FLAWS, form),
    **dict.fromkeys(NEAR, near),
    **dict.fromkeys(
        ("player_in_wrong_half", "encroachment", "attacker_near_wall", "distracts_thrower"),
        others,
    ),
    **dict.fromkeys(("goalkeeper_offence", "goalkeeper_and_kicker_offence"), keeper_at_penalty),
    **dict.fromkeys(("outside_agent_touches", "outside_agent_after_rebound"), stranger),
}
