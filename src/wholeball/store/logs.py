"""Keeps the entries of games' logs: new ones are added, and nothing else can be done."""

import hashlib
from collections import Counter
from collections.abc import Mapping
from typing import Final, NamedTuple

from wholeball.game.codec import read_log
from wholeball.kernel.faults import WholeballError
from wholeball.store.models import LogEntry, Season


def log_in(season: int, game: str) -> bytes:
    """Return the lines of a game's log as they were stored. 1 query."""
    lines = LogEntry.objects.filter(season_id=season, game=game).order_by("position")
    return "".join(f"{line}\n" for line in lines.values_list("line", flat=True)).encode()


class Logs(NamedTuple):
    """The lines of every game's log, by game, as they stood at a head of the season.

    `last` is the key of the newest entry.
    """

    by_game: Mapping[str, bytes]
    last: int
    head: str


_NONE: Final = Logs({}, 0, "")


def logs_of(season: Season, before: Logs = _NONE) -> Logs:
    """Return every log of a season; only what came after those of before is read. 1 query.

    Where that does not lead on to the season's head, all is read: 1 query more.
    """
    found, head = _led_on(season, before)
    if head != season.log_head and before is not _NONE:
        found, _ = _led_on(season, _NONE)
    return found._replace(head=season.log_head)


def _led_on(season: Season, before: Logs) -> tuple[Logs, str]:
    """Return the logs with what came after, and the head that their lines lead on to."""
    head, last, came = before.head, before.last, dict[str, list[str]]()
    entries = LogEntry.objects.filter(season=season, pk__gt=last).order_by("pk")
    for number, game, line in entries.values_list("pk", "game", "line"):
        last = number
        came.setdefault(game, []).append(f"{line}\n")
        head = _next_head(head, line)
    new = {
        game: before.by_game.get(game, b"") + "".join(lines).encode()
        for game, lines in came.items()
    }
    return Logs({**before.by_game, **new}, last, head), head


def put_log(season: Season, name: str, game: str, data: bytes) -> None:
    """Keep a whole log: what stands of it stays, and what comes behind it is added. 3 queries.

    Where a device used a number twice, both are kept.

    Raises:
        InputFaults: every line that says nothing.
        WholeballError: the log lacks what stands of it.
    """
    old = log_in(season.pk, game)
    if not data.startswith(old):
        raise WholeballError(
            f"{name} lacks entries that were recorded, or changes them.",
            fix="Add entries at its end: what was recorded is taken back by an entry that says so.",
            code="changed",
        )
    _add(season, name, game, data[len(old) :])


def add_to_log(season: Season, name: str, game: str, lines: bytes) -> None:
    """Add lines at the end of a log. 3 queries.

    Raises:
        InputFaults: every line that says nothing.
        WholeballError: a device's number stands there already.
    """
    repeated = _add(season, name, game, lines)
    if repeated is not None:
        dev, seq = repeated
        raise WholeballError(
            f"{name} was written by somebody else meanwhile: entry {seq} of {dev} is there.",
            fix="Nothing was written. Enter it again.",
            code="moved",
        )


def _add(season: Season, name: str, game: str, lines: bytes) -> tuple[str, int] | None:
    """Add lines, and return the first device and number that stood there already."""
    entries = read_log(lines, game=game, file=name)
    stand = LogEntry.objects.filter(season=season, game=game).values_list("dev", "seq")
    numbers = Counter(stand)
    repeated = None
    new = []
    texts = lines.decode().split("\n")
    first = sum(numbers.values()) + 1
    for position, (entry, line) in enumerate(zip(entries, texts, strict=False), start=first):
        number = (entry.said.dev, entry.said.seq)
        if numbers[number] and repeated is None:
            repeated = number
        new.append(
            LogEntry(
                season=season,
                game=game,
                position=position,
                dev=entry.said.dev,
                seq=entry.said.seq,
                repeat=numbers[number],
                line=line,
            )
        )
        numbers[number] += 1
        season.log_head = _next_head(season.log_head, line)
    LogEntry.objects.bulk_create(new)
    return repeated


def _next_head(head: str, line: str) -> str:
    return hashlib.sha256(f"{head}{line}\n".encode()).hexdigest()
