"""Makes the texts of a season that takes a solver many minutes to plan."""

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Final

TEAMS: Final = 160
POOL: Final = 8
FIELDS: Final = 8
WEEKS: Final = 8
FIRST_DAY: Final = date(2027, 1, 4)
LAST_DAY: Final = FIRST_DAY + timedelta(days=7 * WEEKS - 1)
WEEKDAYS: Final = ("monday", "tuesday", "wednesday", "thursday")
_SEASON: Final = f"""schema = 1
name = "Spring"
timezone = "America/Chicago"
first_day = {FIRST_DAY}
last_day = {LAST_DAY}
"""
_RULEBOOK: Final = """base = "laws-2025-26"
name = "House rules"
game = { periods = 2, minutes = 20, interval_minutes = 5 }
"""
_PLANNING: Final = """schema = 1

[[rules]]
rule = "one game a night"
kind = "games_a_night"
strength = "must"
most = 1

[[rules]]
rule = "rest"
kind = "rest_days"
strength = "must"
days = 1

[[rules]]
rule = "late games"
kind = "even_starts"
strength = "wish"
cost = 5
which = "late"

[[rules]]
rule = "fields"
kind = "even_fields"
strength = "wish"
cost = 2

[[rules]]
rule = "idle week"
kind = "idle_week"
strength = "wish"
cost = 4
"""


def texts() -> dict[str, bytes]:
    """Return the files of the season: 560 games to be put on fields, and wishes that clash."""
    files = {
        "season.toml": _SEASON,
        "rulebook.toml": _RULEBOOK,
        "planning.toml": _PLANNING,
        "results.csv": "game,round,date,home,away,home_goals,away_goals\n",
        "teams.csv": _table("team,pool", _teams()),
        "fields.csv": _table("field,site", (f"Field {at + 1},Meadow" for at in range(FIELDS))),
        "sites.csv": _table("site", iter(["Meadow"])),
        "slots.csv": _table("field,weekday,from,until", _slots()),
    }
    return {name: text.encode() for name, text in files.items()}


def _teams() -> Iterator[str]:
    for at in range(TEAMS):
        yield f"Side {at + 1:03},Pool {at // POOL + 1:02}"


def _slots() -> Iterator[str]:
    for at in range(FIELDS):
        for weekday in WEEKDAYS:
            yield f"Field {at + 1},{weekday},18:00,22:30"


def _table(columns: str, rows: Iterator[str]) -> str:
    return "\n".join((columns, *rows, ""))
