"""Derives a game's official result: what was certified, and what came too late for it."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from wholeball.game.codec import event, events
from wholeball.game.corrections import corrected, distinct
from wholeball.game.envelope import Entry, Finding
from wholeball.game.event import Event
from wholeball.game.happenings import Certified, Reopened, Retracted
from wholeball.game.play import play
from wholeball.game.rules import GameRules
from wholeball.game.state import GameState

Frontier: TypeAlias = Mapping[str, tuple[int, str]]
"""Each device's last number that counts, and the hash of that entry."""
Change: TypeAlias = Literal["score", "result", "kicks", "winner", "ending", "ratings", "cards"]
_DECIDES: Final = (Certified.type, Reopened.type)


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

    Give it the entries that stand. The latest of certifying and reopening that was not taken
    back, in the order of events, decides; its frontier says what is counted.
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


def _latest(entries: Sequence[Entry]) -> Event | None:
    if all(entry.said.type not in _DECIDES for entry in entries):
        return None
    found, _ = distinct(events(entries))
    deciding = [
        one for one in corrected(found).events if isinstance(one.what, Certified | Reopened)
    ]
    return max(deciding, key=lambda one: one.order, default=None)


def _late(
    entries: Sequence[Entry], outside: Iterable[Entry], state: GameState, rules: GameRules
) -> Late | None:
    """Return the case that late entries make; what certifies, or takes that back, is none."""
    decided = {entry.said.id for entry in entries if entry.said.type in _DECIDES}
    came_late = tuple(entry for entry in outside if not _only_decides(entry, decided))
    if not came_late:
        return None
    with_them = play(events(entries), rules)
    before, after = _counted(state), _counted(with_them)
    changes = tuple(name for name in before if before[name] != after[name])
    return Late(entries=came_late, state=with_them, would_change=changes)


def _only_decides(entry: Entry, decided: Collection[str]) -> bool:
    """Tell whether an entry only certifies or reopens, or takes such an entry back."""
    what = event(entry).what
    is_undone = isinstance(what, Retracted) and what.target in decided
    return entry.said.type in _DECIDES or is_undone


def _counted(state: GameState) -> dict[Change, object]:
    """Return what of a game counts beyond it, by the name of the change it would be."""
    return {
        "score": state.score,
        "result": state.result,
        "kicks": None if state.kicks is None else state.kicks.scored,
        "winner": state.winner,
        "ending": state.ending,
        "ratings": sorted((one.side, one.by, one.hundredths) for one in state.ratings),
        "cards": state.cards,
    }
