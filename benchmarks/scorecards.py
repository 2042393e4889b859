"""Measures the PDF of sixty scorecards against the very words they print as plain paragraphs.

Both are typst documents with the same page, letters and standard. The reference has none of the
scorecards' layout: no box, no roster's lines, no strip beside them. Both are made once in each of
several fresh processes, as a user makes them, and the collector is spared what has been imported.
"""

import gc
import json
import sys
from collections.abc import Callable
from datetime import date, datetime, time, timedelta
from statistics import median

from benchmarks.in_turn import Measured, timed
from benchmarks.plain import PLAIN, fresh, words
from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.league.fixture import Fixture, Stage
from wholeball.league.league import Team
from wholeball.league.player import Player
from wholeball.reports.scorecards import scorecards
from wholeball.reports.scorecards_pdf import scorecards_pdf
from wholeball.reports.typeset import compiled
from wholeball.rulebook.load import load

REPETITIONS = 11
GAMES = 60
ROSTER = 14
FIRST = (
    "Ines",
    "Wim",
    "Oluchi",
    "Tamsin",
    "Rafe",
    "Yuki",
    "Mele",
    "Anwar",
    "Sunniva",
    "Ciaran",
)
LAST = (
    "Brandreth",
    "Okonjo",
    "Vantongeren",
    "Sorrel",
    "Tanabe",
    "Fifita",
    "Qasimi",
    "Halvard",
    "Pell",
)
HOUSE = b"""
schema = 1
base = "laws-2025-26"
name = "House rules, eights"
sides = { ref = "H 3.1", on_field = 8, minimum_to_start = 6, minimum_to_continue = 5, why = "Eight fit the field." }
game = { ref = "H 5.1", minutes = 22, interval_minutes = 5 }
goalkeeper.hold = { ref = "H 4.2", seconds = 12, then = "indirect_free_kick", why = "New goalkeepers need longer." }
mercy = { ref = "H 7.2", why = "Long one-sided games end in injuries.", ladder = [{ lead = 9, minutes_left = 8 }] }
ties = { ref = "H 7.3", league = "draw", play_off = "overtime_then_kicks" }
overtime = { ref = "H 7.4", ends = "full_time", periods = 1, minutes = 7, interval_minutes = 1, why = "The lights." }
ratings = { ref = "H 9.1", by = "officials" }
"""


def measure() -> list[Measured]:
    """Return for each operation its name, its reference, the ratio, and the most allowed."""
    given = words(_sheets()())
    runs = [fresh("benchmarks.scorecards", given) for _ in range(REPETITIONS)]
    plain, made = (median(times) for times in zip(*runs, strict=True))
    told = f"scorecards: PDF of {GAMES}, {sum(map(len, given)):,} letters, {made * 1000:.0f} ms"
    return [(told, f"the same words, plain, {plain * 1000:.0f} ms", made / plain, 2.0)]


def _sheets() -> Callable[[], bytes]:
    """Return what prints sixty scorecards, half of league games, half of play-off games."""
    book = load(HOUSE, file="house.toml").rulebook
    teams = [
        Team(
            team=TeamId(f"Team of {LAST[nth % 9]} {nth}"),
            pool=PoolId("A"),
            colours=f"shade {nth}",
        )
        for nth in range(2 * GAMES)
    ]
    rosters = {team.team: _roster(nth) for nth, team in enumerate(teams)}
    fixtures = [
        _fixture(nth, teams[2 * nth].team, teams[2 * nth + 1].team) for nth in range(GAMES)
    ]
    cards = scorecards(fixtures, teams, rosters)
    printed = datetime(2026, 10, 13, 15, 5)  # noqa: DTZ001 - local time, as sheets print it
    return lambda: scorecards_pdf(cards, book, printed=printed, paper="a4")


def _roster(team: int) -> tuple[Player, ...]:
    return tuple(
        Player(
            name=f"{FIRST[(nth + team) % 10]} {LAST[(nth * 2 + team) % 9]}", number=nth * 3 + 1
        )
        for nth in range(ROSTER)
    )


def _fixture(nth: int, home: TeamId, away: TeamId) -> Fixture:
    stage: Stage = "play_off" if nth % 2 else "league"
    return Fixture(
        game=GameId(f"G{nth}"),
        round=1,
        day=date(2026, 10, 13) + timedelta(days=nth // 20),
        start=time(18 + nth % 4),
        field=f"Field {nth % 5 + 1}",
        home=home,
        away=away,
        stage=stage,
    )


if __name__ == "__main__":
    given = sys.stdin.read()
    subject = _sheets()
    gc.freeze()
    compiled(PLAIN, data=json.dumps(["the letters are read once, before both"]))
    print(timed(lambda: compiled(PLAIN, data=given)), timed(subject))
