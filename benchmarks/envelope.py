"""Times verifying a game's chains and reading its entries against the least that could do."""

import hashlib
import json
from collections.abc import Callable
from time import perf_counter
from typing import TypeAlias

from benchmarks.games import EVENTS, game_log
from wholeball.game.codec import event, read_log
from wholeball.game.envelope import Entry, stored_entry, verify
from wholeball.game.event import Event

REPEATS = 41
Measured: TypeAlias = tuple[str, str, float, float]


def measure() -> list[Measured]:
    """Return the ratios, the best of 41 in turn."""
    log = game_log()
    lines = log.splitlines()
    entries = [one for line in lines if (one := stored_entry(line)) is not None]
    bodies = [one.body for one in entries]
    verified = _ratio(lambda: verify(entries), lambda: _hash(bodies))
    decoded = _ratio(lambda: decode(lines), lambda: _json(lines))
    checked = _ratio(lambda: read_log(log, game="g-1", file="g-1.jsonl"), lambda: _json(lines))
    what = f"of a game of {EVENTS} events"
    return [
        (f"verify chains {what}, bytes kept verbatim", "hashlib, same bytes", verified, 3.0),
        (f"read entries and events {what}", "json.loads, same lines", decoded, 1.8),
        (f"read and check every byte {what}", "json.loads, same lines", checked, 4.0),
    ]


def decode(lines: list[bytes]) -> list[Event]:
    """Read lines that were checked when they were stored."""
    entries: list[Entry | None] = [stored_entry(line) for line in lines]
    return [event(entry) for entry in entries if entry is not None]


def _hash(bodies: list[bytes]) -> list[str]:
    return [hashlib.sha256(body).hexdigest() for body in bodies]


def _json(lines: list[bytes]) -> list[object]:
    return [json.loads(line) for line in lines]


def _ratio(subject: Callable[[], object], reference: Callable[[], object]) -> float:
    ours: list[float] = []
    least: list[float] = []
    for _ in range(REPEATS):
        least.append(_seconds(reference))
        ours.append(_seconds(subject))
    return min(ours) / min(least)


def _seconds(run: Callable[[], object]) -> float:
    start = perf_counter()
    run()
    return perf_counter() - start
