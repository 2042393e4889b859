"""Says why there is no timetable: what is too little, or which rules clash, and what would cure it.

What can be counted comes first. Then a relaxation in which games may go without a place counts
how many must. Only where that finds nothing are rules searched for a smallest clash, and then
loosened, to count how often they must give way.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from math import ceil
from typing import Final

from wholeball.planning.answer import Impossible, Reason
from wholeball.planning.counting import quick_reasons
from wholeball.planning.days import day
from wholeball.planning.kinds import KINDS
from wholeball.planning.problem import TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.rulebook.sentence import counted, listed
from wholeball.solvers.timetable import highs, places
from wholeball.solvers.timetable.build import AT_ONCE, CAPACITY, ONCE, Build
from wholeball.solvers.timetable.clash import can_hold, clash
from wholeball.solvers.timetable.counted_cures import counted_cures
from wholeball.solvers.timetable.cures import cures
from wholeball.solvers.timetable.elastic import GivesWay, fewest, giving_way, in_units
from wholeball.solvers.timetable.parts import asked, built
from wholeball.solvers.timetable.question import Question
from wholeball.solvers.timetable.rows import Row

MOST: Final = 6
"""How many reasons are given at most."""
FEW: Final = 8
"""How many teams are named at most in one sentence."""


def explained(
    problem: TimetableProblem, can_be: Callable[[TimetableProblem], bool] | None = None
) -> Impossible:
    """Return at most six reasons why there is no plan; none where none is found.

    At most three cures come with them: with `can_be`, which tells whether a question has a plan,
    each has one; without, each is enough as far as the reasons were counted, and none was tried.
    """
    musts = replace(
        problem, rules=tuple(one for one in problem.rules if one.strength == "must")
    )
    by_count = quick_reasons(musts)[:MOST]
    reasons = by_count or _searched(musts, can_be)
    if can_be is None:
        return Impossible(reasons=reasons, cures=counted_cures(musts, by_count))
    found = tuple(cures(musts, reasons, can_be))
    return Impossible(reasons=reasons, cures=found)


def _searched(
    musts: TimetableProblem, can_be: Callable[[TimetableProblem], bool] | None
) -> tuple[Reason, ...]:
    """Return what lacks, or else which rules clash; and by how much rules would give way.

    Where nothing lacks, what a relaxation of the nights says of rules is nothing either.
    """
    short = tuple(_short(asked(musts)))
    if short:
        return (*short, *_exceptions(giving_way(musts), is_proven=True))
    holds = can_hold(musts)
    if holds is None and can_be is not None:
        holds = can_be(musts) or None
    if holds:
        return ()
    why = () if holds is None else tuple(_clash(musts))
    return (*why, *_exceptions(fewest(musts), is_proven=bool(why)))


def _short(question: Question) -> Iterator[Reason]:
    """Count the games that must go without a place, and say what they lack."""
    build = built(question, places.nights(question), by_night=True, missing=1)
    least = highs.relaxed(build.rows)
    if least is None or least.cost < 1e-6:
        return
    shortage = ceil(least.cost - 1e-6)
    prices = highs.prices(build.rows)
    if prices is None:
        return
    dear = [
        row for row, price in zip(build.rows.rows, prices, strict=True) if abs(price) > 1e-6
    ]
    owners = list(dict.fromkeys(row.owner for row in dear if row.owner != ONCE))
    columns = {column for row in dear if row.owner == CAPACITY for column in row.columns}
    nights = {
        question.starts[place].night
        for where in build.x.values()
        for place, column in where.items()
        if column in columns
    }
    yield Reason(
        rules=tuple(owners),
        says=f"{_without(shortage)}. {_about(build, dear)}{_lacking(question, nights)}"
        f"{_in_words(question, [one for one in owners if one != CAPACITY])}".strip(),
        shortage=shortage,
    )


def _about(build: Build, dear: list[Row]) -> str:
    """Name the teams of the games of which too many want the same, if they are few."""
    columns = {column for row in dear if row.owner == ONCE for column in row.columns}
    by_game = build.question.problem.by_game
    games = [game for game, where in build.x.items() if columns.intersection(where.values())]
    teams = sorted({f"{side}" for game in games for side in by_game[game].sides})
    return f"It is about games of {listed(tuple(teams))}. " if 0 < len(teams) <= FEW else ""


def _lacking(question: Question, nights: set[date]) -> str:
    """Say how many slots there are on nights that are too full."""
    if not nights:
        return ""
    weeks = sorted({question.problem.week_of(night) + 1 for night in nights})
    slots = sum(slot.night in nights for slot in question.slots)
    inside = sum(question.masks[start] for night in nights for start in question.nights[night])
    bound_to = sum(1 for free in question.free.values() if not free & ~inside)
    where = listed(tuple(map(str, weeks)))
    of = f"{'week' if len(weeks) == 1 else 'weeks'} {where}"
    games = f" for {counted(bound_to, 'game')} that can be on no other" if bound_to else ""
    if len(nights) == 1:
        return f"{day(next(iter(nights)))} has {counted(slots, 'slot')}{games}. "
    return f"{counted(len(nights), 'night')} of {of} have {counted(slots, 'slot')}{games}. "


def _clash(problem: TimetableProblem) -> Iterator[Reason]:
    found = clash(problem)
    if found == ():
        says = "The games do not fit into the starts, even without rules: no team plays two at once."
        yield Reason(rules=(AT_ONCE,), says=says)
    if found:
        by_name = {rule.rule: rule for rule in problem.rules}
        says = " ".join(KINDS[by_name[one].kind].sentence(by_name[one]) for one in found)
        opening = "These cannot all hold" if len(found) > 1 else "There is no room for this"
        yield Reason(rules=found, says=f"{opening}: {says}")


def _exceptions(found: GivesWay | None, *, is_proven: bool) -> Iterator[Reason]:
    """Say which rules would have to give way, and by how much, before there is a timetable."""
    least = 0 if found is None else max(found.least, int(is_proven))
    if found is None or not found.breaks or not least:
        return
    if found.total is None:
        opening = f"Rules would have to give way {counted(least, 'time')} at least"
    elif found.total == least:
        opening = f"There would be a timetable with {_exempt(least)}, and none with fewer"
    else:
        needed = "is" if least == 1 else "are"
        opening = (
            f"There would be a timetable with {_exempt(found.total)}, and {least} {needed} needed "
            "at least"
        )
    yield Reason(
        rules=tuple(rule.rule for rule, _ in found.breaks),
        says=f"{opening}: {'; '.join(_but_for(*one) for one in found.breaks[:MOST])}.",
        shortage=least if found.total == least else None,
    )


def _exempt(number: int) -> str:
    return counted(number, "exception")


def _but_for(rule: Rule, amount: int | None) -> str:
    sentence = KINDS[rule.kind].sentence(rule).removesuffix(".")
    return sentence if amount is None else f"{sentence} (but for {in_units(rule, amount)})"


def _in_words(question: Question, rules: list[str]) -> str:
    """Say the rules in their own sentences, four at most."""
    by_name = {one.rule.rule: one.rule for one in question.rules}
    known = [by_name[one] for one in rules if one in by_name][:4]
    return " ".join(KINDS[one.kind].sentence(one) for one in known)


def _without(games: int) -> str:
    return f"{counted(games, 'game')} {'has' if games == 1 else 'have'} no place"
