"""Puts teams in order by a rulebook's criteria, with every figure and every reason."""

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby
from typing import NamedTuple, TypeAlias

import numpy as np

from wholeball.kernel.identity import TeamId
from wholeball.rulebook.criteria import Conduct, ConductPoints, Criterion, LastResort
from wholeball.season.count import Counting, Deduction, Whole, games
from wholeball.season.ranking import History, rank
from wholeball.season.reasons import Absence, Neighbours, absences
from wholeball.season.result import Result
from wholeball.season.tally import Facts, OutsideFigures, Tally, tally

NOTHING_OUTSIDE = OutsideFigures()


@dataclass(frozen=True, slots=True, kw_only=True)
class Regulation:
    """What a rulebook says of the table: points, how games count, and what parts teams.

    An average of fewer than `ratings_least` ratings is none. `per_game` compares what adds up
    over games by the game, for teams that have not played equally many.
    """

    criteria: tuple[Criterion, ...]
    last_resort: LastResort
    counting: Counting = field(default_factory=Counting)
    ratings_least: int = 1
    per_game: bool = False

    @property
    def costs(self) -> ConductPoints | None:
        """What conduct costs by the first criterion that says so."""
        return next((one.conduct for one in self.criteria if isinstance(one, Conduct)), None)


class Row(NamedTuple):
    """One team's line. Teams that nothing parts share a `place`, counted from 1.

    `points` are less what was `deducted`. A named tuple, since a table makes thousands and a
    frozen dataclass takes four times as long to make (benchmarks/standings.py).
    """

    place: int
    team: TeamId
    played: int
    won: int
    drawn: int
    lost: int
    goals_for: int
    goals_against: int
    points: int
    deducted: int

    @property
    def difference(self) -> int:
        """Goals for less goals against."""
        return self.goals_for - self.goals_against


@dataclass(frozen=True, slots=True, kw_only=True)
class Standings:
    """A table, best first, and why it is so.

    Teams that share a place stand in the order of their identities, which means nothing.
    """

    rows: tuple[Row, ...]
    history: History = field(repr=False, compare=False)
    order: tuple[int, ...] = field(repr=False, compare=False)

    @property
    def neighbours(self) -> Neighbours:
        """Why each row stands above the next; worked out when read."""
        return Neighbours(self.history, self.order)

    @property
    def absences(self) -> tuple[Absence, ...]:
        """Every question that could not be asked for want of data."""
        return absences(self.history)

    @property
    def unresolved(self) -> tuple[tuple[TeamId, ...], ...]:
        """The sets of teams that nothing parts, best first."""
        shared = (
            tuple(row.team for row in rows)
            for _, rows in groupby(self.rows, key=lambda row: row.place)
        )
        return tuple(teams for teams in shared if len(teams) > 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """Results as the rules let them stand, and the teams that stand last for being out."""

    results: Sequence[Result]
    last: Collection[TeamId] = ()


Settle: TypeAlias = Callable[[Sequence[Result]], Settled]
"""Says how the results up to a round stand."""


def as_they_are(results: Sequence[Result]) -> Settled:
    """Let every result stand."""
    return Settled(results=results)


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundTable:
    """The table after a round."""

    round: int
    standings: Standings


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """One team's figures as given, where its games are not at hand."""

    team: TeamId
    played: int
    won: int
    drawn: int
    lost: int
    goals_for: int
    goals_against: int
    points: int


def standings(
    results: Sequence[Result],
    regulation: Regulation,
    *,
    teams: Iterable[TeamId],
    deductions: Iterable[Deduction] = (),
    outside: OutsideFigures = NOTHING_OUTSIDE,
    out: Collection[TeamId] = (),
) -> Standings:
    """Return the table of `teams` after these results; teams that are `out` stand last.

    The order of results and of teams never matters. O(games + teams log teams) for each
    criterion; the reasons cost when read.

    Raises:
        ValueError: a game or a team is listed twice, a team plays or has a deduction and is
            not in `teams`, or lots are given where lots do not decide.
    """
    index = _index(teams)
    _refuse_idle_lots(regulation, outside)
    counted = games(results, index, regulation.counting)
    facts = Facts(
        teams=tuple(index),
        tally=tally(counted, deductions, index),
        outside=outside,
        results=results,
        left_out=regulation.counting.left_out,
        games=counted,
        play_offs=games(
            _within(outside.play_offs, index), index, regulation.counting, by_kicks=True
        ),
        ratings_least=regulation.ratings_least,
        costs=regulation.costs,
        out=out,
        per_game=regulation.per_game,
    )
    return _standings(facts, regulation)


def standings_by_round(
    results: Sequence[Result],
    regulation: Regulation,
    *,
    teams: Sequence[TeamId],
    deductions: Iterable[Deduction] = (),
    outside: OutsideFigures = NOTHING_OUTSIDE,
    settle: Settle = as_they_are,
) -> tuple[RoundTable, ...]:
    """Return the table after each round that has a result, oldest first.

    Lots, play-offs and season's totals from outside come after the last round, so they count
    in the last table only; an outside ranking counts in all. A deduction counts from its
    round, and in the last table whatever its round. `settle` is asked anew for each round.
    """
    taken = tuple(deductions)
    rounds = sorted({result.round for result in results})
    newest = rounds[-1] if rounds else 0
    before = OutsideFigures(ranking=outside.ranking, coefficients=outside.coefficients)
    return tuple(
        RoundTable(
            round=number,
            standings=standings(
                settled.results,
                regulation,
                teams=teams,
                deductions=[one for one in taken if one.round <= number or number == newest],
                outside=outside if number == newest else before,
                out=settled.last,
            ),
        )
        for number in rounds
        for settled in [settle([result for result in results if result.round <= number])]
    )


def rank_figures(
    rows: Sequence[Given],
    regulation: Regulation,
    *,
    outside: OutsideFigures = NOTHING_OUTSIDE,
) -> Standings:
    """Return teams of different groups in order, by their figures alone.

    What only games can tell (mini-tables, away goals, opponents, play-offs) is absent.
    """
    index = _index(row.team for row in rows)
    _refuse_idle_lots(regulation, outside)
    by_team = sorted(rows, key=lambda row: row.team)
    facts = Facts(
        teams=tuple(index),
        tally=_given(by_team),
        outside=replace(outside, play_offs=()),
        costs=regulation.costs,
    )
    return _standings(facts, regulation)


def _within(play_offs: Sequence[Result], index: Mapping[TeamId, int]) -> list[Result]:
    return [one for one in play_offs if one.home in index and one.away in index]


def _index(teams: Iterable[TeamId]) -> dict[TeamId, int]:
    ordered = sorted(teams)
    index = {team: position for position, team in enumerate(ordered)}
    if len(index) != len(ordered):
        raise ValueError("a team is listed twice")
    return index


def _refuse_idle_lots(regulation: Regulation, outside: OutsideFigures) -> None:
    if outside.lots and regulation.last_resort not in ("lots", "coordinator"):
        raise ValueError(f"lots are given, but the last resort is {regulation.last_resort}")


def _given(rows: Sequence[Given]) -> Tally:
    columns = np.array(
        [
            (r.played, r.won, r.drawn, r.lost, r.goals_for, r.goals_against, r.points)
            for r in rows
        ],
        dtype=np.int64,
    ).reshape(len(rows), 7)
    played, won, drawn, lost, goals_for, goals_against, points = columns.T
    return Tally(
        played=played,
        won=won,
        drawn=drawn,
        lost=lost,
        goals_for=goals_for,
        goals_against=goals_against,
        points=points,
        deducted=np.zeros_like(points),
    )


def _standings(facts: Facts, regulation: Regulation) -> Standings:
    history = rank(facts, regulation.criteria, regulation.last_resort)
    order = np.argsort(history.level, kind="stable")
    level = history.level[order]
    places = np.searchsorted(level, level) + 1
    return Standings(
        rows=_rows(facts, order, places),
        history=history,
        order=tuple(order.tolist()),
    )


def _rows(facts: Facts, order: Whole, places: Whole) -> tuple[Row, ...]:
    total = facts.tally
    columns = (
        total.played,
        total.won,
        total.drawn,
        total.lost,
        total.goals_for,
        total.goals_against,
        total.points,
        total.deducted,
    )
    lines = zip(
        places.tolist(),
        [facts.teams[team] for team in order.tolist()],
        *(column[order].tolist() for column in columns),
        strict=True,
    )
    return tuple(map(Row._make, lines))
