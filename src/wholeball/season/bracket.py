"""Makes a bracket of seeds: who meets whom, round by round, before any team is known."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.league.fixture import From, OpenFixture, OpenSide, Seeded
from wholeball.season.fewest import cheapest

MOST: Final = 64
"""The most teams of one bracket, as many as a rulebook can have places."""
_MEETING: Final = 10**12
_STEP: Final = 10**6
_MOVED: Final = 10**4


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketGame:
    """One game of a bracket.

    A side is a seed or comes from another game. `for_third` marks the game of the two that
    lost before the final.
    """

    game: GameId
    round: int
    home: TeamId | OpenSide
    away: TeamId | OpenSide
    for_third: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A team that another seed keeps from meeting a team of its pool in the first round."""

    team: TeamId
    was: int
    now: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Seeding:
    """Teams by seed, best first; the teams that changed seeds; and who of one pool still meet."""

    teams: tuple[TeamId, ...]
    moved: tuple[Moved, ...] = ()
    meet: tuple[tuple[TeamId, TeamId], ...] = ()


def fold(size: int) -> tuple[int, ...]:
    """Return the seeds in the order of the bracket's lines; `size` is a power of two.

    A bracket twice as large puts beside each seed the one that completes it to 2 x size + 1,
    so that, if the better seed always wins, each game's seeds add up to one more than the
    teams that are left.
    """
    order: tuple[int, ...] = (1,)
    while len(order) < size:
        whole = 2 * len(order) + 1
        order = tuple(seed for one in order for seed in (one, whole - one))
    return order


def size_for(teams: int) -> int:
    """Return the least power of two that holds so many teams."""
    return 1 << max(teams - 1, 0).bit_length()


def byes(teams: int) -> int:
    """Return how many seeds, the best ones, have nobody to meet in the first round."""
    return size_for(teams) - teams


def first_round(teams: int) -> tuple[tuple[int, int], ...]:
    """Return the seeds that meet in the first round, in the bracket's order, better first."""
    order = fold(size_for(teams))
    pairs = zip(order[::2], order[1::2], strict=True)
    return tuple((high, low) for high, low in pairs if low <= teams)


def bracket(teams: int, *, third_place: bool, prefix: str = "P") -> tuple[BracketGame, ...]:
    """Return the games of a bracket, round by round; the one for third place before the final.

    With n teams there are n - 1 games, and one for third place from 4 teams on.

    Raises:
        WholeballError: fewer than 2 teams, or more than 64.
    """
    if not 2 <= teams <= MOST:
        raise WholeballError(
            f"A bracket of {teams} {'team' if teams == 1 else 'teams'} cannot be made.",
            fix=f"Let 2 to {MOST} teams go on, by qualify and places in [play_offs].",
            code="bracket_size",
        )
    return _Making(teams, prefix).games(third_place=third_place and teams > 3)


class _Making:
    """Numbers games as they are made."""

    def __init__(self, teams: int, prefix: str) -> None:
        self._teams = teams
        self._prefix = prefix
        self._games: list[BracketGame] = []

    def games(self, *, third_place: bool) -> tuple[BracketGame, ...]:
        order = fold(size_for(self._teams))
        lines: list[OpenSide | None] = [
            Seeded(seed=seed) if seed <= self._teams else None for seed in order
        ]
        number = 1
        while len(lines) > 1:
            if len(lines) == 2 and third_place:
                self._third(lines, number)
            pairs = zip(lines[::2], lines[1::2], strict=True)
            lines = [self._meeting(home, away, number) for home, away in pairs]
            number += 1
        return tuple(self._games)

    def _third(self, finalists: Iterable[OpenSide | None], number: int) -> None:
        home, away = (
            From(game=one.game, takes="loser") for one in finalists if isinstance(one, From)
        )
        self._add(home, away, number, for_third=True)

    def _meeting(
        self, home: OpenSide | None, away: OpenSide | None, number: int
    ) -> OpenSide | None:
        if home is None or away is None:
            return home or away
        return From(game=self._add(home, away, number))

    def _add(
        self, home: OpenSide, away: OpenSide, number: int, *, for_third: bool = False
    ) -> GameId:
        game = GameId(f"{self._prefix}{len(self._games) + 1}")
        self._games.append(
            BracketGame(game=game, round=number, home=home, away=away, for_third=for_third)
        )
        return game


def listed(fixtures: Iterable[OpenFixture]) -> tuple[BracketGame, ...]:
    """Return the games of a bracket as a timetable lists them, each before those that it feeds.

    Games that feed each other in a circle are left out.
    """
    waiting = [
        BracketGame(
            game=one.game,
            round=one.round,
            home=one.home,
            away=one.away,
            for_third=_is_loser(one.home) and _is_loser(one.away),
        )
        for one in fixtures
    ]
    ordered: dict[GameId, BracketGame] = {}
    while waiting:
        held = {one.game for one in waiting}
        ready = [one for one in waiting if not _fed_by(one) & held]
        if not ready:
            break
        ordered.update((one.game, one) for one in ready)
        waiting = [one for one in waiting if one.game not in ordered]
    return tuple(ordered.values())


def _fed_by(game: BracketGame) -> set[GameId]:
    return {side.game for side in (game.home, game.away) if isinstance(side, From)}


def _is_loser(side: TeamId | OpenSide) -> bool:
    return isinstance(side, From) and side.takes == "loser"


def kept_apart(teams: Sequence[TeamId], pools: Mapping[TeamId, PoolId]) -> Seeding:
    """Return the seeding in which the fewest teams of one pool meet in the first round.

    In every game of the first round the better seed stays; the others change seeds among
    themselves, by the fewest places in all, then the fewest teams. Teams with a bye keep it.
    They can be kept apart whenever no pool has more teams in the first round than it has
    games: the others of a pool then find enough games without a team of theirs (Hall).
    """
    pairs = first_round(len(teams))
    low = sorted(pair[1] for pair in pairs)
    against = {pair[1]: pools[teams[pair[0] - 1]] for pair in pairs}
    costs = [
        [_cost(was, now, same=pools[teams[was - 1]] == against[now]) for now in low]
        for was in low
    ]
    seeds = dict(zip(low, (low[place] for place in cheapest(costs)), strict=True))
    order = list(teams)
    for was, now in seeds.items():
        order[now - 1] = teams[was - 1]
    return Seeding(
        teams=tuple(order),
        moved=tuple(
            Moved(team=teams[was - 1], was=was, now=now)
            for was, now in seeds.items()
            if was != now
        ),
        meet=tuple(
            (order[high - 1], order[low - 1])
            for high, low in pairs
            if pools[order[high - 1]] == pools[order[low - 1]]
        ),
    )


def _cost(was: int, now: int, *, same: bool) -> int:
    """Weigh first a meeting, then places, then teams; last of all the better seed that moves."""
    moves = _MOVED + MOST - was if was != now else 0
    return _MEETING * same + _STEP * abs(was - now) + moves
