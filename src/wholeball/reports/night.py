"""Gathers what a night at the field needs on paper: games, crews, sites, lists for the gate."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, time

from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.crew import OnCrew
from wholeball.league.fixture import Fixture, OpenFixture, Stage
from wholeball.league.league import Team
from wholeball.league.place import Field, Site, sites_of
from wholeball.reports.scorecards import Scorecard, away_colours
from wholeball.season.eligibility import GateLine


@dataclass(frozen=True, slots=True, kw_only=True)
class NightSide:
    """One side of a night's game: a team, or in words what will bring one."""

    name: str
    colours: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NightGame:
    """One game of a night.

    `crew` has each role and who fills it, empty where nobody does. Where the first colours of
    both sides are the same, `clash` says them. A game `is_open` while a side is still to be known.
    One that `is_off` was called off.
    """

    game: GameId
    stage: Stage
    start: time
    field: str
    home: NightSide
    away: NightSide
    crew: tuple[tuple[str, str], ...]
    clash: str = ""
    is_open: bool = False
    is_off: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class NightSite:
    """A place that is played at, and its fields of the night; None where no file names it."""

    site: Site | None
    fields: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GateList:
    """The players of both sides as the gate has them. For staff only."""

    game: NightGame
    home: tuple[GateLine, ...]
    away: tuple[GateLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Night:
    """All that is printed for one night; scorecards are what captains see of it."""

    league: str
    day: date
    games: tuple[NightGame, ...]
    sites: tuple[NightSite, ...]
    gates: tuple[GateList, ...]
    cards: tuple[Scorecard, ...]


def night_games(
    fixtures: Iterable[Fixture | OpenFixture],
    teams: Sequence[Team],
    crews: Iterable[OnCrew],
    roles: Sequence[str],
) -> tuple[NightGame, ...]:
    """Return games in the order given, each with the rulebook's roles and who fills them."""
    by_name = {team.team: team for team in teams}
    on_crew: dict[GameId, list[OnCrew]] = {}
    for one in crews:
        if one.day is None:
            on_crew.setdefault(one.game, []).append(one)
    return tuple(
        _game(one, by_name, _crew(on_crew.get(one.game, ()), roles)) for one in fixtures
    )


def night_sites(
    games: Iterable[NightGame], sites: Iterable[Site], fields: Iterable[Field]
) -> tuple[NightSite, ...]:
    """Return the sites of some games in the order in which they are first played at."""
    known = {one.site: one for one in sites}
    where = {field: known.get(site) for field, site in sites_of(fields).items()}
    found: dict[Site | None, dict[str, None]] = {}
    for game in games:
        found.setdefault(where.get(game.field), {})[game.field] = None
    return tuple(NightSite(site=site, fields=tuple(names)) for site, names in found.items())


def _game(
    one: Fixture | OpenFixture,
    teams: Mapping[TeamId, Team],
    crew: tuple[tuple[str, str], ...],
) -> NightGame:
    home, away = teams.get(_team(one.home)), teams.get(_team(one.away))
    worn = "" if away is None else away.colours
    clash = ""
    if home is not None and away is not None:
        worn = away_colours(home, away)
        clash = away.colours if worn != away.colours else ""
    return NightGame(
        game=one.game,
        stage=one.stage if isinstance(one, Fixture) else "play_off",
        start=one.start,
        field=one.field,
        home=NightSide(name=str(one.home), colours="" if home is None else home.colours),
        away=NightSide(name=str(one.away), colours=worn),
        crew=crew,
        clash=clash,
        is_open=home is None or away is None,
    )


def _team(side: object) -> TeamId:
    """Return the team that a side names; words about a side still to come name none."""
    return TeamId(side) if isinstance(side, str) else TeamId("")


def _crew(on: Iterable[OnCrew], roles: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Return each role and who fills it; a role that is there twice has the next of its own."""
    waiting: dict[str, list[str]] = {}
    for one in on:
        waiting.setdefault(one.role, []).append(one.official)
    named = {role: iter(names) for role, names in waiting.items()}
    return tuple((role, next(named.get(role, iter(())), "")) for role in roles)
