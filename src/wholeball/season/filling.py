"""Fills the sides of a bracket's games from the draw and from the games before them."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import Fixture, From, OpenFixture, OpenSide, Seeded
from wholeball.season.result import Result


def winner_of(result: Result) -> TeamId | None:
    """Return who won a game: by forfeit, goals, or kicks; None where nobody did."""
    if result.how in ("double_forfeit", "annulled"):
        return None
    if result.by is not None:
        return result.away if result.by == "home" else result.home
    lead = result.home_goals - result.away_goals
    if not lead and result.kicks is not None:
        lead = result.kicks[0] - result.kicks[1]
    if not lead:
        return None
    return result.home if lead > 0 else result.away


def loser_of(result: Result) -> TeamId | None:
    """Return who lost a game, or None where nobody won."""
    winner = winner_of(result)
    if winner is None:
        return None
    return result.away if winner == result.home else result.home


class Nobody(NamedTuple):
    """A side that a game should have brought and did not, for it has no winner."""

    fixture: OpenFixture
    side: From
    result: Result


class Otherwise(NamedTuple):
    """A game whose sides were written down, and who they would be by the games before it."""

    fixture: OpenFixture
    stated: tuple[TeamId, TeamId]
    found: tuple[TeamId, TeamId]


@dataclass(slots=True)
class Filling:
    """The games of a bracket whose sides are still to be known, as results make them known.

    `brackets` are the draws by name, best seed first. `stated` are sides that somebody wrote
    down with a result: they stand, whatever the games before come to.
    """

    fixtures: tuple[OpenFixture, ...]
    brackets: Mapping[str, tuple[TeamId, ...]] = field(default_factory=dict)
    stated: Mapping[GameId, tuple[TeamId, TeamId]] = field(default_factory=dict)
    filled: dict[GameId, Fixture] = field(default_factory=dict)
    _ended: dict[GameId, Result] = field(default_factory=dict)

    def take(self, results: Iterable[Result]) -> list[Fixture]:
        """Take results, and return the games whose sides they make known, each once."""
        self._ended.update((one.game, one) for one in results)
        found = [made for one in self.still_open() if (made := self._made(one)) is not None]
        self.filled.update((one.game, one) for one in found)
        return found

    def still_open(self) -> list[OpenFixture]:
        """Return the games with a side that nobody knows yet, in the order given."""
        return [one for one in self.fixtures if one.game not in self.filled]

    def nobody(self) -> Iterator[Nobody]:
        """Return the open sides that an ended game should have brought and did not."""
        for fixture in self.still_open():
            for side in (fixture.home, fixture.away):
                if isinstance(side, From) and side.game in self._ended:
                    result = self._ended[side.game]
                    if winner_of(result) is None:
                        yield Nobody(fixture, side, result)

    def against_itself(self) -> Iterator[tuple[OpenFixture, TeamId]]:
        """Return the open games both of whose sides have come to be the same team."""
        for fixture in self.still_open():
            home = self._team(fixture.home)
            if home is not None and home == self._team(fixture.away):
                yield fixture, home

    def otherwise(self) -> Iterator[Otherwise]:
        """Return the games whose stated sides are not those that the games before bring."""
        for fixture in self.fixtures:
            stated = self.stated.get(fixture.game)
            if stated is not None:
                home = self._team(fixture.home) or stated[0]
                away = self._team(fixture.away) or stated[1]
                if (home, away) != stated:
                    yield Otherwise(fixture, stated, (home, away))

    def _made(self, one: OpenFixture) -> Fixture | None:
        home, away = self.stated.get(one.game) or (self._team(one.home), self._team(one.away))
        if home is None or away is None or home == away:
            return None
        return Fixture(
            game=one.game,
            round=one.round,
            day=one.day,
            start=one.start,
            field=one.field,
            home=home,
            away=away,
            stage="play_off",
        )

    def _team(self, side: TeamId | OpenSide) -> TeamId | None:
        match side:
            case Seeded(seed=seed, bracket=bracket):
                teams = self.brackets.get(bracket, ())
                return teams[seed - 1] if 1 <= seed <= len(teams) else None
            case From(game=game, takes=takes):
                result = self._ended.get(game)
                if result is None:
                    return None
                return winner_of(result) if takes == "winner" else loser_of(result)
            case _:
                return side
