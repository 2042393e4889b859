"""Tells which teams a person is bound to, and how many games the person has played for each."""

from collections.abc import Collection, Iterator
from datetime import date

from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.fixture import Fixture
from wholeball.league.league import League
from wholeball.league.player import Rosters, person_of
from wholeball.rulebook.tables.people import Roster
from wholeball.season.appearances import SIDES, GameSheet, team_of
from wholeball.season.discipline import in_order, leagues_of


class Bonds:
    """Who is bound to whom, by playing or by signing."""

    def __init__(
        self, rules: Roster, league: League, rosters: Rosters, sheets: Collection[GameSheet]
    ) -> None:
        """Index rosters and games; a game that is annulled binds nobody."""
        self._rules = rules
        self._scopes = _scopes(rules, league)
        self._signed = _signed(rosters)
        counted = (one for one in sheets if one.is_played and not _is_annulled(one))
        self._sheets = sorted(counted, key=lambda one: in_order(one.fixture))
        self._played: dict[PersonId, list[tuple[Fixture, TeamId]]] = {}
        for sheet in self._sheets:
            for one in sheet.appeared:
                if one.person is not None:
                    self._played.setdefault(one.person, []).append((sheet.fixture, one.team))

    def elsewhere(self, person: PersonId, team: TeamId, fixture: Fixture) -> tuple[TeamId, ...]:
        """Return the teams that bind a person so that it may not play for this one.

        Only what happened before the game counts, and only teams within the league, division or
        block that the rulebook names.
        """
        scope = self._scopes.get(team)
        bound = [one for one in self._teams(person, fixture) if self._scopes.get(one) == scope]
        first = tuple(dict.fromkeys(bound))[: self._rules.teams_each]
        is_free = len(first) < self._rules.teams_each
        return () if team in first or is_free else first

    def games_for(self, person: PersonId, team: TeamId, fixture: Fixture) -> tuple[int, int]:
        """Return in how many games before this one a person appeared, and in how many it may have.

        Games of the bracket do not count. The second number has those in which nobody of the
        team was checked in.
        """
        appeared = unrecorded = 0
        for sheet in self._sheets:
            if sheet.fixture.stage == "play_off" or in_order(sheet.fixture) >= in_order(
                fixture
            ):
                continue
            for side in SIDES:
                if team_of(sheet.fixture, side) == team:
                    is_there = person in sheet.people(side)
                    appeared += is_there
                    unrecorded += not is_there and not sheet.checked_in.of(side)
        return appeared, unrecorded

    def _teams(self, person: PersonId, fixture: Fixture) -> Iterator[TeamId]:
        """Yield the teams that bind a person, the first one first."""
        if self._rules.bound_by == "signing":
            signed = self._signed.get(person, ())
            yield from (team for added, team in signed if added <= fixture.day)
            return
        for game, team in self._played.get(person, ()):
            if in_order(game) < in_order(fixture):
                yield team


def _scopes(rules: Roster, league: League) -> dict[TeamId, str | None]:
    match rules.teams_each_in:
        case "league":
            return dict(leagues_of(league))
        case "division":
            return {one.team: one.division for one in league.teams}
        case "block":
            return {one.team: one.block for one in league.teams}


def _signed(rosters: Rosters) -> dict[PersonId, list[tuple[date, TeamId]]]:
    """Return where each person signed, by day and then as listed; no day is the first."""
    signed: dict[PersonId, list[tuple[date, TeamId]]] = {}
    for team, players in rosters.items():
        for one in players:
            signed.setdefault(person_of(team, one), []).append((one.added or date.min, team))
    return {person: sorted(teams, key=lambda one: one[0]) for person, teams in signed.items()}


def _is_annulled(sheet: GameSheet) -> bool:
    return sheet.result is not None and sheet.result.how == "annulled"
