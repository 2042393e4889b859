"""Asks about games, teams and nights of one season."""

from collections.abc import Collection, Iterable

from wholeball.store.models import LogEntry, Season
from wholeball.store.models.game_rows import FixtureRow, ResultRow
from wholeball.store.models.league_rows import TeamRow
from wholeball.store.models.people_rows import CrewRow, OfficialRow


def games_of_crew(season: Season, official: str) -> frozenset[str]:
    """Return the games whose crew names an official. 1 query."""
    named = CrewRow.objects.filter(season=season, official=official)
    return frozenset(named.values_list("game", flat=True))


def nights_of_crew(season: Season, official: str) -> frozenset[str]:
    """Return the dates on which they work those games, as files write them. 1 query.

    That is the game's in the timetable, or that of the later night for which they are named.
    """
    named = CrewRow.objects.filter(season=season, official=official)
    first = named.filter(day="").values("game")
    games = FixtureRow.objects.filter(season=season, game__in=first).values_list("date")
    later = named.exclude(day="").values_list("day")
    return frozenset(day for (day,) in games.order_by().union(later.order_by()))


def games_of_nights(season: Season, nights: Collection[str]) -> frozenset[str]:
    """Return the games of some dates, and those whose crews go on with them then. 1 query."""
    games = FixtureRow.objects.filter(season=season, date__in=nights).values_list("game")
    later = CrewRow.objects.filter(season=season, day__in=nights).values_list("game")
    return frozenset(game for (game,) in games.order_by().union(later.order_by()))


def has_game(season: Season, game: str) -> bool:
    """Tell whether the timetable or the results name a game. 1 query."""
    listed = FixtureRow.objects.filter(season=season, game=game).values("game")
    played = ResultRow.objects.filter(season=season, game=game).values("game")
    return listed.union(played).exists()


def has_team(season: Season, team: str) -> bool:
    """Tell whether teams.csv names a team. 1 query."""
    return TeamRow.objects.filter(season=season, team=team).exists()


def has_official(season: Season, official: str) -> bool:
    """Tell whether officials.csv names an official. 1 query."""
    return OfficialRow.objects.filter(season=season, official=official).exists()


def teams_of(seasons: Iterable[Season]) -> list[str]:
    """Return the teams of some seasons, each once, by name. 1 query."""
    rows = TeamRow.objects.filter(season__in=seasons).order_by("team")
    return list(rows.values_list("team", flat=True).distinct())


def officials_of(seasons: Iterable[Season]) -> list[str]:
    """Return the officials of some seasons, each once, by name. 1 query."""
    rows = OfficialRow.objects.filter(season__in=seasons).order_by("official")
    return list(rows.values_list("official", flat=True).distinct())


def games_recorded(season: Season) -> frozenset[str]:
    """Return the games of which an entry was recorded. 1 query."""
    entries = LogEntry.objects.filter(season=season, position=1)
    return frozenset(entries.values_list("game", flat=True))
