"""Gives games to teams that come into a season: against the teams of their pool that are in it."""

from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from itertools import count

from wholeball.files.folder import SeasonFolder
from wholeball.files.planning_toml import amount_of
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId, TeamId
from wholeball.planning.problem import Pairing, PlannedTeam, TimetableProblem
from wholeball.solvers.timetable.changes import Added


def newcomers(
    read: SeasonFolder,
    problem: TimetableProblem,
    come: Sequence[TeamId],
    *,
    leave: Collection[TeamId],
) -> Iterator[Added]:
    """Yield each team that comes in, with games against the teams of its pool but those that leave.

    Where teams play so many games each, it meets those with the fewest games first.

    Raises:
        WholeballError: a team has games already, or nobody to play.
    """
    games = Counter(
        TeamId(side) for one in problem.pairings for side in one.sides if isinstance(side, str)
    )
    for team in come:
        if games[team]:
            raise WholeballError(
                f"{team} has {games[team]} games in timetable.csv already.",
                fix="Only a team without a game can be added.",
                code="contradiction",
            )
    stay = {one.team for one in problem.teams} - {*come, *leave}
    taken = {f"{one.game}" for one in problem.pairings}
    names = (GameId(f"{number}") for number in count(1) if f"{number}" not in taken)
    for team in dict.fromkeys(come):
        planned = _planned(read, team)
        mates = [one for one in read.season.league.pools[planned.pool] if one in stay]
        if not mates:
            raise WholeballError(
                f"{team} has nobody to play: no other team of pool {planned.pool} is left.",
                fix="Put it into another pool in teams.csv.",
                code="infeasible",
            )
        against = _opponents(read, planned, sorted(mates, key=lambda one: games[one]))
        pairings = tuple(
            _pairing(next(names), planned, other, number)
            for number, other in enumerate(against, start=1)
        )
        games.update((*against, *(team for _ in against)))
        stay.add(team)
        yield Added(team=planned, games=pairings)


def _planned(read: SeasonFolder, team: TeamId) -> PlannedTeam:
    one = next(one for one in read.season.league.teams if one.team == team)
    return PlannedTeam(team=one.team, pool=one.pool, division=one.division, block=one.block)


def _opponents(read: SeasonFolder, team: PlannedTeam, mates: list[TeamId]) -> list[TeamId]:
    said = read.planning.said
    if said is None:
        return mates
    amount = amount_of(said.entry, team.pool)
    if amount.games_each is None:
        return mates * amount.meetings
    return mates[: amount.games_each]


def _pairing(game: GameId, team: PlannedTeam, other: TeamId, number: int) -> Pairing:
    """Return a game of the team, listed first in every second one; rounds end at 99."""
    sides = (team.team, other) if number % 2 else (other, team.team)
    return Pairing(
        game=game, home=sides[0], away=sides[1], round=min(number, 99), pool=team.pool
    )
