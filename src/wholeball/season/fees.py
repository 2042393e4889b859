"""Keeps the list of what forfeits cost: what is due, what was paid or waived, what is open."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import Literal, TypeAlias

from wholeball.kernel.identity import GameId, TeamId
from wholeball.season.recorded import at_fault
from wholeball.season.result import Result
from wholeball.season.season import Season
from wholeball.season.upheld import upheld

Settling: TypeAlias = Literal["paid", "waived"]
Cause: TypeAlias = Literal["forfeit", "both_forfeit", "default_beyond"]
"""What a fee is due for: a forfeit, a forfeit of both sides, a default beyond those allowed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FeeEntry:
    """What was paid or waived of the fee for one game, in local currency."""

    day: date
    team: TeamId
    game: GameId
    what: Settling
    amount: Decimal
    why: str = ""

    def __post_init__(self) -> None:
        """Refuse an entry that settles nothing."""
        if self.amount <= 0:
            raise ValueError(f"{self.team}: {self.what} is more than 0, got {self.amount}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """What one forfeit costs a team, and how much of it is settled."""

    team: TeamId
    game: GameId
    cause: Cause
    amount: Decimal
    paid: Decimal = Decimal(0)
    waived: Decimal = Decimal(0)

    @property
    def open(self) -> Decimal:
        """What is still to be paid; 0 where more came in than was due."""
        return max(self.amount - self.paid - self.waived, Decimal(0))

    @property
    def over(self) -> Decimal:
        """What came in beyond what was due."""
        return max(self.paid + self.waived - self.amount, Decimal(0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledger:
    """Every due in the order of the games, and the entries that settle none.

    `captain_waits` says whether captains may not play while something of their team is open.
    """

    dues: tuple[Due, ...] = ()
    idle: tuple[FeeEntry, ...] = ()
    captain_waits: bool = False

    def due(self, team: TeamId, game: GameId) -> Due | None:
        """Return what a game costs a team, or None where it costs it nothing."""
        found = (one for one in self.dues if (one.team, one.game) == (team, game))
        return next(found, None)

    def open_by_team(self) -> dict[TeamId, Decimal]:
        """Return what each team still owes, those that owe something only."""
        owed: dict[TeamId, Decimal] = {}
        for due in self.dues:
            if due.open:
                owed[due.team] = owed.get(due.team, Decimal(0)) + due.open
        return owed

    def captain_may_not_play(self, team: TeamId) -> bool:
        """Tell whether a team's captain waits until the team has settled its fees."""
        return self.captain_waits and team in self.open_by_team()


def fees_of(season: Season, entries: Iterable[FeeEntry]) -> Ledger:
    """Return what the forfeits of a season and its bracket cost, and what is settled of it.

    Each forfeit is charged once, each side of a double forfeit; a default beyond those allowed
    is a forfeit. The rest of the games of a team that is out of the league cost nothing: nobody
    expected it there.
    """
    fee = season.rulebook.forfeit.fee
    amount = fee.amount
    dues = {
        (team, one.game): Due(team=team, game=one.game, cause=cause, amount=amount)
        for one, cause in (_charged(season) if amount else ())
        for team in at_fault(one)
    }
    idle = []
    for entry in entries:
        due = dues.get((entry.team, entry.game))
        if due is None:
            idle.append(entry)
        else:
            dues[entry.team, entry.game] = _settled(due, entry)
    return Ledger(dues=tuple(dues.values()), idle=tuple(idle), captain_waits=fee.captain_waits)


def _charged(season: Season) -> Iterator[tuple[Result, Cause]]:
    """Yield the games that may cost a fee, and what for; a default beyond is told as a forfeit."""
    found = upheld(season.results, season.rulebook)
    for one in season.results:
        if one.game in found.beyond:
            yield replace(one, how="forfeit"), "default_beyond"
        elif one.game not in found.late:
            yield one, _cause(one)
    for one in (*season.outside.play_offs, *season.play_offs):
        yield one, _cause(one)


def _cause(result: Result) -> Cause:
    return "both_forfeit" if result.how == "double_forfeit" else "forfeit"


def _settled(due: Due, entry: FeeEntry) -> Due:
    if entry.what == "paid":
        return replace(due, paid=due.paid + entry.amount)
    return replace(due, waived=due.waived + entry.amount)
