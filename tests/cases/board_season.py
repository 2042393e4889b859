"""Makes a season of three sites with games tonight and in a week, and people who are told."""

from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Final
from zoneinfo import ZoneInfo

from cases.desk_season import CREW
from cases.planned_season import RULEBOOK, write_folder

TEAMS: Final = ("Ash", "Birch", "Cedar", "Dogwood", "Elm", "Fir")
CREWS: Final = """game,role,official
1,referee,Ada Quill
2,referee,Bo Tarn
3,referee,Cy Imbray
4,referee,Ada Quill
"""
OFFICIALS: Final = "official\nAda Quill\nBo Tarn\nCy Imbray\n"
SITES: Final = "site\nNorth Lea\nSouth Lea\nWest Lea\n"
MORNING: Final = 8
FIELDS: Final = "field,site\nNorth 1,North Lea\nSouth 1,South Lea\nWest 1,West Lea\n"


def zone_at(hour: int) -> str:
    """Return a zone in which it is now past this hour."""
    ahead = (hour - datetime.now(UTC).hour + 12) % 24 - 12
    return f"Etc/GMT{-ahead:+d}"  # these names count hours behind Greenwich, not ahead of it


ZONE: Final = zone_at(MORNING)
"""No day ends in it while tests run, and no game begins."""


def tonight(zone: str = ZONE) -> datetime:
    """Return the moment, local to the season; its day is the season's first night."""
    return datetime.now(ZoneInfo(zone))


def a_board(place: Path, zone: str = ZONE, **changed: str) -> Path:
    """Write the season's folder: games 1 to 3 tonight at 19:00, 4 to 6 in a week."""
    first = tonight(zone).date()
    last = first + timedelta(days=41)
    weekday = f"{first:%A}".lower()
    later = first + timedelta(days=7)
    files = {
        "season_toml": f'schema = 1\nname = "Three Leas"\ntimezone = "{zone}"\n'
        f"first_day = {first}\nlast_day = {last}\n",
        "rulebook_toml": RULEBOOK + CREW,
        "teams_csv": "team,pool\n" + "".join(f"{team},A\n" for team in TEAMS),
        "sites_csv": SITES,
        "fields_csv": FIELDS,
        "officials_csv": OFFICIALS,
        "crews_csv": CREWS,
        "slots_csv": "field,weekday,from,until,minutes\n"
        + "".join(
            f"{name} 1,{weekday},18:00,22:00,60\n" for name in ("North", "South", "West")
        ),
        "timetable_csv": "game,round,date,start,field,home,away\n"
        f"1,1,{first},19:00,North 1,Ash,Birch\n"
        f"2,1,{first},19:00,South 1,Cedar,Dogwood\n"
        f"3,1,{first},19:00,West 1,Elm,Fir\n"
        f"4,2,{later},19:00,North 1,Ash,Cedar\n"
        f"5,2,{later},19:00,South 1,Birch,Elm\n"
        f"6,2,{later},19:00,West 1,Dogwood,Fir\n",
        **changed,
    }
    return write_folder(place, **files)
