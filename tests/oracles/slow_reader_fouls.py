"""Reads Law 12 for the slow reader: what is done to people, and hands on the ball."""

from typing import Final

from oracles.slow_reader_words import (
    PLAY_ON,
    UNCHANGED,
    Answer,
    Situation,
    corner,
    direct,
    drop,
    goal_for,
    indirect,
    penalty,
)

GRADED: Final = ("graded", "object", "risky", "at_feet", "slide")
"""What is done carelessly, recklessly or with excessive force."""

RED: Final = ("violent", "bite_spit")
BY_DEGREE: Final = {"careless": "none", "reckless": "caution", "excessive": "send_off"}
LADDER: Final = ("none", "caution", "send_off")
WHOSE: Final = {
    "player": "A.offender",
    "substitute": "A.substitute",
    "team_official": "A.team_official",
}


def harder(*costs: str) -> str:
    """Return the hardest of several sanctions."""
    return max(costs, key=LADDER.index)


# Physical offences


def foul(case: Situation) -> Answer:
    """Judge something done to somebody, or an object thrown."""
    if case("foul") == "shield":
        return PLAY_ON if case("moment") == "open" else UNCHANGED
    if case("moment") != "open":
        return _shown_for(case, UNCHANGED, _degree(case))
    if not _is_offence(case):
        return PLAY_ON
    if case("advantage") != "no":
        return _shown_for(case, PLAY_ON, _after_advantage(case))
    answer = _restart(case)
    return _shown_for(case, answer, _cost(case, answer))


def _shown_for(case: Situation, answer: Answer, cost: str) -> Answer:
    """Add the sanction; whose the deed was matters only if there is one."""
    return answer if cost == "none" else answer.costing(cost, _culprit(case))


def _is_offence(case: Situation) -> bool:
    """Tell whether it is an offence at all: a fair challenge is none."""
    if case("foul") not in ("slide", "at_feet") or case("contact") == "yes":
        return True
    if case("foul") == "at_feet" or case.book.slide_tackle.allowed:
        return False
    if case("advantage") != "no":
        return True  # who lets play go on for the other side has seen an offence
    exempt = case.book.slide_tackle.goalkeeper_exempt and case("who") == "keeper"
    return not (exempt and case("zone") == "own_area")


def _degree(case: Situation) -> str:
    """Return what the way it was done costs."""
    if case("foul") in RED:
        return "send_off"
    if case("foul") not in GRADED:
        return "none"
    if case("foul") != "graded" and case("foul") != "object" and case("contact") == "no":
        return "none"
    return BY_DEGREE[case("degree")]


def _culprit(case: Situation) -> str:
    """Return whose it was; others than players strike, spit and throw."""
    if case("foul") in (*RED, "object"):
        return WHOSE[case("role")]
    return "A.offender"


def _after_advantage(case: Situation) -> str:
    """Law 12.3: a lost promising attack costs nothing then, an obvious chance yellow."""
    if _degree(case) == "send_off":
        return "send_off"
    lost = "caution" if _chance(case) == "obvious" else "none"
    return harder(_degree(case), lost, _often(case), _for_sliding(case))


def _chance(case: Situation) -> str:
    """Return what it took from the opponents; nothing, if it was done to somebody else."""
    if case("foul") in ("graded", "object") and case("against") not in ("opponent", "the_ball"):
        return "none"
    return case("chance")


def _often(case: Situation) -> str:
    """Law 12.3: persistent offences cost yellow, whichever they are."""
    if harder(_degree(case), _for_sliding(case)) != "none" or _chance(case) != "none":
        return "none"
    return "caution" if case("often") == "yes" else "none"


def _cost(case: Situation, answer: Answer) -> str:
    """Law 12.3: the deed, the chance it took, and how often it was."""
    if _degree(case) == "send_off":
        return "send_off"
    lost = {"none": "none", "promising": "caution", "obvious": "send_off"}[_chance(case)]
    if lost != "none" and answer.restart == "penalty_kick" and _for_the_ball(case):
        lost = {"caution": "none", "send_off": "caution"}[lost]
    return harder(_degree(case), lost, _often(case), _for_sliding(case))


def _for_sliding(case: Situation) -> str:
    """Return what a slide costs by itself where the house forbids it."""
    slides = case.book.slide_tackle
    forbidden = case("foul") == "slide" and not slides.allowed
    return "caution" if forbidden and slides.caution else "none"


def _for_the_ball(case: Situation) -> bool:
    """Tell whether it was an attempt to play the ball or a challenge for it."""
    return case("foul") in ("graded", "risky", "at_feet", "slide") and case("fair_try") == "yes"


def _restart(case: Situation) -> Answer:
    """Laws 12.1, 12.4 and 13.2: the free kick, by what, whom and where."""
    whom = case("against") if case("foul") in (*RED, "graded", "object") else "opponent"
    if whom == "stranger":
        return drop(case)
    if case("zone") in ("off", "off_by_area"):
        return _off_the_field(case, whom)
    if _is_indirect(case):
        return indirect(case)
    if case("zone") == "own_area":
        return penalty()
    if case("foul") == "object":
        return Answer(restart="direct_free_kick", taker="B", spot="struck")
    return direct(case)


def _is_indirect(case: Situation) -> bool:
    """Law 12.2: hindering the goalkeeper, what is done without contact, or as the house says."""
    if case("foul") in ("risky", "impede"):
        return case("contact") == "no"
    if case("foul") == "slide" and case("contact") == "no":
        return case.book.slide_tackle.then == "indirect_free_kick"
    return case("foul") == "hinder_keeper"


def _off_the_field(case: Situation, whom: str) -> Answer:
    """Law 12.4: on the nearest line; a penalty kick where that bounds the own area."""
    if _is_indirect(case) or whom == "own_side":
        return Answer(restart="indirect_free_kick", taker="B", spot="nearest_boundary")
    if case("zone") == "off_by_area":
        return penalty()
    return Answer(restart="direct_free_kick", taker="B", spot="nearest_boundary")


# Handling


def handling(case: Situation) -> Answer:
    """Judge a ball and an arm; a goalkeeper here is outside the own penalty area."""
    arm = case("arm")
    if arm == "to_score":
        return direct(case).costing("caution", "A.offender")
    if arm == "accident":
        return {
            "no": lambda: PLAY_ON,
            "mate": lambda: goal_for("A"),
            "self": lambda: direct(case),
        }[case("net")]()
    if case("net") == "own":
        tried = "caution" if arm == "deliberate" else "none"
        return goal_for("B").costing(tried, "A.offender")
    whom = "A.goalkeeper" if case("who") == "keeper" else "A.offender"
    persistent = "caution" if case("chance") == "none" and case("often") == "yes" else "none"
    if case("advantage") != "no":
        lost = "caution" if case("chance") == "obvious" else persistent
        return PLAY_ON.costing(lost, whom)
    in_area = case("who") != "keeper" and case("zone") == "own_area"
    answer = penalty() if in_area else direct(case)
    lost = {"none": persistent, "promising": "caution", "obvious": "send_off"}[case("chance")]
    if in_area and arm == "bigger" and case("chance") != "none":
        lost = {"caution": "none", "send_off": "caution"}[lost]
    return answer.costing(lost, whom)


def keeper_hands(case: Situation) -> Answer:
    """Law 12.2: the goalkeeper's hands in the own penalty area; no yellow or red for them."""
    hands = case("hands")
    if hands == "too_long":
        return corner() if case.book.goalkeeper.hold.then == "corner_kick" else indirect(case)
    if hands == "again":
        return indirect(case)
    if hands == "received" and case("source") != "other" and case("cleared") == "no":
        return indirect(case)
    return PLAY_ON
