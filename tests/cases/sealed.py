"""Seals entries for tests: a game of two devices whose every value is known."""

from collections.abc import Iterable, Sequence

from wholeball.game.envelope import Draft, Entry, heads, next_clock, seal
from wholeball.game.event import Moment
from wholeball.game.happenings import Goal, Happening, Noted, PeriodStarted

START = 1_790_000_000_000
RULEBOOK = "b" * 64
GAME = "g-1"
MINUTE = Moment(1, 60)


def uuid7(number: int, ms: int = START) -> str:
    """Return a UUID of version 7 with a number for its chance bits."""
    text = f"{ms << 80 | 7 << 76 | 2 << 62 | number:032x}"
    return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))


def sealed(
    what: Happening,
    log: Sequence[Entry] = (),
    *,
    dev: str = "phone",
    at: Moment = MINUTE,
    number: int | None = None,
    after: Entry | None = None,
) -> Entry:
    """Seal what happened as the next entry of a device that has seen a log."""
    own = [one for one in log if one.said.dev == dev]
    number = len(log) + 1 if number is None else number
    wall = START + 1_000 * number
    draft = Draft(
        id=uuid7(number),
        game=GAME,
        dev=dev,
        hlc=next_clock(wall, (one.said.hlc for one in log)),
        wall=wall,
        mono=1_000 * number,
        at=at,
        who="u-1",
        role="scorekeeper",
        what=what,
        seen=heads(log),
        rb=RULEBOOK,
    )
    return seal(draft, after=after or (own[-1] if own else None))


def log_of(
    happenings: Iterable[Happening], *, devices: Sequence[str] = ("phone",)
) -> list[Entry]:
    """Seal happenings one after another, by devices in turn, a minute apart."""
    log: list[Entry] = []
    for number, what in enumerate(happenings):
        dev = devices[number % len(devices)]
        log.append(sealed(what, log, dev=dev, at=Moment(1, 60 * number)))
    return log


def six() -> list[Entry]:
    """Return six entries of one device."""
    return log_of(
        [
            PeriodStarted(kick_off="home"),
            Goal(side="home", number=9),
            Noted(text="Ballwechsel: \U0001f600 é"),
            Goal(side="away", number=4),
            Goal(side="away", number=4, own=True),
            Noted(text=""),
        ]
    )
