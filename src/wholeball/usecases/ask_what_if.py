"""Asks what a season could bear: how many more teams, and which one thing more helps most."""

from collections import Counter
from dataclasses import dataclass
from datetime import datetime

from wholeball.files.folder import read_folder
from wholeball.files.problem import problem_of
from wholeball.league.record import LeagueRecord
from wholeball.planning.problem import TimetableProblem
from wholeball.solvers.timetable.budget import Budget
from wholeball.solvers.timetable.what_if import Help, helps, more_pools
from wholeball.usecases.plan_timetable import from_now


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """How many more pools fit, each of so many teams with so many games, some nights kept free."""

    pools: int
    teams: int
    games_each: int
    rain: int


def room_for_teams(record: LeagueRecord, *, rain: int, now: datetime) -> Room:
    """Return how many more pools like the largest fit, with `rain` nights in a hundred kept free.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is nothing to plan by.
    """
    problem = _problem(record, now)
    teams = max(Counter(one.pool for one in problem.teams).values())
    games = Counter(
        side
        for one in problem.pairings
        if one.pool
        for side in one.sides
        if isinstance(side, str)
    )
    most = max(games.values(), default=1)
    games_each = most - 1 if teams * most % 2 and most > 1 else most
    pools = more_pools(problem, teams=teams, games_each=games_each, rain=rain)
    return Room(pools=pools, teams=teams, games_each=games_each, rain=rain)


def what_helps(record: LeagueRecord, budget: Budget, *, now: datetime) -> tuple[Help, ...]:
    """Return single things more that make the timetable cheaper or possible, best first.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is nothing to plan by.
    """
    return helps(_problem(record, now), budget=budget)


def _problem(record: LeagueRecord, now: datetime) -> TimetableProblem:
    read = read_folder(record)
    return problem_of(read, on=from_now(read, now), as_planned=True)
