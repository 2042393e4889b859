"""Seals what was recorded into each device's chain of entries, and verifies such chains.

The rules of a game read none of this: they are given `Event`s. The fields are described in
docs/reference/events.md and frozen. The bytes that were sealed are kept as they are for ever.
"""

import hashlib
import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Final, Literal, NamedTuple, TypeAlias

from pydantic import BaseModel, ConfigDict, Field

from wholeball.game.event import Moment
from wholeball.game.happenings import Happening
from wholeball.kernel.canonical import canonical_bytes

MOST_EVENTS: Final = 2_000
"""Entries that one device may make of one game."""
MOST_NUMBER: Final = 2**53 - 1
"""The largest whole number that every reader of JSON keeps exactly (RFC 8259, section 6)."""
YEAR_2000: Final = 946_684_800_000
YEAR_2100: Final = 4_102_444_800_000
_OPENS: Final = b'{"event":'
_HASH: Final = b',"hash":"'
_TAIL = re.compile(rb',"hash":"([0-9a-f]{64})"(?:,"sig":"([ !#-\[\]-~]{1,512})")?\}')

Milliseconds: TypeAlias = Annotated[int, Field(ge=YEAR_2000, le=YEAR_2100 - 1)]
Device: TypeAlias = Annotated[str, Field(pattern=r"^[A-Za-z0-9_-]{1,64}$")]
Hash: TypeAlias = Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
Number: TypeAlias = Annotated[int, Field(ge=1, le=MOST_EVENTS)]
Uuid7: TypeAlias = Annotated[
    str,
    Field(pattern=r"^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$"),
]
Clock: TypeAlias = tuple[Milliseconds, Annotated[int, Field(ge=0, le=MOST_NUMBER)]]
"""A hybrid clock: milliseconds and a counter."""
Seen: TypeAlias = dict[Device, tuple[Number, Hash]]
"""Each device's last number that was known, and the hash of that entry."""


class Envelope(BaseModel):
    """What the canonical bytes of an entry say."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)

    v: Annotated[int, Field(ge=1, le=MOST_NUMBER)]
    id: Uuid7
    game: Annotated[str, Field(min_length=1, max_length=80)]
    dev: Device
    seq: Number
    hlc: Clock
    wall: Milliseconds
    mono: Annotated[int, Field(ge=0, le=MOST_NUMBER)]
    per: Annotated[int, Field(ge=0, le=9)]
    clk: Annotated[int, Field(ge=-86_400, le=86_400)]
    who: Annotated[str, Field(max_length=64)]
    role: Annotated[str, Field(min_length=1, max_length=40)]
    type: Annotated[str, Field(min_length=1, max_length=40)]
    p: dict[str, Any]
    seen: Annotated[Seen, Field(max_length=64)]
    rb: Hash
    prev: Annotated[str, Field(pattern=r"^([0-9a-f]{64})?$")]


class Entry(NamedTuple):
    """One entry as stored: what it says, its canonical bytes, their hash, and a signature."""

    said: Envelope
    body: bytes
    hash: str
    sig: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """All of an entry that its author gives; number, `prev` and hash follow from the chain."""

    id: str
    game: str
    dev: str
    hlc: tuple[int, int]
    wall: int
    mono: int
    at: Moment
    who: str
    role: str
    what: Happening
    seen: Mapping[str, tuple[int, str]]
    rb: str


Code: TypeAlias = Literal["chain", "gap", "fork", "id_clash", "head", "future_version"]


class Finding(NamedTuple):
    """What is wrong with an entry of a device, by its number."""

    code: Code
    dev: str
    seq: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What was found in a game's chains, and the entries that stand in spite of it."""

    findings: tuple[Finding, ...]
    standing: tuple[Entry, ...]
    set_aside: tuple[Entry, ...]


def next_clock(wall: int, known: Iterable[tuple[int, int]]) -> tuple[int, int]:
    """Return the hybrid clock of the next entry: later than all that its author knows.

    However far a device's clock is ahead, it is followed; nothing outside this game is.
    Source: Kulkarni and others, Logical Physical Clocks (2014), figure 5.
    """
    latest, counter = max(known, default=(0, 0))
    return (wall, 0) if wall > latest else (latest, counter + 1)


def seal(draft: Draft, *, after: Entry | None) -> Entry:
    """Return the entry that follows `after`, or the first of its device.

    Raises:
        ValueError: the draft is not of the chain it should follow, or no entry could hold it.
    """
    if after is not None and (after.said.game, after.said.dev) != (draft.game, draft.dev):
        message = f"{draft.dev} of {draft.game} cannot follow another's entry"
        raise ValueError(message)
    said = Envelope(
        v=draft.what.version,
        id=draft.id,
        game=draft.game,
        dev=draft.dev,
        seq=1 if after is None else after.said.seq + 1,
        hlc=draft.hlc,
        wall=draft.wall,
        mono=draft.mono,
        per=draft.at.period,
        clk=draft.at.clock,
        who=draft.who,
        role=draft.role,
        type=draft.what.type,
        p=draft.what.model_dump(mode="json"),
        seen=dict(draft.seen),
        rb=draft.rb,
        prev="" if after is None else after.hash,
    )
    body = canonical_bytes(said.model_dump(mode="json"))
    return Entry(said, body, _sha256(body), None)


def stored_line(entry: Entry) -> bytes:
    """Return the line that is stored, without its line end: the sealed bytes, and their hash."""
    sig = "" if entry.sig is None else f',"sig":"{entry.sig}"'
    return b"".join((_OPENS, entry.body, _HASH, f'{entry.hash}"{sig}}}'.encode("ascii")))


def stored_entry(line: bytes) -> Entry | None:
    """Return the entry of a stored line; None where the line has another form.

    Whether its bytes are canonical and whether they have that hash is asked apart.

    Raises:
        ValidationError: what it says is no envelope.
    """
    at = line.rfind(_HASH)
    tail = _TAIL.fullmatch(line, at) if at > 0 and line.startswith(_OPENS) else None
    if tail is None:
        return None
    body = line[len(_OPENS) : at]
    digest, sig = tail.groups()
    said = Envelope.__pydantic_validator__.validate_json(body)
    return Entry(said, body, digest.decode(), sig and sig.decode())


def is_canonical(entry: Entry) -> bool:
    """Tell whether the bytes are the only ones that say what they say."""
    try:
        return _CANONICAL(dict(entry.said)).encode() == entry.body and not _has_floats(
            entry.said.p
        )
    except ValueError:
        return False


def heads(entries: Iterable[Entry]) -> dict[str, tuple[int, str]]:
    """Return each device's last number and its hash: what an author has seen."""
    last: dict[str, tuple[int, str]] = {}
    for entry in entries:
        if entry.said.seq > last.get(entry.said.dev, (0, ""))[0]:
            last[entry.said.dev] = (entry.said.seq, entry.hash)
    return last


def verify(entries: Iterable[Entry]) -> Report:
    """Return what is wrong with the chains of a game, and what stands. O(n) in entries.

    A device's entries stand up to its first bad number. Where one number has two contents,
    the one that was stored first stands. Exact repeats are no fault. An id of two contents
    counts once, for the entry that is first in the order of events.
    """
    chains: dict[str, dict[int, list[Entry]]] = {}
    for entry in entries:
        at = chains.setdefault(entry.said.dev, {}).setdefault(entry.said.seq, [])
        if entry not in at:
            at.append(entry)
    found: list[Finding] = []
    standing: list[Entry] = []
    aside: list[Entry] = []
    for dev, numbers in chains.items():
        chain = _chain(dev, numbers, found)
        standing += chain
        if len(chain) < sum(map(len, numbers.values())):
            kept = set(map(id, chain))
            aside += [one for some in numbers.values() for one in some if id(one) not in kept]
    standing, doubles = _ids_once(standing, found)
    return Report(
        findings=tuple(found), standing=tuple(standing), set_aside=(*aside, *doubles)
    )


def _chain(dev: str, numbers: Mapping[int, list[Entry]], found: list[Finding]) -> list[Entry]:
    """Follow a device's chain up to its first bad number, and add what is wrong with it."""
    chain: list[Entry] = []
    head, forked = "", False
    others: set[str] = set()
    while len(chain) < len(numbers):
        seq = len(chain) + 1
        at = numbers.get(seq)
        if at is None:
            found.append(Finding("gap", dev, seq))
            break
        if len(at) > 1 and not forked:
            found.append(Finding("fork", dev, seq))
            forked = True
        sound = [one for one in at if one.said.prev == head and _sha256(one.body) == one.hash]
        others.update(one.hash for one in at if one not in sound[:1]) if len(at) > 1 else None
        if not sound:
            if not any(one.said.prev in others for one in at):
                found.append(Finding("chain", dev, seq))
            break
        head = sound[0].hash
        chain.append(sound[0])
    return chain


def _ids_once(
    standing: list[Entry], found: list[Finding]
) -> tuple[list[Entry], list[Entry]]:
    """Part entries whose id stands already; another content under one id is a clash.

    A device that got a new name sends its stray entries again under their ids: no clash.
    """
    first: dict[str, Entry] = {}
    for entry in standing:
        held = first.setdefault(entry.said.id, entry)
        if held is not entry and _order(entry) < _order(held):
            first[entry.said.id] = entry
    if len(first) == len(standing):
        return standing, []
    doubles = [entry for entry in standing if first[entry.said.id] is not entry]
    found += [
        Finding("id_clash", entry.said.dev, entry.said.seq)
        for entry in doubles
        if _content(entry) != _content(first[entry.said.id])
    ]
    return [entry for entry in standing if first[entry.said.id] is entry], doubles


def _order(entry: Entry) -> tuple[tuple[int, int], str, int]:
    return entry.said.hlc, entry.said.dev, entry.said.seq


def _content(entry: Entry) -> dict[str, Any]:
    """Return what an entry says whichever chain it stands in."""
    return entry.said.model_dump(exclude={"dev", "seq", "hlc", "seen", "prev"})


def _sha256(body: bytes) -> str:
    return hashlib.sha256(body).hexdigest()


_CANONICAL = json.JSONEncoder(
    sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False
).encode
"""As `canonical_bytes`, ready made: floats are looked for apart, and only in the payload."""


def _has_floats(value: object) -> bool:
    if isinstance(value, dict):
        return any(map(_has_floats, value.values()))
    if isinstance(value, list):
        return any(map(_has_floats, value))
    return isinstance(value, float)
