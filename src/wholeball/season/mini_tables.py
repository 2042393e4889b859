"""Makes the mini-tables of all level sets at once: the games that level teams played."""

from dataclasses import dataclass
from fractions import Fraction
from typing import assert_never

import numpy as np

from wholeball.rulebook.criteria import LevelFigure
from wholeball.season.column import Column, ranked, unknown
from wholeball.season.count import Flags, Games, Whole
from wholeball.season.tally import added, both_sides


@dataclass(frozen=True, slots=True, kw_only=True)
class MiniTables:
    """The games inside level sets, in columns, and what they say of every team.

    `met`, shape (teams,): every two teams of the team's level set have met, once or more.
    `played`, shape (teams,): games inside its set.
    """

    games: Games
    met: Flags
    played: Whole


def mini_tables(games: Games, level: Whole, asked: Flags) -> MiniTables:
    """Return the mini-tables of the level sets of the teams that `asked`.

    Args:
        games: every game that counts.
        level: number of each team's level set, shape (teams,).
        asked: whether the team's set wants a mini-table, shape (teams,).
    """
    inner = (level[games.home] == level[games.away]) & asked[games.home]
    inside = _only(games, inner)
    ones = np.ones(len(inside.home), dtype=np.int64)
    return MiniTables(
        games=inside,
        met=all_met(inside, level),
        played=both_sides(inside, ones, ones, len(level)),
    )


def all_met(games: Games, level: Whole) -> Flags:
    """Return for each team whether every two teams of its level set have met, shape (teams,).

    A team alone in its set has met all of it.
    """
    n, sets = len(level), int(level.max(initial=0)) + 1
    inner = level[games.home] == level[games.away]
    home, away = games.home[inner], games.away[inner]
    pairs = np.unique(np.minimum(home, away) * n + np.maximum(home, away))
    met = np.bincount(level[pairs // n], minlength=sets) if n else np.zeros(1, dtype=np.int64)
    size = np.bincount(level, minlength=sets)
    return np.asarray((met == size * (size - 1) // 2)[level], dtype=np.bool_)


def level_column(figure: LevelFigure, tables: MiniTables | None, teams: int) -> Column:
    """Return the column of one figure of the mini-tables; None tables know nothing.

    Only points a game are known where the level teams did not all meet: there each must have
    played inside its set.
    """
    if tables is None:
        return unknown(teams, "not_all_met")
    values = _figure(figure, tables)
    if isinstance(values, list):
        return ranked(values, reason="not_all_met")
    return Column(worth=values, known=tables.met, reason="not_all_met")


def _figure(figure: LevelFigure, tables: MiniTables) -> Whole | list[Fraction | None]:
    """Return one figure of every team in its mini-table; more is better.

    Shape (teams,); the exact points a game are a list, None where a team played none.
    """
    games, n = tables.games, len(tables.played)
    match figure:
        case "h2h_points":
            return both_sides(games, games.home_points, games.away_points, n)
        case "h2h_points_per_game":
            return _per_game(
                both_sides(games, games.home_points, games.away_points, n), tables.played
            )
        case "h2h_wins":
            return both_sides(games, games.home_won, games.away_won, n)
        case "h2h_difference":
            margin = games.home_goals - games.away_goals
            return both_sides(games, margin, -margin, n)
        case "h2h_goals":
            return both_sides(games, games.home_goals, games.away_goals, n)
        case "h2h_away_goals":
            return added(games.away, games.away_goals * ~games.neutral, n)
        case _:
            assert_never(figure)


def _per_game(points: Whole, played: Whole) -> list[Fraction | None]:
    pairs = zip(points.tolist(), played.tolist(), strict=True)
    return [Fraction(total, games) if games else None for total, games in pairs]


def _only(games: Games, inner: Flags) -> Games:
    return Games(
        home=games.home[inner],
        away=games.away[inner],
        home_goals=games.home_goals[inner],
        away_goals=games.away_goals[inner],
        home_points=games.home_points[inner],
        away_points=games.away_points[inner],
        home_won=games.home_won[inner],
        away_won=games.away_won[inner],
        both_lost=games.both_lost[inner],
        neutral=games.neutral[inner],
    )
