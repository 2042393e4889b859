"""Seals what was recorded into each device's chain of entries, and verifies such chains.

The rules of a game read none of this: they are given `Event`s. The fields are described in
docs/reference/events.md and frozen. The bytes that were sealed are kept as they are for ever.
"""

import hashlib
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from operator import itemgetter
from typing import Annotated, Any, Final, Literal, NamedTuple, TypeAlias

from pydantic import BaseModel, ConfigDict, Field
from pydantic_core import to_json

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


_ENVELOPE: Final = Envelope.__pydantic_validator__
_SORTED: Final = sorted(Envelope.model_fields)
_IN_ORDER: Final = itemgetter(*_SORTED)


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
    digest, sig = tail[1], tail[2]
    said = _ENVELOPE.validate_json(body)
    return Entry(said, body, digest.decode(), None if sig is None else sig.decode())


def is_canonical(entry: Entry) -> bool:
    """Tell whether the bytes are the only ones that say what they say.

    They are those of `canonical_bytes`, from a writer that takes a fifth of the time and writes
    keys in the order that it is given; so that order is looked at apart, and so are floats.
    """
    said = entry.said
    try:
        written = to_json(dict(zip(_SORTED, _IN_ORDER(said.__dict__), strict=True)))
    except ValueError:
        return False
    return written == entry.body and _is_sorted(said.seen) and _is_writable(said.p)


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
    the one that was stored first stands. Exact repeats are no fault. Entries of one id and
    two contents both stand, and the rules of the game count one of them.
    """
    chains: dict[str, dict[int, Entry]] = defaultdict(dict)
    forks: dict[str, dict[int, list[Entry]]] = defaultdict(dict)
    for entry in entries:
        dev, seq = entry.said.dev, entry.said.seq
        held = chains[dev].setdefault(seq, entry)
        if held is not entry and held != entry:
            others = forks[dev].setdefault(seq, [])
            others += [] if entry in others else [entry]
    found: list[Finding] = []
    standing: list[Entry] = []
    aside: list[Entry] = []
    for dev, numbers in chains.items():
        chain, bad = _followed(numbers, forks[dev])
        standing += chain
        found += (Finding(code, dev, seq) for code, seq in bad)
        if bad:
            kept = set(map(id, chain))
            stored = [*numbers.values(), *(one for at in forks[dev].values() for one in at)]
            aside += [one for one in stored if id(one) not in kept]
    found += _clashes(standing)
    return Report(findings=tuple(found), standing=tuple(standing), set_aside=tuple(aside))


def _followed(
    numbers: Mapping[int, Entry], forks: Mapping[int, list[Entry]]
) -> tuple[list[Entry], list[tuple[Code, int]]]:
    """Return a device's chain up to its first bad number, and what is bad.

    Of a fork the first number is told; that its other branch leads on is no further fault.
    """
    bad: list[tuple[Code, int]] = [("fork", min(forks))] if forks else []
    chain: list[Entry] = []
    head = ""
    strays: set[str] = set()
    for seq in range(1, len(numbers) + 1):
        one = numbers.get(seq)
        if one is not None and seq in forks:
            at = [one, *forks[seq]]
            one = next((each for each in at if _follows(each, head)), one)
            strays.update(each.hash for each in at if each is not one)
        if one is None:
            bad.append(("gap", seq))
            break
        if not _follows(one, head):
            if one.said.prev not in strays:
                bad.append(("chain", seq))
            break
        head = one.hash
        chain.append(one)
    return chain, bad


def _follows(entry: Entry, head: str) -> bool:
    return entry.said.prev == head and hashlib.sha256(entry.body).hexdigest() == entry.hash


def _clashes(standing: list[Entry]) -> Iterator[Finding]:
    """Find ids of two contents; the later, in the order of events, is the one that clashes.

    A device that got a new name sends its stray entries again under their ids: no clash.
    """
    if len({entry.said.id for entry in standing}) == len(standing):
        return
    first: dict[str, Entry] = {}
    again = [one for one in standing if first.setdefault(one.said.id, one) is not one]
    for entry in again:
        held = first[entry.said.id]
        if _content(entry) != _content(held):
            later = max(entry, held, key=_order)
            yield Finding("id_clash", later.said.dev, later.said.seq)


def _order(entry: Entry) -> tuple[tuple[int, int], str, int]:
    return entry.said.hlc, entry.said.dev, entry.said.seq


def _content(entry: Entry) -> dict[str, Any]:
    """Return what an entry says whichever chain it stands in."""
    return entry.said.model_dump(exclude={"dev", "seq", "hlc", "seen", "prev"})


def _sha256(body: bytes) -> str:
    return hashlib.sha256(body).hexdigest()


def _is_writable(value: object) -> bool:
    """Tell whether keys are sorted all the way down, and no number is a float."""
    if isinstance(value, dict):
        return _is_sorted(value) and all(map(_is_writable, value.values()))
    if isinstance(value, list):
        return all(map(_is_writable, value))
    return not isinstance(value, float)


def _is_sorted(keys: Mapping[str, object]) -> bool:
    return len(keys) < 2 or list(keys) == sorted(keys)
