"""Makes nights at the field: games, crews, sites, and who may not play."""

from collections.abc import Collection, Iterable, Sequence
from datetime import date, datetime, time
from io import BytesIO
from typing import Final

from pypdf import PdfReader

from wholeball.kernel.identity import GameId, PersonId, PoolId, SiteId, TeamId
from wholeball.league.crew import OnCrew
from wholeball.league.fixture import Fixture, From, OpenFixture
from wholeball.league.league import Team
from wholeball.league.place import Field, Site
from wholeball.league.player import Player
from wholeball.reports.night import GateList, Night, night_games, night_sites
from wholeball.reports.scorecards import scorecards
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.load import load
from wholeball.season.eligibility import GateLine
from wholeball.season.reason_not import Reason

DAY: Final = date(2026, 10, 13)
PRINTED: Final = datetime(2026, 10, 13, 15, 5)  # noqa: DTZ001 - local time, as sheets print it
MEADOW: Final = Site(
    site=SiteId("Long Meadow"),
    address="14 Weir Lane",
    gate="east gate",
    gate_opener="key box by the shed",
    aed="shed wall",
    calls="supervisor",
    meets="scorekeeper of Field 2",
    shelter="boathouse",
)
_SUSPENDED: Final = Reason(code="suspended", article="discipline.red", count=3)


def book(text: str = "") -> Rulebook:
    """Return the Laws with a crew of three, officials who rate, and some house rules."""
    house = """
schema = 1
base = "laws-2025-26"
name = "House rules, eights"
ratings = { ref = "H 9.1", by = "officials" }
crew = { ref = "H 2.1", size = 3, roles = ["lead", "trail", "scorekeeper"], least = 2, system = "dual" }
"""
    return load(f"{house}{text}".encode(), file="rulebook.toml").rulebook


def players(names: Iterable[str]) -> tuple[Player, ...]:
    """Return players with numbers from 1 and the last digits 701, 702 and so on."""
    return tuple(
        Player(name=name, number=nth, id_end=f"{700 + nth}")
        for nth, name in enumerate(names, start=1)
    )


def night(
    games: int = 2,
    *,
    names: Sequence[str] = ("Noor Zephirou", "Umaru Kealohana", "Ondine Havenko"),
    teams: Sequence[str] = (),
    stopped: Collection[str] = (),
    crews: Iterable[OnCrew] = (),
    site: Site | None = MEADOW,
    open_game: bool = False,
    colours: Sequence[str] = ("navy", "red"),
) -> Night:
    """Return a night of games from 18:00 on, two an hour on Field 1 and Field 2.

    Every team has the players `names`; those of `stopped` are suspended.
    """
    called = [TeamId(name) for name in teams or map(_team, range(2 * games))]
    listed = [
        Team(team=name, pool=PoolId("A"), colours=colours[nth % 2])
        for nth, name in enumerate(called)
    ]
    fixtures = [
        Fixture(
            game=GameId(f"W{nth}"),
            round=1,
            day=DAY,
            start=time(18 + nth // 2 % 6, nth // 12),
            field=f"Field {nth % 2 + 1}",
            home=called[2 * nth],
            away=called[2 * nth + 1],
        )
        for nth in range(games)
    ]
    to_come = [_open(called[0])] if open_game else []
    told = night_games([*fixtures, *to_come], listed, crews, ("lead", "trail", "scorekeeper"))
    fields = [] if site is None else [Field(field=f"Field {n}", site=site.site) for n in (1, 2)]
    gate = tuple(
        GateLine(
            player=one,
            person=PersonId(one.name),
            reasons=(_SUSPENDED,) if one.name in stopped else (),
        )
        for one in players(names)
    )
    return Night(
        league="Autumn eights",
        day=DAY,
        games=told,
        sites=night_sites(told, () if site is None else (site,), fields),
        gates=tuple(GateList(game=one, home=gate, away=gate) for one in told[:games]),
        cards=scorecards(fixtures, listed, dict.fromkeys(called, players(names))),
    )


def page_texts(pdf: bytes) -> list[str]:
    """Return the words of each page, each run of blanks as one space."""
    pages = PdfReader(BytesIO(pdf)).pages
    return [" ".join(page.extract_text().split()) for page in pages]


def _team(nth: int) -> str:
    return f"Team {chr(ord('A') + nth // 26)}{chr(ord('A') + nth % 26)}"


def _open(known: TeamId) -> OpenFixture:
    return OpenFixture(
        game=GameId("P9"),
        round=9,
        day=DAY,
        start=time(23),
        field="Field 1",
        home=From(game=GameId("P1")),
        away=known,
    )
