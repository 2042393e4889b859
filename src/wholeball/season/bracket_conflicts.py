"""Finds who could meet themselves in a bracket: players of two sides, officials of a side."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, time
from itertools import combinations
from typing import Literal, TypeAlias

from wholeball.kernel.identity import GameId, PersonId, TeamId
from wholeball.league.crew import Official, OnCrew
from wholeball.league.player import Rosters, person_of
from wholeball.season.bracket_run import Line

Kind: TypeAlias = Literal["both_sides", "same_start", "own_team"]
"""A player of both sides; of sides of two games at one start; an official of a side."""
Starts: TypeAlias = Mapping[GameId, tuple[date, time]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Conflict:
    """One person who could not do what a game would ask of them.

    `teams` are those that bring it about. It `is_certain` once nothing but a new plan or
    roster can keep it away. `official` is the name on the crew, for an official.
    """

    kind: Kind
    games: tuple[GameId, ...]
    person: PersonId
    teams: tuple[TeamId, ...]
    is_certain: bool
    official: str = ""


def conflicts(
    lines: Sequence[Line],
    rosters: Rosters,
    *,
    officials: Sequence[Official] = (),
    crews: Sequence[OnCrew] = (),
    starts: Starts | None = None,
) -> tuple[Conflict, ...]:
    """Return every conflict of the games still to be played, against all possible sides.

    A person is known by a code: names never tell that two are one. An official without a code
    is known of no team. Two games at one start conflict only where they could be a person's
    two different teams.
    """
    open_games = [one for one in lines if one.state == "open"]
    plays_for = _teams_of(rosters)
    return (
        *_of_players(open_games, plays_for),
        *_at_one_start(open_games, plays_for, starts or {}),
        *_of_officials(open_games, plays_for, officials, crews),
    )


def _teams_of(rosters: Rosters) -> dict[PersonId, frozenset[TeamId]]:
    teams: dict[PersonId, set[TeamId]] = {}
    for team, players in rosters.items():
        for player in players:
            teams.setdefault(person_of(team, player), set()).add(team)
    return {person: frozenset(found) for person, found in teams.items()}


def _of_players(
    lines: Sequence[Line], plays_for: Mapping[PersonId, frozenset[TeamId]]
) -> Iterator[Conflict]:
    for line in lines:
        for person, teams in plays_for.items():
            home, away = teams & line.possible_home, teams & line.possible_away
            if home and away and len(home | away) > 1:
                yield Conflict(
                    kind="both_sides",
                    games=(line.game.game,),
                    person=person,
                    teams=tuple(sorted(home | away)),
                    is_certain=line.home is not None and line.away is not None,
                )


def _at_one_start(
    lines: Sequence[Line],
    plays_for: Mapping[PersonId, frozenset[TeamId]],
    starts: Starts,
) -> Iterator[Conflict]:
    timed = [one for one in lines if one.game.game in starts]
    for one, other in combinations(timed, 2):
        if starts[one.game.game] != starts[other.game.game]:
            continue
        for person, teams in plays_for.items():
            here, there = teams & _sides(one), teams & _sides(other)
            if here and there and len(here | there) > 1:
                yield Conflict(
                    kind="same_start",
                    games=(one.game.game, other.game.game),
                    person=person,
                    teams=tuple(sorted(here | there)),
                    is_certain=_is_known(one, here) and _is_known(other, there),
                )


def _of_officials(
    lines: Sequence[Line],
    plays_for: Mapping[PersonId, frozenset[TeamId]],
    officials: Sequence[Official],
    crews: Sequence[OnCrew],
) -> Iterator[Conflict]:
    person_named = {one.official: one.person for one in officials}
    for line in lines:
        for on in crews:
            person = person_named.get(on.official)
            if on.game != line.game.game or person is None:
                continue
            teams = plays_for.get(person, frozenset()) & _sides(line)
            if teams:
                yield Conflict(
                    kind="own_team",
                    games=(line.game.game,),
                    person=person,
                    teams=tuple(sorted(teams)),
                    is_certain=_is_known(line, teams),
                    official=on.official,
                )


def _sides(line: Line) -> frozenset[TeamId]:
    return line.possible_home | line.possible_away


def _is_known(line: Line, teams: frozenset[TeamId]) -> bool:
    return line.home in teams or line.away in teams
