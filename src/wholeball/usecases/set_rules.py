"""Lists the rules that a timetable is planned by, adds one, changes how much it weighs, drops it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, time
from typing import Any, Final, TypeAlias

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.planning_rules import OWN
from wholeball.files.planning_toml import FILE
from wholeball.files.problem import problem_of
from wholeball.files.rules_edit import with_rule, with_strength, without_rule
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.toml import MOST_BYTES
from wholeball.league.record import LeagueRecord
from wholeball.planning.kinds import KINDS
from wholeball.planning.rule import Games, Rule, Strength, cost_word

Value: TypeAlias = int | str | time | date | tuple[str, ...] | tuple[date, ...]
"""A parameter as a form gives it."""
_OF_GAMES: Final = frozenset({"name", "names"})
"""Parameters that name games."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleShown:
    """A rule in words; `rule` is its name, `strengths` what it can be.

    `cost` is that of a wish, and 0 of what must hold.
    """

    rule: str
    says: str
    strength: Strength
    cost: int
    cost_says: str
    why: str
    strengths: tuple[Strength, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RulesShown:
    """The rules of planning.toml in its order, and what others can be about."""

    rules: tuple[RuleShown, ...]
    teams: tuple[str, ...]
    first_day: date
    last_day: date


@dataclass(frozen=True, slots=True, kw_only=True)
class NewRule:
    """A rule to be: without a cost a must, without teams about everybody."""

    kind: str
    params: Mapping[str, Value] = field(default_factory=dict)
    cost: int | None = None
    teams: tuple[str, ...] = ()
    games: Games = "all"
    why: str = ""


def show_rules(record: LeagueRecord) -> RulesShown:
    """Return by which rules a timetable is planned.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    read = read_folder(record)
    league = read.season.league
    return RulesShown(
        rules=tuple(map(_shown, _rules(read))),
        teams=tuple(str(one.team) for one in league.teams),
        first_day=league.first_day,
        last_day=league.last_day,
    )


def add_rule(record: LeagueRecord, new: NewRule) -> None:
    """Add a rule, named after its kind.

    Raises:
        InputFaults: the season would have a fault; nothing was written.
        WholeballError: the same stands there already, or it cannot be kept.
    """
    with record.held():
        rules = _rules(read_folder(record))
        made = _record(new, {*OWN, *(one.rule for one in rules)})
        text = with_rule(_held(record), made)
        read = read_folder(record, instead={FILE: text})
        *before, last = _rules(read)
        _refuse_twice(last, before)
        if _OF_GAMES & {*new.params}:
            problem_of(read)
        record.write({FILE: text})


def set_strength(
    record: LeagueRecord, rule: str, *, strength: Strength, cost: int | None
) -> None:
    """Make a rule a must, or a wish of some cost.

    Raises:
        InputFaults: the season would have a fault; nothing was written.
        WholeballError: there is none of that name any more, or it cannot be kept.
    """
    with record.held():
        index = _index(record, rule)
        text = with_strength(_held(record), index, strength, cost)
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def drop_rule(record: LeagueRecord, rule: str) -> None:
    """Take a rule out.

    Raises:
        WholeballError: there is none of that name any more, or it cannot be kept.
    """
    with record.held():
        text = without_rule(_held(record), _index(record, rule))
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def _held(record: LeagueRecord) -> bytes:
    return record.read(FILE, MOST_BYTES) if record.has(FILE) else b""


def _rules(read: SeasonFolder) -> tuple[Rule, ...]:
    return () if read.planning.said is None else read.planning.said.rules


def _index(record: LeagueRecord, rule: str) -> int:
    names = [one.rule for one in _rules(read_folder(record))]
    if rule not in names:
        raise WholeballError(
            "This rule is not there any more.",
            fix="Nothing was changed. Look at what is there now.",
            code="gone",
        )
    return names.index(rule)


def _shown(rule: Rule) -> RuleShown:
    kind = KINDS[rule.kind]
    return RuleShown(
        rule=rule.rule,
        says=kind.sentence(rule),
        strength=rule.strength,
        cost=rule.cost,
        cost_says=cost_word(rule.cost) if rule.cost else "",
        why=rule.why,
        strengths=kind.strengths,
    )


def _record(new: NewRule, taken: set[str]) -> dict[str, Any]:
    """Return the record of planning.toml; what it leaves out is as the kind has it."""
    told: dict[str, Any] = {
        "rule": _name(new.kind, taken),
        "kind": new.kind,
        "strength": "must" if new.cost is None else "wish",
        "cost": new.cost,
        "teams": list(new.teams),
        "games": "" if new.games == "all" else new.games,
        **{name: _written(value) for name, value in new.params.items()},
        "why": new.why,
    }
    return {name: value for name, value in told.items() if value not in (None, "", [])}


def _name(kind: str, taken: set[str]) -> str:
    name = kind.replace("_", " ")
    number = 2
    while name in taken:
        name = f"{kind.replace('_', ' ')} {number}"
        number += 1
    return name


def _written(value: Value) -> Any:
    if isinstance(value, tuple):
        return list(value)
    return f"{value:%H:%M}" if isinstance(value, time) else value


def _refuse_twice(new: Rule, others: list[Rule]) -> None:
    for one in others:
        if _asks(one) == _asks(new):
            raise WholeballError(
                f"It stands there already: {KINDS[one.kind].sentence(one)}",
                fix="Change that one, or take it out first.",
                code="duplicate",
            )


def _asks(rule: Rule) -> tuple[object, ...]:
    """Return what a rule asks, whatever its name, its weight and its reason."""
    return rule.kind, frozenset(rule.teams), rule.games, dict(rule.params)
