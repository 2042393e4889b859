"""Folds a game a second time, plainly and slowly, written from conformance/README.md alone.

Left out are forfeits, defaults, games broken off, waiting for a side, amendments and answers.
"""

from types import SimpleNamespace
from typing import Any, Final

from wholeball.game.event import KICKS, Moment
from wholeball.rulebook.book import Rulebook

SIDES: Final = ("home", "away")
CORRECTIONS: Final = ("retract", "replayed", "disallow")
RANK: Final = {"period_started": 0, "goal": 1, "hold_ended": 3, "period_ended": 4}  # others: 2


def standing(events: Any) -> list[Any]:
    """Return what corrections leave of a log, in the order of the game."""
    first = {one.id: one for one in sorted(events, key=lambda one: one.order, reverse=True)}
    back = {one.what.target for one in first.values() if one.what.type == "retract"}
    left = [one for one in first.values() if one.what.type == "retract" or one.id not in back]
    gone = {name for one in left if one.what.type == "replayed" for name in one.what.voids}
    no_goals = {one.what.target for one in left if one.what.type == "disallow"}
    gone |= {one.id for one in left if one.what.type == "goal" and one.id in no_goals}
    play = [one for one in left if one.id not in gone and one.what.type not in CORRECTIONS]
    return sorted(play, key=lambda one: (one.at, RANK.get(one.what.type, 2), one.id))


def mercy_from(book: Rulebook, period: int, score: list[int]) -> int | None:
    """Return the second of a period from which the lead ends the game, if there is one."""
    lead, minutes = abs(score[0] - score[1]), book.game.minutes
    rungs = [rung.minutes_left for rung in book.mercy.ladder if lead >= rung.lead]
    left, later = max(rungs, default=-1), minutes * (book.game.periods - period)
    return 60 * (minutes + later - left) if 0 <= later <= left else None


def is_after_time(book: Rulebook, at: Any, goal: Any) -> bool:
    """Tell whether time had ended the period before a goal of it."""
    rules = book.game if at.period <= book.game.periods else book.overtime
    is_past, ends = at.clock > 60 * rules.minutes, book.game.period_end
    is_ended = ends.at == "time" and book.game.stoppages.lost_time == "not_added"
    return is_past and is_ended and not (goal.penalty and ends.penalty_completed)


def are_kicks_over(rules: Any, scored: list[int], taken: list[int]) -> bool:
    """Law 10.3: over once a side has more than the other could reach, then pair by pair."""
    each = max(rules.each, *taken) if rules.sudden_death else rules.each
    reach = [scored[side] + max(0, each - taken[side]) for side in (0, 1)]
    is_decided = scored[0] > reach[1] or scored[1] > reach[0]
    if min(taken) >= each:
        return is_decided or not rules.sudden_death
    return is_decided and bool(rules.ends == "as_soon_as_decided")


def naive_fold(  # noqa: C901, PLR0912, PLR0915 - one pass, to be read from top to bottom
    events: Any, book: Rulebook, stage: str, until: Moment
) -> dict[str, Any]:
    ties, regular = getattr(book.ties, stage), book.game.periods
    last = regular + book.overtime.periods * ("overtime" in ties)
    phase, period, clock, how, ended, is_held = "before", 0, (0, 0), "", (0, 0), False
    score, late, scored, taken = [0, 0], [0, 0], [0, 0], [0, 0]
    by_period, yellows, reds = dict[int, list[int]](), [], set()
    is_whole = any(getattr(one.what, "whole", False) for one in standing(events))
    for one in [*standing(events), SimpleNamespace(at=until, what=SimpleNamespace(type=""))]:
        at, what, kind, mercy = (
            one.at,
            one.what,
            one.what.type,
            None if is_whole else mercy_from(book, period, score),
        )
        before, clock = clock, max(clock, at)
        if phase == "playing" and mercy is not None and (period, mercy) <= clock:
            phase, how, ended = "over", "mercy", max(before, (period, mercy))
        side = SIDES.index(getattr(what, "side", "home"))
        in_play = phase == "playing" and not is_held and at.period <= last
        may_begin = phase not in ("kicks", "over") and period < at.period <= last
        if kind == "period_started" and may_begin:
            phase, period = "playing", at.period
            by_period.setdefault(period, [0, 0])
        elif kind == "period_ended" and phase == "playing" and at.period == period:
            is_level, phase = score[0] == score[1], "interval"
            if period < regular and mercy is not None:
                phase, how, ended = "over", "mercy", at
            elif period == last and is_level and "kicks" in ties:
                phase = "kicks"
            elif period == last or (period == regular and not is_level):
                phase, ended = "over", at
                how = "full_time" if period <= regular else "overtime"
        elif kind in ("hold_began", "hold_ended"):
            is_held = kind == "hold_began"
        elif kind == "goal" and how in ("mercy", "golden_goal"):
            late[side] += 1
        elif kind == "goal" and in_play and not is_after_time(book, at, what):
            score[side] += 1
            by_period.setdefault(at.period, [0, 0])[side] += 1
            is_golden = at.period > regular and book.overtime.ends == "golden_goal"
            mercy = None if is_whole else mercy_from(book, at.period, score)
            if mercy is not None and mercy <= at.clock:
                phase, how, ended = "over", "mercy", at
            elif is_golden and score[0] != score[1]:
                phase, how, ended = "over", "golden_goal", at
        elif kind == "kick" and phase == "kicks" and not is_held:
            taken[side] += 1
            scored[side] += what.scored and what.taken
            if are_kicks_over(book.kicks, scored, taken):
                phase, how, ended = "over", "kicks", at
        elif kind == "caution" and what.number is not None and what.to != "team_official":
            is_apart = at.period == KICKS and not book.kicks.takers.yellow_carried
            yellows.append((what.side, what.number, is_apart))
            if yellows.count(yellows[-1]) >= book.cards.cautions_for_red:
                reds.add((what.side, what.number))
        elif kind == "sending_off":
            reds.add((what.side, what.number))
    ahead = scored if how == "kicks" else score
    winner = SIDES[ahead[1] > ahead[0]] if how and ahead[0] != ahead[1] else None
    kicks = {"scored": scored, "taken": taken, "winner": winner if how == "kicks" else None}
    return {
        "score": score,
        "played": [score[0] + late[0], score[1] + late[1]],
        "by_period": [by_period[number] for number in sorted(by_period)],
        "kicks": kicks if phase == "kicks" or any(taken) else None,
        "ending": {"how": how, "at": list(ended)} if how else None,
        "result": score if how else None,
        "winner": winner,
        "reds": reds,
    }
