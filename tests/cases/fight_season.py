"""Makes a season whose game of Sunday ended in a fight, and puts it into a site that is served."""

from datetime import UTC, date, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any, Final

from cases.desk_season import CREW
from cases.people_season import RULES, write_people

WAITS: Final = RULES.replace("until_meeting = false", "until_meeting = true")
_CREWS: Final = "game,role,official\nA1,referee,Ada Quill\nA1,scorekeeper,Bo Tarn\n"
_OFFICIALS: Final = "official\nAda Quill\nBo Tarn\n"
_GAMES: Final = (
    ("A1", 1, -3, "19:00", "Ash", "Birch"),
    ("C1", 1, -3, "21:00", "Cedar", "Dogwood"),
    ("A2", 2, 4, "19:00", "Birch", "Ash"),
    ("C2", 2, 4, "21:00", "Dogwood", "Cedar"),
    ("A3", 3, 11, "19:00", "Ash", "Elder"),
    ("A4", 4, 18, "19:00", "Elder", "Birch"),
    ("A5", 5, 25, "19:00", "Birch", "Ash"),
)
"""Games, and how many days before or after today they are."""


@cache
def today() -> date:
    """Return the day on which the season is looked at."""
    return datetime.now(UTC).date()


def day_of(game: str) -> date:
    """Return the day of a game."""
    return today() + timedelta(days=next(days for name, _, days, *_ in _GAMES if name == game))


def a_fight(place: Path) -> Path:
    """Write the season's folder: A1 was played three days ago, and nothing of it is recorded."""
    rows = (
        f"{game},{number},{today() + timedelta(days=days)},{at},Field 1,{home},{away}\n"
        for game, number, days, at, home, away in _GAMES
    )
    folder = write_people(
        place,
        rules=WAITS + CREW,
        crews=_CREWS,
        officials=_OFFICIALS,
        timetable="game,round,date,start,field,home,away\n" + "".join(rows),
    )
    first, last = today() - timedelta(days=30), today() + timedelta(days=60)
    (folder / "season.toml").write_text(
        'schema = 1\nname = "Meadow"\ntimezone = "America/Chicago"\n'
        f"first_day = {first}\nlast_day = {last}\n",
        encoding="utf-8",
    )
    return folder


def put_fight(folder: str) -> dict[str, str]:
    """Take the season in, open to everybody; return the sessions of those who look at it."""
    from cases.desk_season import member, put_season  # noqa: PLC0415 - after Django is set up
    from cases.stored import a_season  # noqa: PLC0415

    season = a_season()
    season.is_public = True
    season.save()
    put_season(season, Path(folder))
    people = {
        "coordinator": member(season, "coordinator"),
        "referee": member(season, "official", person="Ada Quill"),
        "scorekeeper": member(season, "scorekeeper", person="Bo Tarn"),
        "captain": member(season, "captain", team="Birch", person="k-rangi"),
    }
    return {role: client.cookies["sessionid"].value for role, client in people.items()}


def noted() -> list[list[Any]]:
    """Return what the audit holds: who, what they did, and to what; the earliest first."""
    from wholeball.store.models import AuditRow  # noqa: PLC0415

    rows = AuditRow.objects.order_by("number").select_related("account")
    return [[str(one.account), one.did, one.what] for one in rows]
