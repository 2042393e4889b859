"""Has the season.toml of a small league, for folders that need no other."""

from typing import Final

SEASON: Final = """schema = 1
name = "Meadow"
timezone = "America/Chicago"
first_day = 2026-09-14
last_day = 2026-12-04
"""
