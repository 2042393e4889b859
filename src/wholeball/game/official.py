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
    """What was certified, by which entry, and what came too late; nothing late counts.

    `counted` are the events up to the frontier.
    """

    certified: Event
    counted: tuple[Event, ...]
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
    if all(entry.said.type not in _DECIDES for entry in entries):
        return None
    every = events(entries)
    certified = _latest(every)
    if certified is None or not isinstance(certified.what, Certified):
        return None
    frontier = {dev: (last, head) for dev, last, head in certified.what.frontier}
    split = inside(entries, frontier)
    counted = tuple(one for one in every if _is_inside(one, frontier))
    state = play(counted, rules)
    return Official(
        certified=certified,
        counted=counted,
        state=state,
        late=_late(_came_late(entries, split.outside), every, state, rules),
        findings=split.findings,
    )


def certified_events(result: Official) -> tuple[Event, ...]:
    """Return the events that a certification counts, and the certification itself."""
    return (*result.counted, result.certified)


def _came_late(entries: Sequence[Entry], outside: Iterable[Entry]) -> tuple[Entry, ...]:
    """Return what came too late; what certifies, or takes that back, never does."""
    decided = {entry.said.id for entry in entries if entry.said.type in _DECIDES}
    return tuple(entry for entry in outside if not _only_decides(entry, decided))


def _late(
    came_late: tuple[Entry, ...], every: Sequence[Event], state: GameState, rules: GameRules
) -> Late | None:
    """Return the case that late entries make, or None where none came."""
    if not came_late:
        return None
    with_them = play(every, rules)
    before, after = _counted(state), _counted(with_them)
    changes = tuple(name for name in before if before[name] != after[name])
    return Late(entries=came_late, state=with_them, would_change=changes)


def _is_inside(event: Event, frontier: Frontier) -> bool:
    *_, dev, number = event.order
    return number <= frontier.get(dev, (0, ""))[0]


def _latest(every: Sequence[Event]) -> Event | None:
    deciding = [
        one
        for one in corrected(distinct(every)[0]).events
        if isinstance(one.what, Certified | Reopened)
    ]
    return max(deciding, key=lambda one: one.order, default=None)


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
