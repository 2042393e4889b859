"""A full disk and a kill -9 while entries are stored get the outcome that the check data names.

The oracles: SQLite itself, which is given no page more, and what another process said was
stored before it was killed.
"""

import random
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Final, NamedTuple

import pytest

from cases.in_site import TESTS, in_site
from cases.no_room import desk_on_a_full_disk, entries_on_a_full_disk
from cases.sealed import GAME
from cases.served_site import environment_of
from external.attacks import WHILE_WRITING, Outcome, expected, rows_about, subjects_of
from external.cases import Case, by_id
from wholeball.game.codec import read_log
from wholeball.game.envelope import verify

LOG: Final = f"games/{GAME}.jsonl"
KILLS: Final = 4
MOST_TOLD: Final = 25


class Said(NamedTuple):
    """What a process said of an entry that it stored: number, hash, seconds since it began."""

    seq: int
    hash: str
    at: float


@pytest.mark.parametrize("row", by_id(rows_about(WHILE_WRITING)))
def test_writing_gives_the_outcome_the_row_names(row: Case, tmp_path: Path) -> None:
    (subject,) = subjects_of(row)
    assert RECIPES[subject](tmp_path) == expected(row)


def test_a_page_of_the_desk_says_that_the_disk_is_full_and_keeps_nothing(
    tmp_path: Path,
) -> None:
    done = in_site(tmp_path, desk_on_a_full_disk, folder=str(tmp_path))
    assert (done["status"], done["changed"]) == (422, False), done["says"]
    assert "disk is full" in done["says"]
    assert done["front"] == 200  # what is only read stays readable
    assert "once whoever runs the site has made room" in done["says"]


def full_disk(folder: Path) -> Outcome:
    done = in_site(folder, entries_on_a_full_disk)
    assert done["is_what_was_acknowledged"]
    assert done["goes_on_after"]
    return Outcome("reject", done["code"])


def killed_while_storing(folder: Path) -> Outcome:
    chance = random.Random(2026)
    told: list[Said] = []
    firsts = []
    for _ in range(KILLS):
        now = _stored_until_killed(folder, chance.randint(1, MOST_TOLD))
        firsts.append(now[0].at)
        told += now
        _holds(folder / "wholeball.sqlite3", told)
    assert min(firsts) < 1.0, firsts  # the machine may have other work at one of them
    return Outcome("accept", "ok")


def _stored_until_killed(folder: Path, count: int) -> list[Said]:
    """Return what a process said, that went on where the log ended and was killed by SIGKILL."""
    with subprocess.Popen(
        [sys.executable, "-m", "cases.appends"],
        cwd=TESTS,
        env=environment_of(folder, DJANGO_SETTINGS_MODULE="wholeball.site.settings"),
        stdout=subprocess.PIPE,
        text=True,
    ) as process:
        assert process.stdout is not None
        lines = [process.stdout.readline() for _ in range(count)]
        process.kill()
        lines += process.stdout.readlines()  # what it said before the kill reached it
    told = [line.split() for line in lines if line.endswith("\n")]
    return [Said(int(seq), sealed, float(at)) for seq, sealed, at in told]


def _holds(file: Path, told: list[Said]) -> None:
    """Hold that the database is whole, and has every entry it told of, once and in one chain."""
    with sqlite3.connect(file) as database:
        assert database.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        rows = database.execute("SELECT line FROM store_logentry ORDER BY position")
        stored = "".join(f"{line}\n" for (line,) in rows).encode()
    entries = read_log(stored, game=GAME, file=LOG)
    assert verify(entries).findings == ()
    kept = [(one.said.seq, one.hash) for one in entries]
    assert [seq for seq, _ in kept] == [*range(1, len(kept) + 1)]
    assert {(one.seq, one.hash) for one in told} <= set(kept)


RECIPES: Final[dict[str, Callable[[Path], Outcome]]] = {
    "a full disk": full_disk,
    "a kill": killed_while_storing,
}
