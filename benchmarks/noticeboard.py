"""Measures the noticeboard: a page's work beside its template, and a paced load beside an idle one.

`python -m benchmarks.noticeboard` runs the page; with `load` it serves the site and asks it 20
times a second for 60 seconds, idle and then while a timetable is planned beside it.
"""

import os
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from random import Random
from statistics import median
from time import perf_counter
from typing import Any, Final

TEAMS: Final = 100
ROUNDS: Final = 10
REPETITIONS: Final = 21
ROOT: Final = "/bench/autumn/"
TABLE: Final = f"{ROOT}standings/1/"
FIRST: Final = date(2026, 9, 14)
MOST_QUERIES: Final = 6


def measure() -> bool:
    """Print what the standings page of 100 teams costs, and tell whether it is within bounds."""
    with _site():
        return _page()


def _page() -> bool:
    from django.db import connection  # noqa: PLC0415 - once settings are named
    from django.test import Client  # noqa: PLC0415
    from django.test.utils import CaptureQueriesContext  # noqa: PLC0415

    from wholeball.reports import standings_page  # noqa: PLC0415
    from wholeball.reports.shell import rendered  # noqa: PLC0415
    from wholeball.store.models import Derived  # noqa: PLC0415

    client = Client()
    asked: list[tuple[tuple[Any, ...], dict[str, Any]]] = []

    def noted(*words: Any, **values: Any) -> str:
        asked.append((words, values))
        return rendered(*words, **values)

    setattr(standings_page, "rendered", noted)  # noqa: B010 - only to see what it is given
    first = client.get(TABLE)
    setattr(standings_page, "rendered", rendered)  # noqa: B010
    words, values = asked[0]
    with CaptureQueriesContext(connection) as captured:
        client.get(TABLE)
    queries = len(captured)

    def anew() -> None:
        Derived.objects.all().delete()
        client.get(TABLE)

    def same() -> None:
        client.get(TABLE, HTTP_IF_NONE_MATCH=first.headers["ETag"])

    template = _seconds(lambda: rendered(*words, **values))
    rows = (
        ("kept page", _seconds(lambda: client.get(TABLE)) / template, 2.5),
        ("304", _seconds(same) / template, 2.5),
        ("page made anew", _seconds(anew) / template, float("inf")),
    )
    print(f"standings of {TEAMS} teams, {len(first.content):,} bytes, {queries} queries")
    print(f"its template: {template * 1000:.1f} ms")
    for what, ratio, most in rows:
        verdict = "within" if ratio <= most else "ABOVE"
        print(f"{what}: {ratio:.2f} x its template ({verdict} {most:g})")
    return queries <= MOST_QUERIES and all(ratio <= most for _, ratio, most in rows)


def _seconds(does: Callable[[], object]) -> float:
    taken = []
    for _ in range(REPETITIONS):
        begins = perf_counter()
        does()
        taken.append(perf_counter() - begins)
    return median(taken)


@contextmanager
def _site() -> Iterator[Path]:
    """Set up an empty site of its own with the season in it."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ["WHOLEBALL_DATA"] = folder
        os.environ["WHOLEBALL_HOSTS"] = "127.0.0.1,localhost,testserver"
        os.environ["DJANGO_SETTINGS_MODULE"] = "wholeball.site.settings"
        import django  # noqa: PLC0415 - once settings are named
        from django.core.management import call_command  # noqa: PLC0415

        django.setup()
        call_command("migrate", verbosity=0)
        put_season()
        yield Path(folder)


def put_season() -> None:
    """Put a public season of one pool into the site's database."""
    from wholeball.store.models import Organisation, Season  # noqa: PLC0415
    from wholeball.store.record import DatabaseRecord  # noqa: PLC0415
    from wholeball.store.writing import Writer  # noqa: PLC0415

    organisation = Organisation.objects.create(name="Bench", slug="bench")
    season = Season.objects.create(
        organisation=organisation, slug="autumn", name="Autumn", is_public=True
    )
    writer = Writer(account=None, at=datetime(2026, 11, 26, tzinfo=UTC))
    DatabaseRecord(season, writer).write(texts())


def texts() -> dict[str, bytes]:
    """Return the files of a season of one pool: ten rounds of fifty games, scores by chance."""
    draws = Random(1)  # noqa: S311 - seeded, and only scores
    teams = [f"Team {number:03}" for number in range(TEAMS)]
    games, results = [], []
    for round_ in range(1, ROUNDS + 1):
        night = FIRST + timedelta(weeks=round_ - 1)
        order = draws.sample(teams, len(teams))
        for at, (home, away) in enumerate(zip(order[::2], order[1::2], strict=True)):
            game = f"G{round_}-{at}"
            field, start = f"Field {at % 10}", f"{17 + at // 10}:00"
            games.append(f"{game},{round_},{night},{start},{field},{home},{away}")
            score = f"{draws.randint(0, 4)},{draws.randint(0, 4)}"
            results.append(f"{game},{round_},{night},{home},{away},{score}")
    files = {
        "season.toml": 'schema = 1\nname = "Bench"\ntimezone = "America/Chicago"\n'
        "first_day = 2026-09-14\nlast_day = 2026-12-20\n",
        "rulebook.toml": 'base = "laws-2025-26"\nname = "House rules"\n'
        "game = { periods = 2, minutes = 20, interval_minutes = 5 }\n",
        "teams.csv": "\n".join(["team,pool", *(f"{team},A" for team in teams), ""]),
        "timetable.csv": "\n".join(["game,round,date,start,field,home,away", *games, ""]),
        "results.csv": "\n".join(
            ["game,round,date,home,away,home_goals,away_goals", *results, ""]
        ),
    }
    return {name: text.encode() for name, text in files.items()}


def main(words: list[str]) -> int:
    """Run the page, or the load."""
    if words == ["load"]:
        from benchmarks.noticeboard_load import load  # noqa: PLC0415 - it serves the site

        with _site() as data:
            return int(not load(data, ROOT))
    return int(not measure())


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
