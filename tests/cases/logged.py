"""Seals whole games into logs, so that a season folder can hold them instead of results."""

from collections.abc import Iterable, Iterator
from hashlib import sha256
from pathlib import Path
from typing import TypeAlias

from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import append
from wholeball.game.envelope import Draft, Entry, heads, seal
from wholeball.game.event import Moment
from wholeball.game.happenings import Certified, Goal, Happening, PeriodEnded, PeriodStarted
from wholeball.kernel.canonical import canonical_bytes
from wholeball.kernel.identity import Side

START = 1_790_000_000_000
HALF = 45 * 60
Timed: TypeAlias = tuple[int, int, Happening]


def played(home: int, away: int) -> list[Timed]:
    """Return a game of two halves of 45 minutes that came to this score in the first."""
    return [
        (1, 0, PeriodStarted(kick_off="home")),
        *_goals("home", home),
        *_goals("away", away),
        (1, HALF, PeriodEnded()),
        (2, 0, PeriodStarted(kick_off="away")),
        (2, HALF, PeriodEnded()),
    ]


def log(folder: Path, game: str, happened: Iterable[Timed], *, book: str) -> list[Entry]:
    """Write what happened into a game's log in a folder, as one device recorded it."""
    entries: list[Entry] = []
    for period, clock, what in happened:
        entries.append(_sealed(game, entries, Moment(period, clock), what, book=book))
    append(FolderRecord(folder), game, entries)
    return entries


def go_on(
    folder: Path, game: str, log: list[Entry], happened: Iterable[Timed], *, book: str, dev: str
) -> list[Entry]:
    """Write what another device recorded of a game later, and return the whole log."""
    entries = list(log)
    for period, clock, what in happened:
        entries.append(_sealed(game, entries, Moment(period, clock), what, book=book, dev=dev))
    append(FolderRecord(folder), game, entries[len(log) :])
    return entries


def certify(folder: Path, game: str, log: list[Entry], *, book: str) -> None:
    """Certify what a game's log holds, from another device."""
    append(FolderRecord(folder), game, [certified(game, log, book=book)])


def certified(game: str, log: list[Entry], *, book: str) -> Entry:
    """Return the entry that certifies a log as far as it goes."""
    frontier = tuple((dev, last, head) for dev, (last, head) in heads(log).items())
    what = Certified(by="u-2", state="", frontier=frontier)
    return _sealed(game, log, Moment(2, HALF), what, book=book, dev="desk")


def newer(game: str, log: list[Entry], *, kind: str, version: int, book: str) -> Entry:
    """Return an entry of a type or a version that this program does not know yet."""
    known = _sealed(game, log, Moment(1, 300), Goal(side="home"), book=book)
    said = known.said.model_copy(update={"type": kind, "v": version, "p": {"seen_by": "Kim"}})
    body = canonical_bytes(said.model_dump(mode="json"))
    return Entry(said, body, sha256(body).hexdigest(), None)


def _goals(side: Side, number: int) -> Iterator[Timed]:
    first = 60 if side == "home" else 120
    return ((1, first + 120 * index, Goal(side=side)) for index in range(number))


def _sealed(
    game: str,
    log: list[Entry],
    at: Moment,
    what: Happening,
    *,
    book: str,
    dev: str = "phone",
) -> Entry:
    number = len(log) + 1
    draft = Draft(
        id=f"01900000-0000-7000-8000-{dev.encode().hex()[:6]}{number:06x}",
        game=game,
        dev=dev,
        hlc=(START + number, 0),
        wall=START + number,
        mono=number,
        at=at,
        who="u-1",
        role="scorekeeper",
        what=what,
        seen=heads(log),
        rb=book,
    )
    own = [one for one in log if one.said.dev == dev]
    return seal(draft, after=own[-1] if own else None)
