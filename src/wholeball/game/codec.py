"""Reads stored lines into entries, and entries into the events that the rules of a game read.

What happened is never refused here, only bytes that say nothing: every fault of a log is told
at once. An entry of a newer kind is kept byte for byte and not read.
"""

from collections.abc import Callable, Iterable, Iterator
from typing import Final

from pydantic import ValidationError

from wholeball.game.envelope import (
    MOST_EVENTS,
    Entry,
    Envelope,
    Finding,
    is_canonical,
    stored_entry,
)
from wholeball.game.event import Event, Moment
from wholeball.game.happenings import KINDS, Happening, Unread
from wholeball.game.line_faults import (
    MOST_LINE,
    form_faults,
    payload_faults,
    said_faults,
    simple_fault,
)
from wholeball.kernel.faults import Fault, InputFaults
from wholeball.kernel.toml import frozen

_READERS: Final[dict[str, tuple[int, Callable[[object], Happening]]]] = {
    name: (kind.version, kind.__pydantic_validator__.validate_python)
    for name, kind in KINDS.items()
}
"""By type: the newest version that is known, and what reads its payload."""


def read_log(data: bytes, *, game: str, file: str) -> tuple[Entry, ...]:
    """Return the entries of a game's log, in the order in which they were stored.

    Chains are not verified here.

    Raises:
        InputFaults: every fault of every line; nothing was read.
    """
    *lines, rest = data.split(b"\n")
    faults: list[Fault] = []
    entries: list[Entry] = []
    for number, line in enumerate(lines, start=1):
        read = _read(line, file=file, number=number)
        if isinstance(read, Entry):
            entries.append(read)
        else:
            faults += read
    if rest:
        faults.append(_torn(rest, file=file, number=len(lines) + 1))
    faults += _of_other_games(entries, game, file=file)
    faults += _too_many(entries, file=file)
    if faults:
        raise InputFaults(faults)
    return tuple(entries)


def event(entry: Entry) -> Event:
    """Return what an entry says without its envelope; one of a newer kind says only its kind.

    Raises:
        ValidationError: what is recorded is none of its kind; `read_log` lets none pass.
    """
    said = entry.said
    ms, counter = said.hlc
    order = (ms, counter, said.dev, said.seq)
    return Event(said.id, Moment(said.per, said.clk), order, _happening(said))


def _happening(said: Envelope) -> Happening:
    reader = _READERS.get(said.type)
    if reader is None or said.v > reader[0]:
        return Unread(kind=said.type, v=said.v)
    p = said.p
    return reader[1](frozen(p) if list in map(type, p.values()) else p)


def events(entries: Iterable[Entry]) -> tuple[Event, ...]:
    """Return the events of entries."""
    return tuple(event(entry) for entry in entries)


def unread(entries: Iterable[Entry]) -> tuple[Finding, ...]:
    """Return which entries are of a newer kind: whoever shows the game must be updated."""
    return tuple(
        Finding("future_version", entry.said.dev, entry.said.seq)
        for entry in entries
        if is_newer(entry)
    )


def is_newer(entry: Entry) -> bool:
    """Tell whether an entry is of a type or a version that this program does not know."""
    reader = _READERS.get(entry.said.type)
    return reader is None or entry.said.v > reader[0]


def _read(line: bytes, *, file: str, number: int) -> Entry | list[Fault]:
    if len(line) > MOST_LINE:
        return form_faults(line, file=file, number=number)
    try:
        entry = stored_entry(line)
    except ValidationError as error:
        return form_faults(line, file=file, number=number) or said_faults(
            error, line, file=file, number=number
        )
    if entry is None:
        return form_faults(line, file=file, number=number)
    try:
        event(entry)
    except ValidationError as error:
        kind = KINDS[entry.said.type]
        return payload_faults(error, kind, line, file=file, number=number)
    if is_canonical(entry) and not is_newer(entry):
        return entry
    return form_faults(line, file=file, number=number) or entry


def _torn(rest: bytes, *, file: str, number: int) -> Fault:
    return simple_fault(
        "torn",
        f"the last line has no end after byte {len(rest)}: it was cut while it was copied.",
        cure="Copy the file again. A log that was written here ends every line.",
        file=file,
        number=number,
    )


def _of_other_games(entries: Iterable[Entry], game: str, *, file: str) -> Iterator[Fault]:
    others = dict.fromkeys(entry.said.game for entry in entries if entry.said.game != game)
    for other in others:
        yield simple_fault(
            "other_game",
            f"the log of {game!r} holds entries of {other!r}.",
            cure="Put them into the log of their own game.",
            file=file,
        )


def _too_many(entries: Iterable[Entry], *, file: str) -> Iterator[Fault]:
    counts: dict[str, int] = {}
    for entry in entries:
        counts[entry.said.dev] = counts.get(entry.said.dev, 0) + 1
    for dev, count in counts.items():
        if count > MOST_EVENTS:
            yield simple_fault(
                "limits",
                f"device {dev} has {count:,} entries; at most {MOST_EVENTS:,} are read.",
                cure="Take out what is stored twice, or ask who wrote so many.",
                file=file,
            )
