"""Reads the conformance cases: what was recorded of a game, and what it must come to."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from wholeball.game.event import KICKS, Event, Moment, Order
from wholeball.game.happenings import KINDS
from wholeball.league.fixture import Stage
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.load import load

FOLDER: Final = Path(__file__).resolve().parents[2] / "conformance"
BASE: Final = "laws-2025-26"
ENVELOPE: Final = frozenset({"id", "at", "type", "times", "every", "order"})
CASE_KEYS: Final = frozenset(
    {"name", "source", "stage", "base", "rules", "events", "until", "end", "among", "absent"}
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One case of a file; `end`, `among` and `absent` are as written."""

    file: str
    name: str
    stage: Stage
    book: Rulebook
    events: tuple[Event, ...]
    until: Moment | None
    end: dict[str, Any]
    among: dict[str, list[Any]]
    absent: tuple[str, ...]

    def __str__(self) -> str:
        return f"{self.file}: {self.name}"


def cases() -> tuple[Case, ...]:
    """Return every case of every file, in the order of the files' names."""
    return tuple(case for path in sorted(FOLDER.glob("*.json")) for case in _cases_of(path))


def _cases_of(path: Path) -> Iterator[Case]:
    said = json.loads(path.read_text(encoding="utf-8"), object_pairs_hook=_each_key_once)
    if set(said) != {"rule", "source", "cases"}:
        raise ValueError(f"{path.name} has the keys {sorted(said)}")
    for one in said["cases"]:
        try:
            yield _case(one, path.name)
        except Exception as error:
            error.add_note(f"{path.name}: {one.get('name')}")
            raise


def _each_key_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    said = dict(pairs)
    if len(said) < len(pairs):
        raise ValueError(f"a key stands twice among {[key for key, _ in pairs]}")
    return said


def _case(said: dict[str, Any], file: str) -> Case:
    unknown = set(said) - CASE_KEYS
    if unknown:
        raise ValueError(f"a case has no {sorted(unknown)}")
    return Case(
        file=file,
        name=said["name"],
        stage=said.get("stage", "league"),
        book=_book(said.get("rules", {}), said.get("base", BASE), file),
        events=tuple(_events(said["events"])),
        until=Moment(*said["until"]) if "until" in said else None,
        end=said.get("end", {}),
        among=said.get("among", {}),
        absent=tuple(said.get("absent", ())),
    )


def _book(rules: dict[str, Any], base: str, file: str) -> Rulebook:
    tables = "".join(f"{name} = {_toml(value)}\n" for name, value in rules.items())
    head = f'schema = 1\nname = "Conformance"\nbase = {_toml(base)}\n'
    return load(f"{head}{tables}".encode(), file=file).rulebook


def _toml(value: Any) -> str:
    if isinstance(value, dict):
        inside = ", ".join(f"{name} = {_toml(inner)}" for name, inner in value.items())
        return f"{{ {inside} }}"
    if isinstance(value, list):
        return f"[{', '.join(map(_toml, value))}]"
    return json.dumps(value)


def _events(said: list[dict[str, Any]]) -> Iterator[Event]:
    for place, one in enumerate(said, start=1):
        name = one.get("id", f"e{place}")
        period, clock = one["at"]
        order = _order(one, place)
        if "times" not in one:
            yield _event(one, name, Moment(period, clock), order)
            continue
        every = one.get("every", 1 if period == KICKS else 0)
        for turn in range(one["times"]):
            at = Moment(period, clock + turn * every)
            yield _event(one, f"{name}.{turn + 1}", at, (*order[:3], order[3] + turn))


def _order(said: dict[str, Any], place: int) -> Order:
    milliseconds, counter, device, number = said.get("order", [place * 1000, 0, "d", place])
    return milliseconds, counter, device, number


def _event(said: dict[str, Any], name: str, at: Moment, order: Order) -> Event:
    keys = {key: value for key, value in said.items() if key not in ENVELOPE}
    what = KINDS[said["type"]].model_validate_json(json.dumps(keys))
    return Event(id=name, at=at, order=order, what=what)
