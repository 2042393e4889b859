"""Sets the games that the brackets will have beside those of the plan: what comes, goes and stays."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from wholeball.files.folder import read_folder
from wholeball.league.record import LeagueRecord
from wholeball.planning.turns import LAST
from wholeball.usecases.bracket_offered import (
    BracketOffered,
    LeagueEnds,
    brackets_offered,
    league_ends,
)
from wholeball.usecases.set_play_offs import PlayOffTold, bracket_games, play_offs_of
from wholeball.usecases.show_play_offs import meeting, sides_said


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundOffered:
    """A round of the brackets by its number there; `proposed` is which of the season it is to be."""

    number: int
    games: tuple[str, ...]
    proposed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """A game that stays by its name alone: who was to meet in it, and who will."""

    game: str
    was: str
    now: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OfferedGame:
    """A game in words; `round` is the one that it has in the plan, None where it comes."""

    game: str
    says: str
    round: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """The games of the brackets beside those of the plan, and what their rounds are to be."""

    offered: tuple[BracketOffered, ...]
    rounds: tuple[RoundOffered, ...]
    league: LeagueEnds
    comes: tuple[OfferedGame, ...]
    changes: tuple[Changed, ...]
    goes: tuple[OfferedGame, ...]
    stays: tuple[OfferedGame, ...]


def offer_bracket(record: LeagueRecord) -> Offer:
    """Return what a plan would have once it has the games of the brackets.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    read = read_folder(record)
    offered, ends, before = brackets_offered(read), league_ends(read), play_offs_of(read)
    rounds = tuple(_rounds(offered, before, ends.round))
    planned = {one.game: one for one in before}
    wanted = bracket_games(read, [one.proposed for one in rounds])
    names = {one.game for one in wanted}
    both = [(planned[one.game], one) for one in wanted if one.game in planned]
    return Offer(
        offered=offered,
        rounds=rounds,
        league=ends,
        comes=tuple(
            OfferedGame(game=one.game, says=sides_said(one))
            for one in wanted
            if one.game not in planned
        ),
        changes=tuple(
            Changed(game=was.game, was=sides_said(was), now=sides_said(now))
            for was, now in both
            if meeting(was) != meeting(now)
        ),
        goes=tuple(_planned(one) for one in before if one.game not in names),
        stays=tuple(_planned(was) for was, now in both if meeting(was) == meeting(now)),
    )


def _planned(one: PlayOffTold) -> OfferedGame:
    return OfferedGame(game=one.game, says=sides_said(one), round=one.round)


def _rounds(
    offered: Sequence[BracketOffered], planned: Sequence[PlayOffTold], last: int
) -> Iterator[RoundOffered]:
    """Yield the rounds of the brackets: as the plan has them, or one after another after the league.

    They stay as they are where each has one, in order, and all come after the league.
    """
    games: dict[int, list[str]] = {}
    for one in (game for each in offered for game in each.games):
        games.setdefault(one.round, []).append(one.game)
    kept = _kept(games, planned, last)
    for number in sorted(games):
        proposed = kept[number - 1] if kept else min(last + number, LAST)
        yield RoundOffered(number=number, games=tuple(games[number]), proposed=proposed)


def _kept(
    games: dict[int, list[str]], planned: Sequence[PlayOffTold], last: int
) -> list[int] | None:
    """Return the round that the plan has for each of the brackets, or None where that cannot be."""
    has = {one.game: one.round for one in planned}
    found: list[int] = []
    for number in sorted(games):
        here = {has.get(one) for one in games[number]}
        one = next(iter(here))
        if len(here) > 1 or one is None or one <= max(last, *found, 0):
            return None
        found.append(one)
    return found
