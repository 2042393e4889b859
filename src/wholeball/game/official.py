"""Derives a game's official result: what was certified, and what came too late for it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from wholeball.game.codec import event, events, is_newer
from wholeball.game.envelope import Entry, Finding
from wholeball.game.event import Event
from wholeball.game.happenings import Certified, Reopened
from wholeball.game.play import play
from wholeball.game.rules import GameRules
from wholeball.game.state import GameState

Frontier: TypeAlias = Mapping[str, tuple[int, str]]
"""Each device's last number that counts, and the hash of that entry."""
Change: TypeAlias = Literal["score", "result", "cards"]
_CHANGES: Final[tuple[Change, ...]] = ("score", "result", "cards")


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """Entries by a frontier; a head that is not as certified, or not there, is a finding."""

    inside: tuple[Entry, ...]
    outside: tuple[Entry, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Late:
    """A case: entries that came after the certification, and what they would change."""

    entries: tuple[Entry, ...]
    state: GameState
    would_change: tuple[Change, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Official:
    """What was certified, by which entry, and what came too late; nothing late counts."""

    certified: Event
    state: GameState
    late: Late | None
    findings: tuple[Finding, ...]


def inside(entries: Iterable[Entry], frontier: Frontier) -> Split:
    """Part entries by a frontier."""
    within: list[Entry] = []
    beyond: list[Entry] = []
    heads: dict[str, str] = {}
    for entry in entries:
        last, _ = frontier.get(entry.said.dev, (0, ""))
        (within if entry.said.seq <= last else beyond).append(entry)
        if entry.said.seq == last:
            heads[entry.said.dev] = entry.hash
    findings = [
        Finding("head", dev, last)
        for dev, (last, head) in frontier.items()
        if last and heads.get(dev) != head
    ]
    return Split(inside=tuple(within), outside=tuple(beyond), findings=tuple(findings))


def official(entries: Sequence[Entry], rules: GameRules) -> Official | None:
    """Return the result that counts, or None where none is certified or it was reopened.

    Give it the entries that stand. The latest of certifying and reopening, in the order of
    events, decides; its frontier says what is counted.
    """
    certified = _latest(entries)
    if certified is None or not isinstance(certified.what, Certified):
        return None
    frontier = {dev: (last, head) for dev, last, head in certified.what.frontier}
    split = inside(entries, frontier)
    state = play(events(split.inside), rules)
    return Official(
        certified=certified,
        state=state,
        late=_late(entries, split.outside, state, rules),
        findings=split.findings,
    )


def certified_events(entries: Sequence[Entry], result: Official) -> tuple[Event, ...]:
    """Return the events that a certification counts, and the certification itself."""
    what = result.certified.what
    if not isinstance(what, Certified):
        message = "an official result is of a certification"
        raise TypeError(message)
    frontier = {dev: (last, head) for dev, last, head in what.frontier}
    return (*events(inside(entries, frontier).inside), result.certified)


def _latest(entries: Iterable[Entry]) -> Event | None:
    deciding = [
        event(entry)
        for entry in entries
        if entry.said.type in (Certified.type, Reopened.type) and not is_newer(entry)
    ]
    return max(deciding, key=lambda one: one.order, default=None)


def _late(
    entries: Iterable[Entry], outside: Iterable[Entry], state: GameState, rules: GameRules
) -> Late | None:
    """Return the case that late entries make; certifying and reopening are none."""
    came_late = tuple(
        entry for entry in outside if entry.said.type not in (Certified.type, Reopened.type)
    )
    if not came_late:
        return None
    with_them = play(events(entries), rules)
    changes = tuple(
        name for name in _CHANGES if getattr(with_them, name) != getattr(state, name)
    )
    return Late(entries=came_late, state=with_them, would_change=changes)
