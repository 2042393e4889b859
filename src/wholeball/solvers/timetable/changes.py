"""Applies what has happened to a season to its question: what is lost, who leaves, who comes."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import TypeAlias, assert_never

from wholeball.kernel.identity import GameId, SiteId, TeamId
from wholeball.league.fixture import From, OpenSide
from wholeball.planning.problem import (
    Lock,
    Pairing,
    PlannedTeam,
    Slot,
    Start,
    TimetableProblem,
)
from wholeball.planning.rule import Rule

Side: TypeAlias = TeamId | OpenSide


@dataclass(frozen=True, slots=True, kw_only=True)
class LostNight:
    """Nobody plays on a night."""

    night: date


@dataclass(frozen=True, slots=True, kw_only=True)
class LostField:
    """A field cannot be used, on one night or from now on."""

    field: str
    night: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LostSite:
    """No field of a site can be used, on one night or from now on."""

    site: SiteId
    night: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Withdrawn:
    """A team plays no more."""

    team: TeamId


@dataclass(frozen=True, slots=True, kw_only=True)
class Added:
    """A team comes in, with the games that it is to play."""

    team: PlannedTeam
    games: tuple[Pairing, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedBlock:
    """A rule is replaced, by its name: a block moves to another evening."""

    rule: Rule


Change: TypeAlias = LostNight | LostField | LostSite | Withdrawn | Added | MovedBlock


def changed(
    problem: TimetableProblem, changes: Iterable[Change], *, now: datetime
) -> TimetableProblem:
    """Return the question that is left: what was played stays, the rest comes later than `now`.

    `now` is in local time. Nights kept free for rain may be used. A game that has a result was
    played, and keeps its place also where that is lost before its start.
    """
    begun = tuple(
        Lock(game=one.game, start=one.start, field=one.field, why="played")
        for one in problem.announced
        if _begins(one.start) < now
    )
    kept = {lock.game for lock in begun}
    locks = (*begun, *(lock for lock in problem.locks if lock.game not in kept))
    locked = {(lock.start, lock.field) for lock in locks if lock.why == "played"}
    left = replace(
        problem,
        spare=frozenset(),
        slots=tuple(
            slot
            for slot in problem.slots
            if _begins(slot.start) >= now or (slot.start, slot.field) in locked
        ),
        locks=locks,
    )
    for change in changes:
        left = _after(left, change, now)
    usable = {(slot.start, slot.field) for slot in left.slots}
    starts = {start for start, _ in usable}
    games = left.by_game
    return replace(
        left,
        locks=tuple(
            lock
            for lock in left.locks
            if lock.game in games
            and (
                (lock.start, lock.field) in usable or (not lock.field and lock.start in starts)
            )
        ),
    )


def _after(problem: TimetableProblem, change: Change, now: datetime) -> TimetableProblem:
    match change:
        case LostNight(night=night):
            return _without(problem, now, [one for one in problem.slots if one.night == night])
        case LostField(field=field, night=night):
            lost = [one for one in problem.slots if one.field == field]
            return _without(problem, now, [one for one in lost if night in (None, one.night)])
        case LostSite(site=site, night=night):
            lost = [one for one in problem.slots if one.site == site]
            return _without(problem, now, [one for one in lost if night in (None, one.night)])
        case Withdrawn(team=team):
            return _without_team(problem, team)
        case Added(team=team, games=games):
            return replace(
                problem,
                teams=(*problem.teams, team),
                pairings=(*problem.pairings, *games),
            )
        case MovedBlock(rule=rule):
            rules = tuple(rule if one.rule == rule.rule else one for one in problem.rules)
            return replace(problem, rules=rules)
        case _:
            assert_never(change)


def _without(problem: TimetableProblem, now: datetime, lost: list[Slot]) -> TimetableProblem:
    """Take slots away that have not begun, and in which nobody has played."""
    played = {(lock.start, lock.field) for lock in problem.locks if lock.why == "played"}
    gone = {
        slot
        for slot in lost
        if _begins(slot.start) >= now and (slot.start, slot.field) not in played
    }
    return replace(problem, slots=tuple(one for one in problem.slots if one not in gone))


def _without_team(problem: TimetableProblem, team: TeamId) -> TimetableProblem:
    """Take a team away with the games that it has not played, and rules about it alone.

    What it has played stays where it was; no rule looks at the team any more.
    """
    stays = tuple(_GoingOn(problem, team).games())
    rules = []
    for rule in problem.rules:
        left = tuple(one for one in rule.teams if one != team)
        needs = 2 if rule.kind in ("never_at_once", "next_to_each_other") else 1
        if left == rule.teams or len(left) >= needs:
            rules.append(replace(rule, teams=left))
    teams = tuple(one for one in problem.teams if one.team != team)
    return replace(problem, teams=teams, pairings=stays, rules=tuple(rules))


class _GoingOn:
    """Who comes to the games of a problem once a team is gone.

    Who would have met the team goes on without playing. Nobody comes where the team would have
    been a loser; who waits there goes on too.
    """

    def __init__(self, problem: TimetableProblem, team: TeamId) -> None:
        self._problem = problem
        self._team = team
        self._sides: dict[GameId, tuple[Side | None, Side | None]] = {}

    def games(self) -> Iterator[Pairing]:
        """Yield the games that two sides come to."""
        for one in self._problem.pairings:
            home, away = self._coming_to(one.game)
            if home is not None and away is not None:
                yield replace(one, home=home, away=away)

    def _coming_to(self, game: GameId) -> tuple[Side | None, Side | None]:
        if game not in self._sides:
            home, away = self._problem.by_game[game].sides
            is_played = game in self._problem.played
            self._sides[game] = (
                self._coming(home, is_played=is_played),
                self._coming(away, is_played=is_played),
            )
        return self._sides[game]

    def _coming(self, side: Side, *, is_played: bool) -> Side | None:
        if side == self._team and not is_played:
            return None
        if not isinstance(side, From):
            return side
        home, away = self._coming_to(side.game)
        if home is not None and away is not None:
            return side
        return (away if home is None else home) if side.takes == "winner" else None


def _begins(start: Start) -> datetime:
    return datetime.combine(start.night, start.at)
