"""Writes the folder of a large season: teams in pools, rosters, crews, people, certified logs."""

import csv
from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Final, NamedTuple

from benchmarks.games import DEVICES, game_entries, uuid7
from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import FOLDER, log_name
from wholeball.game.envelope import Draft, Entry, heads, next_clock, seal, stored_line
from wholeball.game.event import Moment
from wholeball.game.happenings import Certified, Happening, Rated, SentOff
from wholeball.kernel.identity import PoolId, TeamId
from wholeball.planning.pairings import pairings
from wholeball.planning.problem import Pairing
from wholeball.rulebook.load import load
from wholeball.usecases.start_season import start_season

TEAMS: Final = 160
POOL: Final = 8
GAMES: Final = 500
LOWER: Final = 7
SHIRTS: Final = (*range(1, LOWER + 1), *range(31, 31 + LOWER))
"""The numbers of a roster: the lower half plays, and the upper comes on for it."""
OFFICIALS: Final = 24
ROLES: Final = ("lead", "trail")
FIRST_DAY: Final = date(2026, 9, 7)
LAST_DAY: Final = date(2026, 11, 29)
DAYS: Final = 5
STARTS: Final = ("18:00", "19:00", "20:00", "21:00")
FIELDS: Final = 4


class Written(NamedTuple):
    """How large the season is that was written."""

    teams: int
    games: int


def write_folder(folder: Path, events: int) -> Written:
    """Write a season of games of so many events each; rated and certified after them."""
    start_season(
        FolderRecord(folder), preset="eight", timezone="Europe/London", first_day=FIRST_DAY
    )
    digest = load((folder / "rulebook.toml").read_bytes(), file="rulebook.toml").rulebook.digest
    pools = _pools()
    games = pairings(pools)[:GAMES]
    teams = [(team, pool) for pool, of_pool in pools.items() for team in of_pool]
    _write(folder, "teams.csv", ("team", "pool"), teams)
    _write(folder, "timetable.csv", _TIMETABLE, map(_fixture, range(GAMES), games))
    _write(folder, "crews.csv", ("game", "role", "official"), _crews(games))
    _write_people(folder, [team for team, _ in teams])
    (folder / FOLDER).mkdir(exist_ok=True)
    for number, game in enumerate(games, start=1):
        entries = game_entries(game.game, events, number, shirts=LOWER, rb=digest)
        log = b"".join(stored_line(one) + b"\n" for one in _finished(entries, number))
        (folder / log_name(game.game)).write_bytes(log)
    return Written(len(teams), len(games))


_TIMETABLE: Final = ("game", "round", "date", "start", "field", "home", "away")


def _pools() -> dict[PoolId, list[TeamId]]:
    return {
        PoolId(f"Pool {first // POOL + 1:02}"): [
            TeamId(f"Side {number:03}") for number in range(first + 1, first + 1 + POOL)
        ]
        for first in range(0, TEAMS, POOL)
    }


def _fixture(index: int, game: Pairing) -> tuple[object, ...]:
    """Place a game: fields first, then starts, then the days of its round's week."""
    per_week = FIELDS * len(STARTS) * DAYS
    week, place = divmod(index, per_week)
    slot, field = divmod(place, FIELDS)
    day, start = divmod(slot, len(STARTS))
    on = FIRST_DAY + timedelta(days=7 * week + day)
    return (
        game.game,
        game.round,
        on,
        STARTS[start],
        f"Field {field + 1}",
        game.home,
        game.away,
    )


def _crews(games: Sequence[Pairing]) -> list[tuple[str, str, str]]:
    return [
        (game.game, role, _official((len(ROLES) * index + at) % OFFICIALS))
        for index, game in enumerate(games)
        for at, role in enumerate(ROLES)
    ]


def _official(number: int) -> str:
    return f"Official {number + 1:02}"


def _write_people(folder: Path, teams: Sequence[TeamId]) -> None:
    players = [
        (team, shirt, f"Player {at} {shirt}", f"p{at}x{shirt}")
        for at, team in enumerate(teams)
        for shirt in SHIRTS
    ]
    _write(folder, "rosters.csv", ("team", "number", "name", "person"), players)
    known = [(person, date(2027, 6, 30)) for *_, person in players]
    _write(folder, "people.csv", ("person", "waiver_until"), known)
    _write(
        folder, "officials.csv", ("official",), [(_official(at),) for at in range(OFFICIALS)]
    )


def _write(
    folder: Path, name: str, columns: Sequence[str], rows: Iterable[Sequence[object]]
) -> None:
    with (folder / name).open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([columns, *rows])


def _finished(entries: list[Entry], number: int) -> list[Entry]:
    """Return a game's entries with what is written down after it, by its first device."""
    chance = Random(number)  # noqa: S311 - the same games in each run
    rated: list[Happening] = [
        Rated(side=side, by=by, hundredths=100 * chance.randrange(3, 6))
        for by in ("official", "second_official")
        for side in ("home", "away")
    ]
    if number % 10 == 0:
        rated.append(SentOff(side="home", number=number % LOWER + 1, reason="violent_conduct"))
    for what in rated:
        entries.append(_after(entries, what, chance))
    frontier = tuple((dev, last, head) for dev, (last, head) in sorted(heads(entries).items()))
    certified = Certified(by="A. Supervisor", state="", frontier=frontier)
    return [*entries, _after(entries, certified, chance)]


def _after(entries: list[Entry], what: Happening, chance: Random) -> Entry:
    """Return an entry of the first device after the others."""
    said = entries[-1].said
    last = next(one for one in reversed(entries) if one.said.dev == DEVICES[0])
    wall = said.wall + 1_000
    draft = Draft(
        id=uuid7(wall, chance),
        game=said.game,
        dev=DEVICES[0],
        hlc=next_clock(wall, [one.said.hlc for one in entries]),
        wall=wall,
        mono=said.mono + 1_000,
        at=Moment(said.per, said.clk),
        who="u-1",
        role="supervisor",
        what=what,
        seen=heads(entries),
        rb=said.rb,
    )
    return seal(draft, after=last)
