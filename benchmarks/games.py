"""Makes logs of games with full envelopes, for what is timed against reading them."""

import hashlib
from random import Random
from typing import Final

from wholeball.game.envelope import Draft, Entry, heads, next_clock, seal, stored_line
from wholeball.game.event import Moment
from wholeball.game.happenings import (
    Cautioned,
    Goal,
    Happening,
    Noted,
    PeriodEnded,
    PeriodStarted,
    PlayRestarted,
    PlayStopped,
    Substituted,
)
from wholeball.kernel.identity import Side

EVENTS: Final = 200
GAMES: Final = 1_000
SHIRTS: Final = 29
HALF: Final = 22 * 60
"""Seconds of each of two periods."""
DEVICES: Final = ("Kq3fZ81bTn", "Zp0dA7mWx2")
RULEBOOK: Final = hashlib.sha256(b"rulebook").hexdigest()
KICK_OFF: Final = 1_790_000_000_000
"""A moment in 2026, in milliseconds."""


def game_log(game: str = "g-1", *, events: int = EVENTS, seed: int = 1) -> bytes:
    """Return the log of a game of two periods that two devices recorded, one line an event."""
    return b"".join(stored_line(one) + b"\n" for one in game_entries(game, events, seed))


def season(games: int = GAMES, *, events: int = EVENTS) -> list[bytes]:
    """Return the logs of a season of games, no two alike."""
    return [game_log(f"g-{number}", events=events, seed=number) for number in range(games)]


def game_entries(
    game: str = "g-1",
    events: int = EVENTS,
    seed: int = 1,
    *,
    shirts: int = SHIRTS,
    rb: str = RULEBOOK,
) -> list[Entry]:
    """Return the entries of such a game, in the order in which they were made.

    Players have shirts from 1 to `shirts`, and those who come on for them 30 more.
    """
    chance = Random(seed)  # noqa: S311 - the same games in each run
    entries: list[Entry] = []
    last: dict[str, Entry] = {}
    for number, (at, what) in enumerate(_course(events, chance, shirts)):
        dev = DEVICES[0] if number < 2 else chance.choice(DEVICES)
        mono = 1_000 * (at.clock + (at.period - 1) * (HALF + 300)) + number
        draft = Draft(
            id=uuid7(KICK_OFF + mono, chance),
            game=game,
            dev=dev,
            hlc=next_clock(KICK_OFF + mono, [one.said.hlc for one in last.values()]),
            wall=KICK_OFF + mono,
            mono=mono,
            at=at,
            who=f"u-{DEVICES.index(dev) + 1}",
            role="scorekeeper",
            what=what,
            seen=heads(last.values()),
            rb=rb,
        )
        last[dev] = seal(draft, after=last.get(dev))
        entries.append(last[dev])
    return entries


def _course(events: int, chance: Random, shirts: int) -> list[tuple[Moment, Happening]]:
    """Return what happens: two periods, each with its start, its end and as much between."""
    course: list[tuple[Moment, Happening]] = []
    for period, count in ((1, events // 2), (2, events - events // 2)):
        clocks = sorted(chance.randrange(1, HALF) for _ in range(count - 2))
        course.append((Moment(period, 0), PeriodStarted(kick_off="home")))
        course += [(Moment(period, clock), _happening(chance, shirts)) for clock in clocks]
        course.append((Moment(period, HALF), PeriodEnded()))
    return course


def _happening(chance: Random, shirts: int) -> Happening:
    side: Side = chance.choice(("home", "away"))
    number = chance.randrange(1, shirts + 1)
    return chance.choices(
        (
            Substituted(side=side, off=number, on=number + 30),
            PlayStopped(why="ball_out"),
            PlayRestarted(),
            Goal(side=side, number=number),
            Cautioned(side=side, number=number, reason="dissent"),
            Noted(text="Ball changed."),
        ),
        weights=(90, 40, 40, 6, 4, 20),
    )[0]


def uuid7(ms: int, chance: Random) -> str:
    """Return a UUID of version 7 (RFC 9562, section 5.7)."""
    bits = ms << 80 | 7 << 76 | chance.getrandbits(12) << 64 | 2 << 62 | chance.getrandbits(62)
    text = f"{bits:032x}"
    return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))
