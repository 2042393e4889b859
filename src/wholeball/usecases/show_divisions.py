"""Shows the divisions of a season as they were said, with their blocks and their teams."""

from dataclasses import dataclass

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.kernel.identity import DivisionId, TeamId
from wholeball.league.division import Block, Kind
from wholeball.league.record import LeagueRecord


@dataclass(frozen=True, slots=True, kw_only=True)
class DivisionTold:
    """What somebody says of a division; without a `league` it is of the season's."""

    division: str
    league: str = ""
    level: str = ""
    kind: Kind = "open"


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockShown:
    """A block, how many teams play in it, and how many teams and players alone ask for it."""

    block: Block
    teams: int
    asked: int

    @property
    def too_many(self) -> int:
        """The teams that it has no place for."""
        return max(self.teams - self.block.places, 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class DivisionSet:
    """A division as it was said, with its teams and its blocks."""

    told: DivisionTold
    teams: tuple[TeamId, ...]
    blocks: tuple[BlockShown, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DivisionsShown:
    """The divisions of a season in their order, and the teams that are in none."""

    divisions: tuple[DivisionSet, ...]
    loose: tuple[TeamId, ...]

    @property
    def blocks(self) -> tuple[BlockShown, ...]:
        """Every block of the season, division by division."""
        return tuple(block for one in self.divisions for block in one.blocks)


def show_divisions(record: LeagueRecord) -> DivisionsShown:
    """Return the divisions and blocks of a season.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    read = read_folder(record)
    league = read.season.league
    return DivisionsShown(
        divisions=tuple(
            DivisionSet(
                told=DivisionTold(
                    division=one.division,
                    league="" if one.league == league.name else one.league,
                    level=one.level,
                    kind=one.kind,
                ),
                teams=teams_in(read, one.division),
                blocks=tuple(
                    _block(read, block)
                    for block in league.blocks
                    if block.division == one.division
                ),
            )
            for one in league.divisions
        ),
        loose=teams_in(read, None),
    )


def teams_in(read: SeasonFolder, division: DivisionId | None) -> tuple[TeamId, ...]:
    """Return the teams of a division, or those of none."""
    return tuple(one.team for one in read.season.league.teams if one.division == division)


def _block(read: SeasonFolder, block: Block) -> BlockShown:
    return BlockShown(
        block=block,
        teams=sum(one.block == block.block for one in read.season.league.teams),
        asked=sum(one.block == block.block for one in read.sign_ups)
        + sum(one.block == block.block for one in read.alone),
    )
