"""Makes the games that planning.toml asks for, and says where a timetable lists others."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from wholeball.files.planning_toml import FILE as PLANNING_FILE
from wholeball.files.planning_toml import PlanningToml, amount_of
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import PoolId, TeamId
from wholeball.league.fixture import OpenSide
from wholeball.planning.pairings import pairings
from wholeball.planning.problem import Pairing
from wholeball.rulebook.sentence import counted

Pools = Mapping[PoolId, Sequence[TeamId]]
_FEW: Final = 4
"""How many differences are told at most."""


def league_games(
    said: PlanningToml, pools: Pools, *, places: int, beside: Iterable[Pairing]
) -> tuple[Pairing, ...]:
    """Return the games of the league; those `beside` have their names already.

    Raises:
        WholeballError: there is no team, the games cannot be counted out, or there are fewer
            places than games.
    """
    if not pools:
        raise WholeballError(
            "There is no team to plan for: teams.csv has no row.",
            fix="Give it a row for each team.",
            code="missing_file",
        )
    amounts = {pool: _amount(said, pool, len(teams)) for pool, teams in pools.items()}
    needed = sum(games for _, _, games in amounts.values())
    if needed > places:
        raise _infeasible(
            f"{counted(needed, 'game needs', 'games need')} {counted(needed, 'place')}, and "
            f"there {'is' if places == 1 else 'are'} {places:,}: {needed - places:,} too few.",
            "Open more fields or nights in slots.csv, or let each team play fewer games.",
        )
    taken = [int(one.game) for one in beside if one.game.isdecimal()]
    first = 1 + max(taken, default=0)
    found: list[Pairing] = []
    for pool, (games_each, meetings, _) in amounts.items():
        found += pairings(
            {pool: pools[pool]},
            games_each=games_each,
            meetings=meetings,
            first=first + len(found),
        )
    return tuple(found)


def games_each(said: PlanningToml, pool: PoolId, teams: int) -> int:
    """Return how many games each team of a pool of so many is to play."""
    amount = amount_of(said.entry, pool)
    meets = (teams - 1) * amount.meetings
    return meets if amount.games_each is None else amount.games_each


def refused(differences: Sequence[str]) -> WholeballError:
    """Return the refusal to plan other games than a timetable has, some of them played."""
    return WholeballError(
        f"Games have been played, and {' '.join(differences)}",
        fix=f"Let {PLANNING_FILE} say what {TIMETABLE_FILE} has, or write the games that come or "
        f"go into {TIMETABLE_FILE}, and plan again. Nothing was written.",
        code="contradiction",
    )


def differences(said: PlanningToml, pools: Pools, listed: Iterable[Pairing]) -> tuple[str, ...]:
    """Say where listed games are other than planning.toml asks for, four times at most.

    A pool is told where no team of it has as many games as it asks for: one that comes or leaves
    changes only those of some. Where a team has no game it has left, and its pool is what it is.
    """
    here = tuple(listed)
    found = [*_of_pools(said, pools, here), *_of_play_offs(said, here)]
    if len(found) > _FEW:
        more = counted(len(found) - _FEW, "difference")
        return (*found[:_FEW], f"There are {more} more.")
    return tuple(found)


def numbered(said: PlanningToml, listed: Iterable[Pairing]) -> tuple[Pairing, ...]:
    """Return listed games, play-offs that are as asked with the rounds that planning.toml gives."""
    asked = {one.game: one for one in said.play_offs}
    return tuple(_numbered(one, asked.get(one.game)) for one in listed)


def _numbered(one: Pairing, other: Pairing | None) -> Pairing:
    is_open = one.pool is None and any(map(_is_open, one.sides))
    if other is None or not is_open or not _is_alike(one, other):
        return one
    return replace(one, round=other.round)


def _of_pools(said: PlanningToml, pools: Pools, listed: tuple[Pairing, ...]) -> Iterator[str]:
    games: Counter[str] = Counter()
    for one in listed:
        games.update(str(side) for side in one.sides if one.pool is not None)
    for pool, teams in pools.items():
        have = [games[team] for team in teams]
        wanted = games_each(said, pool, len(teams))
        is_new = not any(have) and len(teams) > 1
        if is_new or (all(have) and wanted not in have):
            most = max(have)
            yield (
                f"{PLANNING_FILE} asks for {counted(wanted, 'game')} of each team of pool "
                f"{pool}, and {TIMETABLE_FILE} has {most or 'none'}."
            )


def _of_play_offs(said: PlanningToml, listed: tuple[Pairing, ...]) -> Iterator[str]:
    """Compare the sides that are open still; a bracket that is listed only stands as it is."""
    asked = {one.game: one for one in said.play_offs}
    for one in listed:
        if one.pool is not None or not asked or not any(map(_is_open, one.sides)):
            continue
        other = asked.get(one.game)
        if other is None:
            says = f"game {one.game} is no play-off of {PLANNING_FILE}"
            yield f"{TIMETABLE_FILE} has {one.home} v {one.away}: {says}."
        elif one.round != other.round or not _is_alike(one, other):
            yield (
                f"game {one.game} is {other.home} v {other.away} of round {other.round} in "
                f"{PLANNING_FILE} and {one.home} v {one.away} of round {one.round} in "
                f"{TIMETABLE_FILE}."
            )


def _is_alike(one: Pairing, other: Pairing) -> bool:
    both = zip(one.sides, other.sides, strict=True)
    return all(mine == its for mine, its in both if _is_open(mine))


def _is_open(side: TeamId | OpenSide) -> bool:
    return not isinstance(side, str)


def _amount(said: PlanningToml, pool: PoolId, number: int) -> tuple[int | None, int, int]:
    """Return the games each, the meetings, and how many games a pool has in all."""
    amount = amount_of(said.entry, pool)
    if number < 2:
        raise _infeasible(
            f"Pool {pool} has {counted(number, 'team')}, and nobody to play.",
            "Give it another team in teams.csv, or put the team into another pool.",
        )
    if number % 2 and not said.entry.byes:
        raise _infeasible(
            f"Pool {pool} has {number} teams, an odd number, which needs byes.",
            "Write byes = true in planning.toml, or add a team.",
        )
    if amount.games_each is None:
        return None, amount.meetings, number * (number - 1) // 2 * amount.meetings
    if number * amount.games_each % 2:
        raise _infeasible(
            f"The {number} teams of pool {pool} cannot play {amount.games_each} games each: "
            "both are odd.",
            "Change games_each by one, or the number of teams.",
        )
    return amount.games_each, 1, number * amount.games_each // 2


def _infeasible(says: str, fix: str) -> WholeballError:
    return WholeballError(
        says, fix=f"{fix} {TIMETABLE_FILE} was not touched.", code="infeasible"
    )
