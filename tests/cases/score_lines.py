"""Reads results as newspapers print them: the home side, the score, the away side."""

import re
from typing import Final, Literal

from wholeball.kernel.identity import GameId, TeamId
from wholeball.season.result import Result

_LINE: Final = re.compile(r"\s*(.+?) (\d+)-(\d+) (.+?)\s*")


def result_in(number: int, line: str, how: Literal["played", "awarded"] = "played") -> Result:
    """Return the result of a line such as "Ash 2-0 Birch", as the game of that number."""
    found = _LINE.fullmatch(line)
    assert found is not None, line
    home, home_goals, away_goals, away = found.groups()
    return Result(
        game=GameId(f"{number}"),
        round=1,
        home=TeamId(home),
        away=TeamId(away),
        home_goals=int(home_goals),
        away_goals=int(away_goals),
        how=how,
    )
