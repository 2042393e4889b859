"""Makes pools of sign-ups: who gets a place, who waits, and who meets whom.

Places go by the time of the sign-up, and so does the dealing into pools; sizes and order are
common practice, no source.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from wholeball.kernel.identity import BlockId, PoolId
from wholeball.league.division import Block
from wholeball.league.sign_up import SignUp

LEAST: Final = 4
MOST: Final = 8
USUAL: Final = 6
_LETTERS: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pool:
    """A pool of a block and its teams, first signed up first."""

    pool: PoolId
    teams: tuple[SignUp, ...]

    @property
    def byes(self) -> int:
        """How many byes each team has when all have met: one where their number is odd."""
        return len(self.teams) % 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """What becomes of a block's sign-ups; `waiting` is the wait list in its order.

    Where too few signed up for a pool, `pools` is empty and `teams` has those with a place.
    """

    block: BlockId
    teams: tuple[SignUp, ...]
    waiting: tuple[SignUp, ...]
    pools: tuple[Pool, ...]


def placed(block: Block, sign_ups: Iterable[SignUp], *, size: int = USUAL) -> Placed:
    """Return a block's pools and its wait list; pools have about `size` teams.

    Teams are dealt out in the order of their sign-ups, there and back, so that no pool has all
    the early ones.

    Raises:
        ValueError: `size` is no size of a pool.
    """
    asking = sorted(
        (one for one in sign_ups if one.block == block.block),
        key=lambda one: (one.at, one.team),
    )
    teams, waiting = tuple(asking[: block.places]), tuple(asking[block.places :])
    sizes = pool_sizes(len(teams), wanted=size)
    return Placed(
        block=block.block,
        teams=teams,
        waiting=waiting,
        pools=tuple(
            Pool(pool=_name(block.block, index, len(sizes)), teams=tuple(dealt))
            for index, dealt in enumerate(_dealt(teams, sizes))
        ),
    )


def pool_sizes(teams: int, *, wanted: int = USUAL) -> tuple[int, ...]:
    """Return the sizes of pools for so many teams, largest first; none where they are too few.

    Sizes differ by one at most and lie from 4 to 8. Among these the fewest pools are of odd
    size, since there a team has a bye each round; then the size nearest to `wanted` is taken.

    Raises:
        ValueError: `wanted` is no size of a pool.
    """
    if not LEAST <= wanted <= MOST:
        raise ValueError(f"a pool has {LEAST} to {MOST} teams, got {wanted}")
    choices = [
        _even(teams, pools) for pools in range(1, teams // LEAST + 1) if teams <= pools * MOST
    ]
    if not choices:
        return ()
    return min(choices, key=lambda sizes: _cost(sizes, wanted))


def _even(teams: int, pools: int) -> tuple[int, ...]:
    least, over = divmod(teams, pools)
    return (least + 1,) * over + (least,) * (pools - over)


def _cost(sizes: tuple[int, ...], wanted: int) -> tuple[bool, int, int]:
    """Byes that not all have come first, then byes, then the distance from what is wanted."""
    odd = [size % 2 for size in sizes]
    return len(set(odd)) > 1, sum(odd), sum(abs(size - wanted) for size in sizes)


def _dealt(teams: Sequence[SignUp], sizes: Sequence[int]) -> list[list[SignUp]]:
    dealt: list[list[SignUp]] = [[] for _ in sizes]
    left, there = iter(teams), True
    while any(len(pool) < size for pool, size in zip(dealt, sizes, strict=True)):
        order = range(len(sizes)) if there else reversed(range(len(sizes)))
        for index in order:
            if len(dealt[index]) < sizes[index]:
                dealt[index].append(next(left))
        there = not there
    return dealt


def _name(block: BlockId, index: int, pools: int) -> PoolId:
    """Name a pool for its block, with a letter where there are several."""
    return PoolId(str(block) if pools == 1 else f"{block} {_letters(index)}")


def _letters(index: int) -> str:
    """Return A to Z, then AA, AB and so on."""
    above, last = divmod(index, len(_LETTERS))
    return (_letters(above - 1) if above else "") + _LETTERS[last]
