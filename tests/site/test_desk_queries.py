"""Lists of the desk ask the database as often for many rows as for few."""

from pathlib import Path

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from cases.desk_season import DeskSeason, a_desk, at
from cases.stored import written_by
from wholeball.store.derived import forget

pytestmark = pytest.mark.django_db
LISTS = (
    "today",
    "doubts",
    "season",
    "sign_ups",
    "officials_list",
    "nights",
    "standings",
    "results",
    "suspensions",
    "fees",
    "clearances",
    "ratings",
    "report",
    "bracket",
    "lots",
)


def asked(desk: DeskSeason) -> dict[str, tuple[int, int]]:
    """Return how many queries each list takes where nothing of the season is kept, and where it is."""
    coordinator, found = desk.people["coordinator"], {}
    for name in LISTS:
        address, taken = at(name), []
        coordinator.get(address)
        forget()
        for _ in range(2):
            with CaptureQueriesContext(connection) as seen:
                coordinator.get(address)
            taken.append(len(seen))
        found[name] = (taken[0], taken[1])
    return found


def test_a_hundred_teams_and_games_take_as_many_queries_as_five(tmp_path: Path) -> None:
    desk = a_desk(tmp_path)
    few = asked(desk)
    texts = desk.texts()
    names = [f"Team {number}" for number in range(1, 101)]
    pairs = zip(names[::2], names[1::2], strict=True)
    teams = "".join(f"{name},A,one\n" for name in names)
    games = "".join(
        f"G{number},1,2026-09-{16 + number % 10},19:00,Field {number + 2},{home},{away}\n"
        for number, (home, away) in enumerate(pairs)
    )
    players = "".join(f"{name},{shirt},P {shirt},\n" for name in names for shirt in range(12))
    more = {"teams.csv": teams, "timetable.csv": games, "rosters.csv": players}
    record = written_by(desk.season)
    record.write({name: texts[name] + rows.encode() for name, rows in more.items()})
    with record.held():
        for number in range(50):
            record.append(
                f"games/G{number}.jsonl",
                texts["games/A1.jsonl"].replace(b'"A1"', f'"G{number}"'.encode()),
            )
    assert asked(desk) == few
    assert max(few.values()) <= (45, 15)
