"""Reads a rulebook a second time, slowly, in the order of the Laws.

It was written from the Laws' facts, the printed booklet and the facts of a situation, apart from
the engine. It knows the values of the Laws of 2025/26 and those in which the tested rulebooks
differ; PRESUMED says what it takes for granted of a rulebook.
"""

from collections.abc import Callable, Mapping
from typing import Final

from oracles import slow_reader_fouls as fouls
from oracles import slow_reader_people as people
from oracles import slow_reader_restarts as restarts
from oracles.slow_reader_words import Answer, Situation
from wholeball.rulebook.book import Rulebook

READERS: Final[dict[str, Callable[[Situation], Answer]]] = {
    "ball_over": restarts.ball_over,
    "near": restarts.near,
    "form": restarts.form,
    "foul": fouls.foul,
    "handling": fouls.handling,
    "keeper_hands": fouls.keeper_hands,
    "offside": people.offside,
    "outsider": people.outsider,
    "stop": people.stop,
    "time_up": people.time_up,
    "conduct": people.conduct,
    "bounds": people.bounds,
    "extra_at_goal": people.extra_at_goal,
}

PRESUMED: Final[dict[str, object]] = {
    "kick_off.direction": "any",
    "offside.from_line": "halfway_line",
    "dropped_ball.to": "clear_possession_or_last_touch",
    "dropped_ball.in_penalty_area": "defending_goalkeeper",
    "dropped_ball.spot": "where_stopped",
    "dropped_ball.too_close": "caution",
    "ball_off_official.then": "dropped_ball_in_three_cases",
    "throw_in.method": "throw",
    "throw_in.seconds_most": 0,
    "throw_in.direct_goal": False,
    "throw_in.not_entering.first": "retake",
    "throw_in.not_entering.second": "retake",
    "throw_in.countdown.seconds": 0,
    "goal_kick.taken": "kicked",
    "goal_kick.must_leave_area": False,
    "goal_kick.may_pass_halfway": True,
    "goal_kick.direct_goal": True,
    "goal_kick.countdown.seconds": 0,
    "corner.direct_goal": True,
    "free_kick.kinds": "direct_and_indirect",
    "free_kick.wall.players": 3,
    "free_kick.own_area.must_leave_area": False,
    "free_kick.crossing.caution": True,
    "penalty.played": True,
    "penalty.goalkeeper.first_offence": "warning",
    "penalty.goalkeeper.missed_unaffected": "no_retake",
    "penalty.goalkeeper.with_kicker": "kicker_penalised",
    "penalty.encroachment.punished": "with_impact",
    "penalty.double_touch.goal": "retake",
    "penalty.double_touch.no_goal": "indirect_free_kick",
    "goalkeeper.at_feet": "ordinary_foul",
    "goalkeeper.hands_outside.then": "direct_free_kick",
    "goalkeeper.return_pass.then": "indirect_free_kick",
    "goalkeeper.return_pass.spot": "offence",
    "goalkeeper.return_pass.after_clearing": "allowed",
    "goalkeeper.return_throw.then": "indirect_free_kick",
    "goalkeeper.distribution.past_halfway": "allowed",
    "handball.before_goal": "own_immediate_goal",
    "handball.not_deliberate_with_penalty": "as_other_fouls",
    "advantage.cancels_caution": True,
    "advantage.quick_kick_cancels_caution": True,
    "advantage.incorrect_restart": False,
    "extra_persons.goal_stands": "unless_interfered",
    "extra_persons.touch_leaving_ball": "indirect_free_kick",
    "extra_persons.interference": "direct_free_kick",
    "cards.cautions_for_red": 2,
    "cards.team_officials.shown": True,
    "cards.team_officials.unidentified": "senior_coach",
    "game.period_end.at": "time",
    "game.period_end.chance": "none",
    "game.period_end.penalty_completed": True,
    "kicks.takers.yellow_carried": False,
}
"""What the reader takes for granted of a rulebook, by path."""


def read(facts: Mapping[str, str], book: Rulebook) -> dict[str, str]:
    """Return what the situation brings under the rulebook.

    Raises:
        NotAskedError: the reader needs a fact that the situation does not hold.
    """
    case = Situation(facts, book)
    answer = READERS[case("seen")](case)
    return {
        "goal": answer.goal,
        **_what_comes_next(case, answer),
        "shown": _shown(case, answer),
        "whom": answer.whom,
        "when": _when(answer),
    }


def _what_comes_next(case: Situation, answer: Answer) -> dict[str, str]:
    """Say how play resumes, or how a kick from the mark counts, or that the period is over."""
    if case("seen") in ("ball_over", "near", "form", "outsider", "stop"):
        at = case("at") if case("moment") == "taking" and case("kind") == "penalty_kick" else ""
        settled = answer.restart not in ("retake", "unchanged")
        if at == "kicks" and answer.restart not in ("unchanged", "abandon"):
            return {"kick": _kick(answer)}
        if at == "extended" and settled and answer.restart != "abandon":
            return {"restart": "period_over"}
    if answer.restart == "period_over":
        return {"restart": "period_over"}
    return {"restart": answer.restart, "taker": answer.taker, "spot": answer.spot}


def _kick(answer: Answer) -> str:
    """Law 10.3: a kick is scored, taken again or missed."""
    if answer.restart == "retake":
        return "retake"
    return "scored" if answer.goal == "A" else "not_scored"


def _shown(case: Situation, answer: Answer) -> str:
    """Law 12.3: a second yellow in the game brings red; Law 10.3: not across the kicks."""
    if answer.sanction == "caution" and case("earlier") == "yes":
        return "second_caution"
    return answer.sanction


def _when(answer: Answer) -> str:
    """Law 12.3: before play resumes, or at the next stop if play went on."""
    if answer.sanction == "none":
        return "none"
    return "next_stop" if answer.restart == "play_on" else "now"


def heard(answers: Mapping[str, str]) -> dict[str, str]:
    """Return what the engine answers, in the terms of the reader.

    No goal is no goal, whether there was one to disallow or not; where the period or the kick
    is over, a restart that is no longer taken is left aside.
    """
    told = {"goal": answers["goal"] if answers["goal"] in ("A", "B") else "none"}
    if answers["kick"] != "none":
        told["kick"] = answers["kick"]
    elif answers["resumed"] == "period_over" or answers["restart"] == "period_over":
        told["restart"] = "period_over"
    else:
        told |= {name: answers[name] for name in ("restart", "taker", "spot")}
    return told | {
        "shown": answers["shown"],
        "whom": answers["whom"],
        "when": answers["at_once"],
    }
