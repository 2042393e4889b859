"""Writes small seasons of persons: games, what each was shown in them, and a rulebook."""

from collections.abc import Iterable, Mapping
from datetime import date, time
from typing import Final, Literal, TypeAlias

from wholeball.game.event import Moment
from wholeball.kernel.identity import DivisionId, GameId, PersonId, PoolId, Side, TeamId
from wholeball.league.division import Division
from wholeball.league.fixture import Fixture, Stage
from wholeball.league.league import League, Team
from wholeball.league.player import Player, Rosters
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.load import load
from wholeball.season.appearances import Appearance, CheckedIn, GameSheet, PersonCard
from wholeball.season.result import How, Result

Shown: TypeAlias = Literal["yellow", "second", "red"]
TEAMS: Final = {"Ash": "al bo", "Birch": "cy di", "Cedar": "al ed", "Dogwood": "fi gu"}
"""Who plays where: al plays for Ash and, in another league, for Cedar."""


def book(text: str = "") -> Rulebook:
    """Return the Laws with some house rules over them."""
    head = 'schema = 1\nname = "House"\nbase = "laws-2025-26"\n'
    return load(f"{head}{text}".encode(), file="rulebook.toml").rulebook


def league(*, split: bool = True) -> League:
    """Return four teams, Cedar and Dogwood in a second league unless all play in one."""
    divisions = (
        Division(division=DivisionId("one"), league="autumn"),
        Division(division=DivisionId("two"), league="indoors"),
    )
    return League(
        name="Meadow",
        timezone="America/Chicago",
        first_day=date(2026, 9, 1),
        last_day=date(2026, 12, 1),
        teams=tuple(
            Team(
                team=TeamId(name),
                pool=PoolId("A"),
                division=DivisionId("one" if name in ("Ash", "Birch") else "two")
                if split
                else None,
            )
            for name in TEAMS
        ),
        divisions=divisions if split else (),
    )


def rosters(teams: Mapping[str, str] | None = None) -> Rosters:
    """Return rosters of persons whose code is their name; shirts are numbered from 1."""
    return {
        TeamId(team): tuple(
            Player(name=name.title(), number=number, person=PersonId(name))
            for number, name in enumerate(names.split(), start=1)
        )
        for team, names in (teams or TEAMS).items()
    }


def fixture(
    day: int,
    teams: str = "Ash Birch",
    *,
    hour: int = 19,
    stage: Stage = "league",
) -> Fixture:
    """Return a game of September, named by day, hour and home team."""
    home, away = teams.split()
    return Fixture(
        game=GameId(f"{home[0]}{day}" if hour == 19 else f"{home[0]}{day}-{hour}"),
        round=1,
        day=date(2026, 9, day),
        start=time(hour),
        field="Field 1",
        home=TeamId(home),
        away=TeamId(away),
        stage=stage,
    )


def sheet(
    of: Fixture,
    *,
    how: How | None = "played",
    by: Side | None = None,
    is_played: bool | None = None,
    shown: Mapping[str, str] | None = None,
    appeared: Iterable[str] = (),
    team: str = "",
) -> GameSheet:
    """Return what a game says of people: `shown` is yellow, second or red by person.

    They are players of `team`, the home team otherwise.
    """
    name = TeamId(team or of.home)
    side: Side = "home" if name == of.home else "away"
    score = (3, 2) if how == "awarded" else None
    return GameSheet(
        fixture=of,
        result=how
        and Result(
            game=of.game,
            round=of.round,
            home=of.home,
            away=of.away,
            how=how,
            by=by,
            played_score=score,
        ),
        is_played=how in ("played", "awarded", None) if is_played is None else is_played,
        appeared=tuple(
            Appearance(person=PersonId(one), team=name, side=side, number=None)
            for one in appeared
        ),
        checked_in=CheckedIn(home=bool(appeared), away=bool(appeared)),
        cards=tuple(
            PersonCard(
                person=PersonId(person),
                side=side,
                team=name,
                number=None,
                colour="yellow" if kind == "yellow" else "red",
                second_caution=kind == "second",
                event=f"{of.game}-{person}-{index}",
                at=Moment(1, 60),
            )
            for person, kinds in (shown or {}).items()
            for index, kind in enumerate(kinds.split())
        ),
    )
