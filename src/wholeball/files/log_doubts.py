"""Says what is doubtful about a game's log: chains that are broken, another rulebook."""

from collections.abc import Iterable, Iterator
from typing import Final

from wholeball.files.game_log import GameLog
from wholeball.game.envelope import Code, Entry, Finding
from wholeball.kernel.faults import Fault, Place

SAYS: Final[dict[Code, str]] = {
    "chain": "Entry {seq} of device {dev} is not as it was written; it and what follows are left out.",
    "gap": "Entry {seq} of device {dev} is missing; what follows it is left out.",
    "fork": "Device {dev} wrote entry {seq} twice; the first one is read.",
    "id_clash": "Entry {seq} of device {dev} has the identity of another and is left out.",
    "head": "Device {dev} had written up to entry {seq}, and the log ends before it.",
    "future_version": "Entry {seq} of device {dev} is of a newer version; it is kept, not read.",
}
_CURES: Final[dict[Code, str]] = {
    "future_version": "Update this program.",
    "gap": "Fetch the device's entries again.",
    "head": "Fetch the device's entries again.",
}
_ASK: Final = "Compare with the paper scorecard, and enter again what is wrong."


def log_doubts(log: GameLog, digest: str, file: str) -> tuple[Fault, ...]:
    """Return every doubt about a log; the game can be played through in spite of them.

    `digest` is that of the season's rulebook.
    """
    return (
        *chain_doubts(log.findings, file),
        *_other_rulebook(log.report.standing, digest, file),
    )


def chain_doubts(findings: Iterable[Finding], file: str) -> tuple[Fault, ...]:
    """Return what was found in chains of entries as doubts that name device and number."""
    return tuple(
        Fault(
            code=found.code,
            place=Place(file=file),
            says=SAYS[found.code].format(seq=found.seq, dev=found.dev),
            cure=_CURES.get(found.code, _ASK),
            level="doubt",
        )
        for found in findings
    )


def _other_rulebook(entries: tuple[Entry, ...], digest: str, file: str) -> Iterator[Fault]:
    others = sum(entry.said.rb != digest for entry in entries)
    if others:
        yield Fault(
            code="rulebook",
            place=Place(file=file),
            says=f"{others} of {len(entries)} entries were made under another rulebook.",
            cure="Look whether the rulebook was changed after the game.",
            level="doubt",
        )
