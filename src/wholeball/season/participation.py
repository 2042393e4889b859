"""Counts a season for a report: games, people, hours, forfeits, by week and by division."""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final, Literal, TypeAlias

from wholeball.kernel.identity import GameId, PersonId, TeamId
from wholeball.league.fixture import Fixture
from wholeball.league.league import League
from wholeball.league.player import Rosters, person_of
from wholeball.season.appearances import SIDES, GameSheet
from wholeball.season.ratings import Gate, season_ratings
from wholeball.season.result import How, Result
from wholeball.season.season import Season
from wholeball.season.upheld import upheld

Became: TypeAlias = Literal["to_come", "played", "forfeit", "default", "double_forfeit", "none"]
"""What became of a game; `none` counts for nothing and was not played out.

A game that a team which was taken out has still to play is `none`: it will not be played.
"""
_WEEK: Final = timedelta(days=7)


@dataclass(frozen=True, slots=True, kw_only=True)
class Counts:
    """What some games come to.

    `games` are all listed, those to come too. `played` are those with play on the field,
    whatever they count as since; the others say how they were given up. `people` are known
    persons who appeared, each once, and `unknown` the appearances of whom nobody can tell.
    Minutes are those of the rulebook: overtime is left out, and a game broken off counts whole.
    `player_minutes` count the players checked in, of the `sides_checked` of all `sides_played`.
    """

    games: int = 0
    played: int = 0
    forfeits: int = 0
    defaults: int = 0
    double_forfeits: int = 0
    to_come: int = 0
    people: int = 0
    unknown: int = 0
    game_minutes: int = 0
    player_minutes: int = 0
    sides_played: int = 0
    sides_checked: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """The games of one division, or of one week by its Monday; None of those without a day."""

    name: str
    monday: date | None
    counts: Counts


@dataclass(frozen=True, slots=True, kw_only=True)
class Participation:
    """A season counted.

    `weeks` lack none between the first and the last. `played` has for each division its games
    played week by week. `rostered` are the people on rosters, each once. `gates` count teams by
    what their sportsmanship average is worth, and name none; `rated` is how many ratings count.
    """

    total: Counts
    weeks: tuple[Part, ...]
    divisions: tuple[Part, ...]
    played: Mapping[str, tuple[int, ...]]
    rostered: int
    rated: int
    gates: Mapping[Gate, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Game:
    day: date | None
    division: str
    became: Became
    is_played: bool
    sheet: GameSheet | None


def participation(
    season: Season, fixtures: Sequence[Fixture], sheets: Iterable[GameSheet], rosters: Rosters
) -> Participation:
    """Return a season counted; a game with a result that no timetable lists counts as well."""
    games = list(_games(season, fixtures, {one.fixture.game: one for one in sheets}))
    minutes = season.rulebook.game.periods * season.rulebook.game.minutes
    weeks = _weeks(games)
    divisions = {one.division: None for one in games}
    rated = season_ratings(season, ()).teams
    return Participation(
        total=_counts(games, minutes),
        weeks=tuple(
            Part(name="", monday=monday, counts=_counts(_of_week(games, monday), minutes))
            for monday in weeks
        ),
        divisions=tuple(
            Part(name=name, monday=None, counts=_counts(_of(games, name), minutes))
            for name in divisions
        ),
        played={
            name: tuple(
                sum(one.is_played for one in _of_week(_of(games, name), monday))
                for monday in weeks
            )
            for name in divisions
        },
        rostered=len(_people(rosters)),
        rated=sum(one.count for one in rated),
        gates=Counter(one.gate for one in rated),
    )


def _games(
    season: Season, fixtures: Sequence[Fixture], sheets: Mapping[GameId, GameSheet]
) -> Iterator[_Game]:
    found = (*season.results, *season.outside.play_offs, *season.play_offs)
    results = {one.game: one for one in found}
    stand = upheld(season.results, season.rulebook)
    beyond, out = stand.beyond, {one.team for one in stand.out}
    divisions = _divisions(season.league)
    for fixture in fixtures:
        sheet, result = sheets.get(fixture.game), results.pop(fixture.game, None)
        game = _game(fixture.day, divisions[fixture.home], result, sheet, beyond)
        is_off = game.became == "to_come" and {fixture.home, fixture.away} & out
        yield replace(game, became="none") if is_off else game
    for result in results.values():
        day = season.days.get(result.game)
        yield _game(day, divisions[result.home], result, None, beyond)


def _game(
    day: date | None,
    division: str,
    result: Result | None,
    sheet: GameSheet | None,
    beyond: Collection[GameId],
) -> _Game:
    is_played = _is_played(result) if sheet is None else sheet.is_played
    how = None if result is None else result.how
    if result is not None and result.game in beyond:
        how = "forfeit"
    return _Game(
        day=day,
        division=division,
        became=_became(how, is_played=is_played),
        is_played=is_played,
        sheet=sheet,
    )


def _is_played(result: Result | None) -> bool:
    return result is not None and (result.how == "played" or result.played_score is not None)


def _became(how: How | None, *, is_played: bool) -> Became:
    match how:
        case "forfeit" | "default" | "double_forfeit":
            return how
        case "played" | "awarded" | "annulled":
            return "played" if is_played else "none"
        case None:
            return "played" if is_played else "to_come"


def _divisions(league: League) -> dict[TeamId, str]:
    return {one.team: str(one.division or league.name) for one in league.teams}


def _weeks(games: Iterable[_Game]) -> list[date | None]:
    """Return the Monday of each week from the first to the last, and None for games without."""
    days = [one.day for one in games]
    mondays = [_monday(day) for day in days if day is not None]
    weeks: list[date | None] = []
    if mondays:
        first, last = min(mondays), max(mondays)
        weeks += [first + nth * _WEEK for nth in range((last - first) // _WEEK + 1)]
    return [*weeks, None] if None in days else weeks


def _monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def _of_week(games: Iterable[_Game], monday: date | None) -> list[_Game]:
    return [one for one in games if (None if one.day is None else _monday(one.day)) == monday]


def _of(games: Iterable[_Game], division: str) -> list[_Game]:
    return [one for one in games if one.division == division]


def _counts(games: Sequence[_Game], minutes: int) -> Counts:
    became = Counter(one.became for one in games)
    sheets = [one.sheet for one in games if one.sheet is not None]
    played = [one for one in games if one.is_played]
    checked = [
        sum(appeared.side == side for appeared in one.sheet.appeared)
        for one in played
        for side in SIDES
        if one.sheet is not None and one.sheet.checked_in.of(side)
    ]
    known = [appeared.person for sheet in sheets for appeared in sheet.appeared]
    return Counts(
        games=len(games),
        played=len(played),
        forfeits=became["forfeit"],
        defaults=became["default"],
        double_forfeits=became["double_forfeit"],
        to_come=became["to_come"],
        people=len(set(known) - {None}),
        unknown=known.count(None),
        game_minutes=len(played) * minutes,
        player_minutes=sum(checked) * minutes,
        sides_played=2 * len(played),
        sides_checked=len(checked),
    )


def _people(rosters: Rosters) -> set[PersonId]:
    return {person_of(team, one) for team, players in rosters.items() for one in players}
