"""Writes rows of results.csv, each as one game that was played but for what a test says."""

from datetime import date
from typing import Final

from wholeball.files.results import COLUMNS, Results, read_results
from wholeball.files.table import Table
from wholeball.kernel.identity import PoolId, TeamId
from wholeball.league.league import League, Team
from wholeball.rulebook.load import load

_LEAGUE: Final = League(
    name="Lantern Hill",
    timezone="Europe/London",
    first_day=date(2026, 9, 1),
    last_day=date(2026, 12, 1),
    teams=tuple(
        Team(team=TeamId(name), pool=PoolId(pool))
        for name, pool in (("Reds", "A"), ("Blues", "A"), ("Greens", "B"))
    ),
)
_HOUSE: Final = b"""base = "laws-2025-26"
[ratings]
by = "officials"
scale = { low = 1, high = 5, step = 0.5 }
reason_at_or_below = 2
cap_after_sending_off = 3
floor = 1
play_off_minimum = 3
given = { forfeiting = 1, defaulting = 3, ready = 5 }
"""
_RATINGS: Final = load(_HOUSE, file="house.toml").rulebook.ratings
_GAME: Final = {
    "game": "1",
    "round": "1",
    "home": "Reds",
    "away": "Blues",
    "home_goals": "2",
    "away_goals": "1",
}
FORFEIT: Final = {"home_goals": "", "away_goals": "", "how": "forfeit", "by": "home"}
DEFAULT: Final = FORFEIT | {"how": "default"}
DOUBLE: Final = FORFEIT | {"how": "double_forfeit", "by": ""}
AWARDED: Final = {"how": "awarded", "home_played": "0", "away_played": "4"}


def read(*rows: dict[str, str]) -> tuple[Results, Table]:
    """Read a file of games that are as ever but for the cells of each row."""
    names = [column.name for column in COLUMNS]
    lines = [",".join(f'"{(_GAME | row).get(name, "")}"' for name in names) for row in rows]
    return read_results("\n".join([",".join(names), *lines]).encode(), _LEAGUE, _RATINGS)
