"""Seals what somebody at the desk writes down, as the next entries of a device of theirs."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from wholeball.files.game_log import GameLog, log_name
from wholeball.game.envelope import MOST_EVENTS, Draft, Entry, heads, next_clock, seal
from wholeball.game.paper_entries import DEVICE, Told
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.kernel.text import is_text, unreadable

MOST_NAME: Final = 64


@dataclass(frozen=True, slots=True, kw_only=True)
class Author:
    """Who enters, when by the wall clock in milliseconds, and the identities of new entries."""

    name: str
    wall: int
    ids: Iterator[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Writer:
    """The device that entries are of, and the part that its author has."""

    dev: str
    role: str


PAPER: Final = Writer(dev=DEVICE, role="recorder")
"""Whoever types scorecards in."""
DESK: Final = Writer(dev="desk", role="supervisor")
"""Whoever decides about a game."""


def author_name(name: str) -> str:
    """Return the name of an author, without spaces around it.

    Raises:
        WholeballError: it is empty, too long, or has what nobody can see.
    """
    cleaned = name.strip()
    if not 0 < len(cleaned) <= MOST_NAME or unreadable(cleaned) or not is_text(cleaned):
        raise WholeballError(
            f"The recorder's name {name[:MOST_NAME]!a} does not do.",
            fix=f"Give 1 to {MOST_NAME} letters, such as Kim.",
            code="range",
        )
    return cleaned


def of_writer(log: GameLog, writer: Writer) -> list[Entry]:
    """Return the entries of a writer that stand."""
    return [one for one in log.report.standing if one.said.dev == writer.dev]


def sealed(
    log: GameLog,
    entries: Sequence[Told],
    *,
    game: GameId,
    writer: Writer,
    by: Author,
    rulebook: str,
) -> list[Entry]:
    """Seal entries one after the other; all have seen the same, by which undo knows them.

    Raises:
        WholeballError: the author's name does not do, or the device has no room for more.
    """
    known = [one.said.hlc for one in log.entries]
    own = of_writer(log, writer)
    last = own[-1] if own else None
    _refuse_too_many(game, writer, len(own) + len(entries))
    seen, who = heads(log.report.standing), author_name(by.name)
    made: list[Entry] = []
    for one in entries:
        draft = Draft(
            id=next(by.ids),
            game=game,
            dev=writer.dev,
            hlc=next_clock(by.wall, known),
            wall=by.wall,
            mono=0,
            at=one.at,
            who=who,
            role=writer.role,
            what=one.what,
            seen=seen,
            rb=rulebook,
        )
        known = [draft.hlc]
        last = seal(draft, after=last)
        made.append(last)
    return made


def refuse_damage(log: GameLog, game: GameId, writer: Writer, whose: str) -> None:
    """Refuse to write after an entry of the same device that is not as it was written.

    Raises:
        WholeballError: there is one; `whose` names the device's entries in words.
    """
    bad = next((one for one in log.report.findings if one.dev == writer.dev), None)
    if bad is not None:
        raise WholeballError(
            f"{log_name(game)}: entry {bad.seq} of {whose} is damaged ({bad.code}), and "
            "nothing can be written after it.",
            fix="Nothing was written. Put back a copy of the file from before.",
            code=bad.code,
        )


def _refuse_too_many(game: GameId, writer: Writer, count: int) -> None:
    if count > MOST_EVENTS:
        whose = "The scorecards" if writer.dev == "paper" else "The desk"
        raise WholeballError(
            f"{whose} of game {game} would have {count:,} entries; at most "
            f"{MOST_EVENTS:,} are kept.",
            fix="Nothing was written. Ask who entered it so often.",
            code="limits",
        )


def refuse_newer(log: GameLog, game: GameId, seen: int | None, *, done: str) -> None:
    """Refuse a game of which more or less was entered than who writes has `seen`.

    Raises:
        WholeballError: so it is; nothing was `done`.
    """
    if seen is not None and seen != len(log.entries):
        raise WholeballError(
            f"Something was entered about game {game} while you looked at it.",
            fix=f"Nothing was {done}. Look at the game as it is now, and send it again.",
            code="conflict",
        )
