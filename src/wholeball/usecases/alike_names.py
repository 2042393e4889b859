"""Finds rows of rosters whose names may be one person's, without holding each against each."""

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Final, NamedTuple, TypeAlias

from rapidfuzz import fuzz

from wholeball.kernel.identity import TeamId
from wholeball.league.player import Player, Rosters

_ALIKE: Final = 85
_WORD_ALIKE: Final = 75
"""How alike two names, and each two words of them, are that may be one person's, of 100."""
_MOST_LOOKED_AT: Final = 200
_MOST_TOLD: Final = 5
"""Names that one is held against, and those it is told to be like; the rarest words come first."""

Leagues: TypeAlias = dict[TeamId, str]


class Row(NamedTuple):
    """One row of the rosters, with the words of its name in the order of letters."""

    team: TeamId
    player: Player
    words: tuple[str, ...]


@dataclass(slots=True)
class _Rows:
    """The rows of one team that have a word in common, by their place, with a code and without."""

    coded: list[int] = field(default_factory=list)
    plain: list[int] = field(default_factory=list)

    def __len__(self) -> int:
        return len(self.coded) + len(self.plain)

    def against(self, at: int) -> Iterator[int]:
        """Yield the rows that a row without a code is held against; earlier ones told of it."""
        yield from self.coded
        yield from self.plain[bisect_right(self.plain, at) :]


_Key: TypeAlias = tuple[str | None, int, str]
_Index: TypeAlias = dict[_Key, dict[TeamId, _Rows]]


def alike_rows(rosters: Rosters, leagues: Leagues) -> Iterator[tuple[Row, Row]]:
    """Yield pairs of rows of two teams of one league that may be one person, the first uncoded.

    Names are held against each other where a word of one is a word of the other but for a
    letter left out, put in, changed or moved by one place. Each is held against so many and no
    more, so that a file of any size takes a time in proportion to its rows: O(rows).
    """
    rows = [
        Row(team, one, tuple(sorted(one.name.casefold().split())))
        for team, players in rosters.items()
        for one in players
    ]
    index = _indexed(rows, leagues)
    for at, row in enumerate(rows):
        if row.player.person is None:
            told = 0
            for other in sorted(_near(at, row, index, leagues.get(row.team))):
                if told < _MOST_TOLD and _may_be_one(row.words, rows[other].words):
                    told += 1
                    yield row, rows[other]


def _indexed(rows: Iterable[Row], leagues: Leagues) -> _Index:
    index: _Index = {}
    for at, row in enumerate(rows):
        for key in _keys(row, leagues.get(row.team)):
            kept = index.setdefault(key, {}).setdefault(row.team, _Rows())
            (kept.plain if row.player.person is None else kept.coded).append(at)
    return index


def _keys(row: Row, league: str | None) -> set[_Key]:
    """Return each word of a name, and each with one letter left out."""
    return {
        (league, len(row.words), word[:gap] + word[gap + 1 :])
        for word in row.words
        for gap in range(len(word) + 1)
    }


def _near(at: int, row: Row, index: _Index, league: str | None) -> set[int]:
    """Return the rows of other teams that have a word in common, those of the rarest words first."""
    lists = [
        kept
        for key in _keys(row, league)
        for team, kept in index[key].items()
        if team != row.team
    ]
    found: set[int] = set()
    for kept in sorted(lists, key=len):
        for other in kept.against(at):
            if len(found) == _MOST_LOOKED_AT:
                return found
            found.add(other)
    return found


def _may_be_one(name: tuple[str, ...], other: tuple[str, ...]) -> bool:
    """Tell whether two alike names are so word by word: a family name makes nobody one person."""
    is_alike = fuzz.ratio(" ".join(name), " ".join(other)) >= _ALIKE
    pairs = zip(name, other, strict=True) if is_alike else ()
    return is_alike and all(fuzz.ratio(one, two) >= _WORD_ALIKE for one, two in pairs)
