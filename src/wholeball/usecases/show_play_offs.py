"""Shows the play-off games of a plan, by brackets and rounds, and whether places are long enough."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import TypeAlias

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.open_sides import open_side
from wholeball.files.problem import played_games
from wholeball.kernel.days import day_of_season
from wholeball.kernel.identity import TeamId
from wholeball.league.fixture import Fixture, From, OpenFixture, OpenSide, Seeded
from wholeball.league.record import LeagueRecord
from wholeball.reports.play_off_words import meeting_words
from wholeball.usecases.bracket_offered import BracketOffered, brackets_offered, league_ends
from wholeball.usecases.play_off_lengths import LengthShown, length_of
from wholeball.usecases.set_play_offs import PlayOffTold, play_offs_of

Listed: TypeAlias = Fixture | OpenFixture
Meeting: TypeAlias = tuple[str, object, object]
"""Which game it is and who meets in it, whatever its round."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GameShown:
    """A play-off game: who meets in it, and what the timetable has of it.

    `name` is "final" or "for third place" where the bracket has the game so. `place` is when and
    where it is played, empty where the timetable has none, and `teams` are those that meet there,
    once both are known. Until then `there` is who meets in it there, where that is not as planned,
    and `other_round` the round that it has there, where that is another. One that `is_beside` is in
    no bracket, where there are some.
    """

    game: str
    round: int
    says: str
    name: str = ""
    place: str = ""
    teams: str = ""
    there: str = ""
    other_round: int | None = None
    is_played: bool = False
    is_beside: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundShown:
    """The games of one round of a bracket."""

    number: int
    games: tuple[GameShown, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketShown:
    """The games of a bracket by rounds; `bracket` is empty where the season has one, or none alone."""

    bracket: str
    rounds: tuple[RoundShown, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayOffsShown:
    """The play-offs of a plan.

    `offered` are the brackets as the rulebook has them, none where nobody plays off; `as_bracket`
    says that the plan has just their games. `alone` are games that the timetable has and the plan
    has not. `overlap` is the first round of the play-offs where it does not come after
    `last_round`, the league's last in the timetable.
    """

    brackets: tuple[BracketShown, ...]
    alone: tuple[GameShown, ...]
    games: int
    teams: int
    offered: tuple[BracketOffered, ...]
    has_play_offs: bool
    as_bracket: bool
    length: LengthShown
    overlap: int | None
    last_round: int
    has_begun: bool

    @property
    def can_be_taken(self) -> bool:
        """Whether some bracket has games."""
        return any(one.games for one in self.offered)

    @property
    def is_to_be_taken(self) -> bool:
        """Whether the plan has other games than the brackets."""
        return self.can_be_taken and not self.as_bracket

    @property
    def is_apart(self) -> bool:
        """Whether the games stand apart by brackets."""
        return any(one.bracket for one in self.brackets)

    @property
    def others(self) -> int:
        """How many games the timetable has with other sides."""
        return sum(bool(one.there) for one in self._games)

    @property
    def renumbered(self) -> int:
        """How many games the timetable has in another round."""
        return sum(one.other_round is not None for one in self._games)

    @property
    def _games(self) -> Iterator[GameShown]:
        return (one for each in self.brackets for here in each.rounds for one in here.games)


def show_play_offs(record: LeagueRecord) -> PlayOffsShown:
    """Return the play-offs of a plan, and what the rulebook and the slots say of them.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    read = read_folder(record)
    offered, planned, ends = brackets_offered(read), play_offs_of(read), league_ends(read)
    listed = _listed(read)
    played = played_games(read)
    first = min((one.round for one in planned), default=0)
    names = {one.game for one in planned}
    return PlayOffsShown(
        brackets=tuple(_by_bracket(planned, offered, listed, played)),
        alone=tuple(_alone(one, played) for name, one in listed.items() if name not in names),
        games=len(planned),
        teams=len(read.season.league.teams),
        offered=offered,
        has_play_offs=read.season.rulebook.play_offs.qualify != "none",
        as_bracket=bool(planned) and {*map(meeting, planned)} == {*_names(offered)},
        length=length_of(read, without=sum(one.game not in listed for one in planned)),
        overlap=first if planned and ends.is_listed and first <= ends.round else None,
        last_round=ends.round,
        has_begun=bool(played),
    )


def meeting(one: PlayOffTold) -> Meeting:
    """Return which game it is and who meets in it, whatever its round."""
    return one.game, _side(one.home), _side(one.away)


def sides_said(one: PlayOffTold, *, within: str = "") -> str:
    """Return who meets in a game; `within` is the bracket that is named above."""
    return meeting_words(_side(one.home), _side(one.away), within=within)


def _side(text: str) -> TeamId | OpenSide:
    return open_side(text) or TeamId(text)


def _listed(read: SeasonFolder) -> dict[str, Listed]:
    """Return the play-off games of the timetable by their names."""
    known = [one for one in read.timetable if one.stage == "play_off"]
    both: tuple[Listed, ...] = (*known, *read.open_fixtures)
    return {one.game: one for one in sorted(both, key=lambda one: (one.day, one.start))}


def _by_bracket(
    planned: Sequence[PlayOffTold],
    offered: Sequence[BracketOffered],
    listed: Mapping[str, Listed],
    played: frozenset[str],
) -> Iterator[BracketShown]:
    """Yield the games of each bracket by rounds; those of several brackets stand last."""
    of = _brackets(planned)
    names = _names(offered)
    order = [one.bracket for one in offered]
    for bracket in sorted({*of.values()}, key=lambda one: (_at(order, one), one)):
        games = [one for one in planned if of[one.game] == bracket]
        rounds = groupby(sorted(games, key=lambda one: one.round), key=lambda one: one.round)
        yield BracketShown(
            bracket=bracket,
            rounds=tuple(
                RoundShown(
                    number=number,
                    games=tuple(
                        _shown(
                            one,
                            bracket,
                            name=names.get(meeting(one)) if names else "",
                            there=listed.get(one.game),
                            is_played=one.game in played,
                        )
                        for one in here
                    ),
                )
                for number, here in rounds
            ),
        )


def _at(order: Sequence[str], bracket: str) -> int:
    return order.index(bracket) if bracket in order else len(order)


def _brackets(planned: Sequence[PlayOffTold]) -> dict[str, str]:
    """Return the bracket of each game, by the seeds that it goes back to; "" where of several."""
    found: dict[str, set[str]] = {}
    for one in planned:
        here = found.setdefault(one.game, set())
        for side in (_side(one.home), _side(one.away)):
            if isinstance(side, Seeded):
                here.add(side.bracket)
            elif isinstance(side, From):
                here |= found[side.game]
    return {game: next(iter(one)) if len(one) == 1 else "" for game, one in found.items()}


def _names(offered: Sequence[BracketOffered]) -> dict[Meeting, str]:
    """Return what the games of brackets are called, by who meets in them; most have no name."""
    found: dict[Meeting, str] = {}
    for each in offered:
        last = max((one.round for one in each.games), default=0)
        for one in each.games:
            name = "for third place" if one.for_third else "final"
            found[(one.game, one.home, one.away)] = name if one.round == last else ""
    return found


def _shown(
    told: PlayOffTold, bracket: str, *, name: str | None, there: Listed | None, is_played: bool
) -> GameShown:
    """Return a game; one without a `name`, be it an empty one, is in no bracket."""
    planned = GameShown(
        game=told.game,
        round=told.round,
        says=sides_said(told, within=bracket),
        name=name or "",
        is_played=is_played,
        is_beside=name is None,
    )
    match there:
        case None:
            return planned
        case Fixture():
            return replace(planned, place=_place(there), teams=f"{there.home} v {there.away}")
        case OpenFixture():
            return replace(
                planned,
                place=_place(there),
                there="" if _is_alike(told, there) else f"{there.home} v {there.away}",
                other_round=None if there.round == told.round else there.round,
            )


def _is_alike(told: PlayOffTold, there: OpenFixture) -> bool:
    """Tell whether the sides that the timetable leaves open are those of the plan."""
    _, *planned = meeting(told)
    both = zip((there.home, there.away), planned, strict=True)
    return all(isinstance(mine, str) or mine == its for mine, its in both)


def _alone(one: Listed, played: frozenset[str]) -> GameShown:
    return GameShown(
        game=one.game,
        round=one.round,
        says=f"{one.home} v {one.away}",
        place=_place(one),
        is_played=one.game in played,
    )


def _place(one: Listed) -> str:
    return f"{day_of_season(one.day)}, {one.start:%H:%M}, {one.field}"
