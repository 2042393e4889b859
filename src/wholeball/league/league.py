"""Holds a league as it is set up: its teams, the pools they play in, and its calendar."""

from dataclasses import dataclass
from datetime import date

from wholeball.kernel.identity import BlockId, DivisionId, PoolId, TeamId
from wholeball.league.division import Block, Division


@dataclass(frozen=True, slots=True, kw_only=True)
class Team:
    """A team as the league lists it; colours in words, second ones for a clash."""

    team: TeamId
    pool: PoolId
    colours: str = ""
    second_colours: str = ""
    division: DivisionId | None = None
    block: BlockId | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class League:
    """A league and its teams, in the order of its list.

    `timezone` is a name of the IANA time zone database; days are local. Divisions and blocks
    are empty where the league is played as one.
    """

    name: str
    timezone: str
    first_day: date
    last_day: date
    teams: tuple[Team, ...]
    divisions: tuple[Division, ...] = ()
    blocks: tuple[Block, ...] = ()

    @property
    def pools(self) -> dict[PoolId, tuple[TeamId, ...]]:
        """The teams of each pool, pools in the order in which they are first listed."""
        pools: dict[PoolId, list[TeamId]] = {}
        for team in self.teams:
            pools.setdefault(team.pool, []).append(team.team)
        return {pool: tuple(teams) for pool, teams in pools.items()}
