"""Shows who signed up for which block: teams in the order in which they came, players alone."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.kernel.identity import BlockId
from wholeball.league.division import Block
from wholeball.league.pools import placed
from wholeball.league.record import LeagueRecord
from wholeball.league.sign_up import Alone, SignUp

State: TypeAlias = Literal["before", "on", "over"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamAsks:
    """A team that asks for a block, and what becomes of that; `others` are blocks it asks for too."""

    sign_up: SignUp
    state: State
    word: str
    others: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockAsked:
    """A block with those who ask for it, first come first."""

    block: Block
    teams: tuple[TeamAsks, ...]
    alone: tuple[Alone, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SignUpsShown:
    """The blocks that somebody asks for, and the names of all blocks."""

    asked: tuple[BlockAsked, ...]
    blocks: tuple[str, ...]

    @property
    def count(self) -> int:
        """How many sign-ups there are, of teams and of players alone."""
        return sum(len(one.teams) + len(one.alone) for one in self.asked)

    def team(self, block: str, team: str) -> SignUp | None:
        """Return a team's sign-up for a block, or None where there is none."""
        every = (team.sign_up for one in self.asked for team in one.teams)
        return next((one for one in every if (one.block, one.team) == (block, team)), None)

    def player(self, block: str, person: str) -> Alone | None:
        """Return the sign-up of a player without a team, or None where there is none."""
        every = (player for one in self.asked for player in one.alone)
        return next((one for one in every if (one.block, one.person) == (block, person)), None)


def show_sign_ups(record: LeagueRecord) -> SignUpsShown:
    """Return who asks for which block.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    read = read_folder(record)
    blocks = read.season.league.blocks
    every = (
        BlockAsked(
            block=block,
            teams=tuple(_teams(read, block)),
            alone=tuple(
                sorted(
                    (one for one in read.alone if one.block == block.block),
                    key=lambda one: (one.at, one.name),
                )
            ),
        )
        for block in blocks
    )
    return SignUpsShown(
        asked=tuple(one for one in every if one.teams or one.alone),
        blocks=tuple(str(one.block) for one in blocks),
    )


def _teams(read: SeasonFolder, block: Block) -> Iterator[TeamAsks]:
    plays = {one.team.casefold(): one.block for one in read.season.league.teams}
    found = placed(block, read.sign_ups)
    for one in (*found.teams, *found.waiting):
        state, word = _becomes(one, plays, waits=one in found.waiting)
        others = (
            str(other.block)
            for other in read.sign_ups
            if other.team.casefold() == one.team.casefold() and other.block != one.block
        )
        yield TeamAsks(sign_up=one, state=state, word=word, others=tuple(others))


def _becomes(
    sign_up: SignUp, plays: Mapping[str, BlockId | None], *, waits: bool
) -> tuple[State, str]:
    """Say whether a team plays, by the teams of the season, or by the order of the sign-ups."""
    key = sign_up.team.casefold()
    if key in plays:
        return "over", "plays here" if plays[key] == sign_up.block else "plays elsewhere"
    if plays:
        return "before", "not taken in"
    return ("before", "waits") if waits else ("on", "has a place")
