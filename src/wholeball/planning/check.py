"""Checks a plan against its question, whoever made it; it shares no code with any model."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import datetime
from itertools import pairwise

from wholeball.kernel.identity import GameId, TeamId
from wholeball.planning.answer import Broken, Line, Report
from wholeball.planning.days import clock, day
from wholeball.planning.kinds import KINDS
from wholeball.planning.placed import Placed
from wholeball.planning.problem import Placement, Start, TimetableProblem
from wholeball.planning.rule import Rule


def check(problem: TimetableProblem, placements: Iterable[Placement]) -> Report:
    """Return every rule that a plan breaks, and what each wish costs; no `broken` is a pass.

    What games break that have all been played is past, and no plan can mend it.

    Raises:
        KeyError: the problem has a rule of an unknown kind.
        ValidationError: a rule has parameters that its kind has not.
    """
    plan = tuple(placements)
    broken = [*_once(problem, plan), *_places(problem, plan), *_locks(problem, plan)]
    lines: list[Line] = []
    placed = Placed(problem, plan)
    broken += _at_once(placed)
    for rule in problem.rules:
        musts, wishes = _judged(rule, placed)
        broken += musts
        lines += wishes
    return Report(broken=tuple(broken), lines=tuple(lines))


def _judged(rule: Rule, placed: Placed) -> tuple[list[Broken], list[Line]]:
    kind = KINDS[rule.kind]
    found = list(dict.fromkeys(kind.breaks(rule, kind.read(rule), placed)))
    if rule.strength == "must":
        return [
            Broken(rule=rule.rule, games=one.games, says=one.says)
            for one in found
            if not one.games or not placed.problem.played.issuperset(one.games)
        ], []
    return [], [
        Line(
            rule=rule.rule,
            about=one.about,
            times=one.times,
            cost=one.times * rule.cost,
            says=one.says,
        )
        for one in found
    ]


def _at_once(placed: Placed) -> Iterator[Broken]:
    """Find teams that would play two games at one time, whatever the rules say."""
    by_team: dict[TeamId, list[tuple[datetime, datetime, GameId]]] = defaultdict(list)
    for one in placed.games:
        slot = placed.slot(one)
        begins = datetime.combine(one.start.night, one.start.at)
        ends = begins if slot is None else slot.ends
        for side in one.pairing.sides:
            if isinstance(side, str):
                by_team[TeamId(side)].append((begins, ends, one.game))
    for team, games in by_team.items():
        for (one_begins, one_ends, one_game), (begins, _, game) in pairwise(sorted(games)):
            if one_game != game and (begins < one_ends or begins == one_begins):
                says = f"{team} plays games {one_game} and {game} at one time."
                yield Broken(rule="at once", games=(one_game, game), says=says)


def _once(problem: TimetableProblem, plan: tuple[Placement, ...]) -> Iterator[Broken]:
    times: dict[GameId, int] = defaultdict(int)
    for one in plan:
        times[one.game] += 1
    for game in problem.by_game:
        if times[game] == 0:
            yield Broken(rule="once", games=(game,), says=f"Game {game} has no place.")
    for game, count in times.items():
        if game not in problem.by_game:
            yield Broken(
                rule="once", games=(game,), says=f"Game {game} is no game of this season."
            )
        elif count > 1:
            yield Broken(rule="once", games=(game,), says=f"Game {game} has {count} places.")


def _places(problem: TimetableProblem, plan: tuple[Placement, ...]) -> Iterator[Broken]:
    """Find places that there are not, and those that several games share."""
    taken: dict[tuple[Start, str], list[GameId]] = defaultdict(list)
    for one in plan:
        taken[one.start, one.field].append(one.game)
    for (start, field), games in taken.items():
        where = f"{field} on {day(start.night)} at {clock(start.at)}"
        if (start, field) not in problem.slot_at:
            yield Broken(rule="places", games=tuple(games), says=f"{where} cannot be used.")
        if len(games) > 1:
            says = f"{where} has {len(games)} games."
            yield Broken(rule="capacity", games=tuple(games), says=says)


def _locks(problem: TimetableProblem, plan: tuple[Placement, ...]) -> Iterator[Broken]:
    at = {one.game: one for one in plan}
    for lock in problem.locks:
        one = at.get(lock.game)
        if one is None:
            continue
        if one.start != lock.start or lock.field not in (None, one.field):
            says = f"Game {lock.game} is {lock.why} elsewhere."
            yield Broken(rule="lock", games=(lock.game,), says=says)
