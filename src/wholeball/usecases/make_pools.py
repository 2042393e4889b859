"""Makes pools of the sign-ups in a season folder: who gets a place, who waits, who is offered."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from wholeball.files.blocks import FILE as BLOCKS_FILE
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.sign_ups import FILE as SIGN_UPS_FILE
from wholeball.files.table import write_table
from wholeball.files.teams import COLUMNS as TEAM_COLUMNS
from wholeball.files.teams import FILE as TEAMS_FILE
from wholeball.kernel.faults import Fault, WholeballError
from wholeball.league.division import Block
from wholeball.league.pools import LEAST, MOST, USUAL, Placed, placed
from wholeball.league.record import LeagueRecord
from wholeball.league.without_team import Offers, offers
from wholeball.rulebook.tables.people import Roster

_HEADER: Final = tuple(column.name for column in TEAM_COLUMNS)


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockMade:
    """What becomes of a block: its places and pools, and what there is for players alone."""

    block: Block
    placed: Placed
    offers: Offers


@dataclass(frozen=True, slots=True, kw_only=True)
class PoolsMade:
    """What becomes of all sign-ups, block by block; `written` is None where nothing was."""

    league: str
    blocks: tuple[BlockMade, ...]
    remarks: tuple[Fault, ...]
    written: str | None = None


def make_pools(record: LeagueRecord, *, size: int = USUAL, writes: bool = False) -> PoolsMade:
    """Return the pools of about `size` teams that the sign-ups make; write teams.csv if asked.

    Raises:
        InputFaults: everything that is wrong with the folder, or would be with the teams.
        WholeballError: no such folder, blocks or sign-ups; or, to write: the teams are listed
            already, a block has too few, or one team has two places.
    """
    if not LEAST <= size <= MOST:
        raise WholeballError(
            f"A pool of {size} teams cannot be made.",
            fix=f"Nothing was written. Give a size of {LEAST} to {MOST}.",
            code="range",
        )
    if not writes:
        return _made(read_folder(record), size)
    with record.held():
        read = read_folder(record)
        made = _made(read, size)
        _refuse_to_write(read, made)
        data = write_table(_HEADER, _rows(made.blocks))
        read_folder(record, instead={TEAMS_FILE: data})
        record.write({TEAMS_FILE: data})
    return PoolsMade(
        league=made.league,
        blocks=made.blocks,
        remarks=made.remarks,
        written=record.called(TEAMS_FILE),
    )


def _made(read: SeasonFolder, size: int) -> PoolsMade:
    blocks = read.season.league.blocks
    if not blocks or not read.sign_ups:
        missing = BLOCKS_FILE if not blocks else SIGN_UPS_FILE
        raise WholeballError(
            f"{missing} lists nothing, so there are no pools to make.",
            fix="Nothing was written. Write down the blocks, and who signed up for which.",
            code="missing",
        )
    rules = read.season.rulebook.roster
    return PoolsMade(
        league=read.season.league.name,
        blocks=tuple(_block(read, block, size, rules) for block in blocks),
        remarks=read.remarks,
    )


def _block(read: SeasonFolder, block: Block, size: int, rules: Roster) -> BlockMade:
    found = placed(block, read.sign_ups, size=size)
    least = max(rules.minimum, 1)
    most = max(least, len(read.alone)) if rules.maximum == "no_limit" else rules.maximum
    return BlockMade(
        block=block,
        placed=found,
        offers=offers(
            block.block,
            read.alone,
            found.teams,
            least=least,
            most=most,
            places=block.places - len(found.teams),
        ),
    )


def _refuse_to_write(read: SeasonFolder, made: PoolsMade) -> None:
    if read.season.league.teams:
        raise WholeballError(
            f"{TEAMS_FILE} lists {len(read.season.league.teams)} teams already, and pools are "
            "made once.",
            fix="Nothing was written. Edit teams.csv, or take its rows out to make them anew.",
            code="made_already",
        )
    few = [one for one in made.blocks if one.placed.teams and not one.placed.pools]
    if few:
        told = ", ".join(f"{one.block.block} has {len(one.placed.teams)}" for one in few)
        raise WholeballError(
            f"A pool needs {LEAST} teams: {told}.",
            fix="Nothing was written. Offer those teams another block in sign_ups.csv.",
            code="too_few",
        )
    twice = _twice(made.blocks)
    if twice:
        raise WholeballError(
            f"{', '.join(twice)} would have a place in two blocks.",
            fix="Nothing was written. Take one of its rows out of sign_ups.csv.",
            code="duplicate",
        )


def _twice(blocks: Sequence[BlockMade]) -> list[str]:
    names = [one.team.casefold() for made in blocks for one in made.placed.teams]
    every = {one.team.casefold(): one.team for made in blocks for one in made.placed.teams}
    return [team for key, team in every.items() if names.count(key) > 1]


def _rows(blocks: Sequence[BlockMade]) -> Iterator[tuple[str, ...]]:
    """Yield the rows of teams.csv, pool by pool, in the order of its columns."""
    for made in blocks:
        for pool in made.placed.pools:
            for one in pool.teams:
                yield (
                    one.team,
                    pool.pool,
                    one.colours,
                    one.second_colours,
                    made.block.division,
                    made.block.block,
                )
