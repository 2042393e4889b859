"""Is the rows of games: those to come, their results, the draw, and rulings about them."""

from typing import ClassVar

from django.db.models import UniqueConstraint

from wholeball.store.models.row import Row, cell, needed


class FixtureRow(Row):
    """A game to be played."""

    FILE = "timetable.csv"
    game = cell()
    round = cell()
    date = cell()
    start = cell()
    field = cell()
    home = cell()
    away = cell()
    stage = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("game", "round", "date", "start", "field", "home", "away"),
            UniqueConstraint(fields=["season", "game"], name="store_fixturerow_once"),
        ]


class ResultRow(Row):
    """A game as it was played, or as it was ruled."""

    FILE = "results.csv"
    game = cell()
    round = cell()
    date = cell()
    home = cell()
    away = cell()
    home_goals = cell()
    away_goals = cell()
    how = cell()
    by = cell()
    home_played = cell()
    away_played = cell()
    home_yellow = cell()
    home_second_yellow = cell()
    home_red = cell()
    home_yellow_and_red = cell()
    away_yellow = cell()
    away_second_yellow = cell()
    away_red = cell()
    away_yellow_and_red = cell()
    home_rating = cell()
    away_rating = cell()
    stage = cell()
    home_kicks = cell()
    away_kicks = cell()
    neutral = cell()
    note = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("game", "round", "home", "away"),
            UniqueConstraint(fields=["season", "game"], name="store_resultrow_once"),
        ]


class SeedRow(Row):
    """A seed of the draw."""

    FILE = "bracket.csv"
    seed = cell()
    team = cell()
    bracket = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("seed", "team"),
            UniqueConstraint(fields=["season", "bracket", "seed"], name="store_seedrow_once"),
            UniqueConstraint(fields=["season", "team"], name="store_seedrow_team"),
        ]


class RulingRow(Row):
    """A ruling about a game."""

    FILE = "rulings.csv"
    ruling = cell()
    date = cell()
    game = cell()
    ruled = cell()
    by = cell()
    home_goals = cell()
    away_goals = cell()
    ref = cell()
    why = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("ruling", "game", "ruled", "ref", "why"),
            UniqueConstraint(fields=["season", "ruling"], name="store_rulingrow_once"),
        ]


class PublishedRow(Row):
    """A line of a table that somebody else published."""

    FILE = "published.csv"
    team = cell()
    place = cell()
    played = cell()
    won = cell()
    drawn = cell()
    lost = cell()
    goals_for = cell()
    goals_against = cell()
    points = cell()

    class Meta(Row.Meta):
        constraints: ClassVar = [
            *Row.Meta.constraints,
            needed("team", "place"),
            UniqueConstraint(fields=["season", "team"], name="store_publishedrow_once"),
        ]
