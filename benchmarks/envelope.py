"""Times verifying a game's chains and reading its entries against the least that could do."""

import hashlib
import json
from collections.abc import Callable

from benchmarks.games import EVENTS, game_log
from benchmarks.in_turn import Measured, in_turn
from wholeball.game.codec import event, read_log
from wholeball.game.envelope import Entry, stored_entry, verify
from wholeball.game.event import Event

REPEATS = 41


def measure() -> list[Measured]:
    """Return the ratios, the best of 41 in turn."""
    log = game_log()
    lines = log.splitlines()
    entries = [one for line in lines if (one := stored_entry(line)) is not None]
    bodies = [one.body for one in entries]
    verified = _ratio(lambda: verify(entries), lambda: _hash(bodies))
    decoded = _ratio(lambda: decode(lines), lambda: as_json(lines))
    checked = _ratio(
        lambda: read_log(log, game="g-1", file="g-1.jsonl"), lambda: as_json(lines)
    )
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


def as_json(lines: list[bytes]) -> list[object]:
    """Read lines as JSON alone, the least that reading them could do."""
    return [json.loads(line) for line in lines]


def _ratio(subject: Callable[[], object], reference: Callable[[], object]) -> float:
    least, ours = in_turn(reference, subject, times=REPEATS)
    return min(ours) / min(least)
