"""Measures a night's packet of twelve games against the very words it prints as plain paragraphs.

Both are typst documents with the same letters and standard. The reference has none of the packet's
layout: no box, no list, no sheet that begins on the front. Both are made once in each of several
fresh processes, as a user makes them, and the collector is spared what has been imported.
"""

import gc
import json
import sys
from collections.abc import Callable
from datetime import date, datetime, time
from statistics import median

from benchmarks.in_turn import Measured, timed
from benchmarks.plain import PLAIN, fresh, words
from benchmarks.scorecards import FIRST, HOUSE, LAST
from wholeball.kernel.identity import GameId, PersonId, PoolId, SiteId, TeamId
from wholeball.league.crew import OnCrew
from wholeball.league.fixture import Fixture
from wholeball.league.league import Team
from wholeball.league.place import Field, Site
from wholeball.league.player import Player
from wholeball.reports.night import GateList, Night, night_games, night_sites
from wholeball.reports.night_packet_pdf import night_packet_pdf
from wholeball.reports.scorecards import scorecards
from wholeball.reports.typeset import compiled
from wholeball.rulebook.load import load
from wholeball.season.eligibility import GateLine
from wholeball.season.reason_not import Reason

REPETITIONS = 11
GAMES = 12
ROSTER = 14
NIGHT = date(2026, 10, 13)
ROLES = ("lead", "trail", "scorekeeper")


def measure() -> list[Measured]:
    """Return for each operation its name, its reference, the ratio, and the most allowed."""
    given = words(_packet()())
    runs = [fresh("benchmarks.packet", given) for _ in range(REPETITIONS)]
    plain, made = (median(times) for times in zip(*runs, strict=True))
    told = (
        f"packet: PDF of {GAMES} games, {sum(map(len, given)):,} letters, {made * 1000:.0f} ms"
    )
    return [(told, f"the same words, plain, {plain * 1000:.0f} ms", made / plain, 2.0)]


def _packet() -> Callable[[], bytes]:
    """Return what prints the packet; every second game has a lead, one player a side is stopped."""
    book = load(HOUSE, file="house.toml").rulebook
    teams = [
        Team(
            team=TeamId(f"Team of {LAST[nth % 9]} {nth}"),
            pool=PoolId("A"),
            colours=f"shade {nth}",
        )
        for nth in range(2 * GAMES)
    ]
    fixtures = [
        Fixture(
            game=GameId(f"G{nth}"),
            round=1,
            day=NIGHT,
            start=time(18 + nth // 4),
            field=f"Field {nth % 4 + 1}",
            home=teams[2 * nth].team,
            away=teams[2 * nth + 1].team,
        )
        for nth in range(GAMES)
    ]
    rosters = {team.team: _roster(nth) for nth, team in enumerate(teams)}
    crews = [
        OnCrew(game=one.game, role="lead", official="R. Farrowby") for one in fixtures[::2]
    ]
    games = night_games(fixtures, teams, crews, ROLES)
    site = Site(site=SiteId("Meadow"), address="14 Weir Lane", aed="Shed wall")
    fields = [Field(field=f"Field {nth}", site=site.site) for nth in range(1, 5)]
    night = Night(
        league="Autumn eights",
        day=NIGHT,
        games=games,
        sites=night_sites(games, [site], fields),
        gates=tuple(
            GateList(game=game, home=_gate(rosters[one.home]), away=_gate(rosters[one.away]))
            for game, one in zip(games, fixtures, strict=True)
        ),
        cards=scorecards(fixtures, teams, rosters),
    )
    printed = datetime(2026, 10, 13, 15, 5)  # noqa: DTZ001 - local time, as sheets print it
    return lambda: night_packet_pdf(night, book, printed=printed, paper="a4")


def _roster(team: int) -> tuple[Player, ...]:
    return tuple(
        Player(
            name=f"{FIRST[(nth + team) % 10]} {LAST[(nth * 2 + team) % 9]}",
            number=nth * 3 + 1,
            id_end=f"{nth * 37 + team:03}",
        )
        for nth in range(ROSTER)
    )


def _gate(players: tuple[Player, ...]) -> tuple[GateLine, ...]:
    stopped = Reason(code="suspended", article="discipline")
    return tuple(
        GateLine(player=one, person=PersonId(one.name), reasons=(stopped,) if nth == 5 else ())
        for nth, one in enumerate(players)
    )


if __name__ == "__main__":
    given = sys.stdin.read()
    subject = _packet()
    gc.freeze()
    compiled(PLAIN, data=json.dumps(["the letters are read once, before both"]))
    print(timed(lambda: compiled(PLAIN, data=given)), timed(subject))
