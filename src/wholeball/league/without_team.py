"""Finds a team for players who signed up alone: a short one, or one of their own."""

from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from wholeball.kernel.identity import BlockId, TeamId
from wholeball.league.sign_up import Alone, SignUp


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A player who is offered to a team that is short."""

    player: Alone
    team: TeamId


@dataclass(frozen=True, slots=True, kw_only=True)
class Offers:
    """What a block has for its players without a team; each player stands in one of the three.

    `formed` holds teams of their own, `left` those for whom there is nothing yet.
    """

    block: BlockId
    offers: tuple[Offer, ...]
    formed: tuple[tuple[Alone, ...], ...]
    left: tuple[Alone, ...]


def offers(
    block: BlockId,
    alone: Iterable[Alone],
    teams: Iterable[SignUp],
    *,
    least: int,
    most: int,
    places: int,
) -> Offers:
    """Return who is offered to which team of a block, and which teams can be formed.

    Those who came first are offered first, each to the team that lacks most; a team lacks what
    it has below `least`. Of the rest, teams of `least` to `most` are formed as long as there
    are `places` for them.

    Raises:
        ValueError: `least` is below 1 or above `most`.
    """
    if not 1 <= least <= most:
        raise ValueError(f"a team has 1 or more players, got {least} to {most}")
    waiting = deque(
        sorted(
            (one for one in alone if one.block == block), key=lambda one: (one.at, one.person)
        )
    )
    lacking = {
        one.team: least - one.players
        for one in sorted(teams, key=lambda one: (one.at, one.team))
        if one.block == block and one.players < least
    }
    offered = []
    while waiting and any(lacking.values()):
        team = max(lacking, key=lambda one: lacking[one])
        lacking[team] -= 1
        offered.append(Offer(player=waiting.popleft(), team=team))
    formed = _formed(list(waiting), least=least, most=most, places=places)
    taken = sum(map(len, formed))
    return Offers(
        block=block,
        offers=tuple(offered),
        formed=formed,
        left=tuple(waiting)[taken:],
    )


def _formed(
    waiting: list[Alone], *, least: int, most: int, places: int
) -> tuple[tuple[Alone, ...], ...]:
    """Return as many teams as there are places and players for, of nearly one size."""
    teams = min(places, len(waiting) // least)
    if teams < 1:
        return ()
    players = min(len(waiting), teams * most)
    size, over = divmod(players, teams)
    ends = [size * index + min(index, over) for index in range(teams + 1)]
    return tuple(tuple(waiting[a:b]) for a, b in pairwise(ends))
