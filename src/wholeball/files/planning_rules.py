"""Reads the rules of planning.toml: records, each with the parameters of its kind beside it."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, time
from functools import cache
from typing import Any, Final

from pydantic import BaseModel, ConfigDict, Field, ValidationError, create_model

from wholeball.kernel.faults import Fault
from wholeball.kernel.identity import TeamId
from wholeball.kernel.lines import Loc
from wholeball.kernel.nearest import did_you_mean
from wholeball.kernel.refusals import Schema, Source, toml_text, value_faults
from wholeball.planning.kind import AnyKind
from wholeball.planning.kinds import KINDS
from wholeball.planning.rule import Games, Param, Rule, Strength

COST: Final = "Give it a cost: 1 tiny, 3 a nuisance, 10 a complaint, 30 an appeal."
OWN: Final = ("once", "places", "capacity", "at once", "lock")
"""The names of what holds of every timetable, whatever the rules say."""


class RuleRecord(BaseModel):
    """What every rule has, of whatever kind."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)

    rule: str = Field(min_length=1, max_length=120)
    kind: str
    strength: Strength
    cost: int | None = Field(default=None, ge=1, le=10_000)
    teams: tuple[str, ...] = Field(default=(), max_length=5_000)
    games: Games = "all"
    why: str = Field(default="", max_length=400)


def read_rules(
    records: Iterable[Mapping[str, Any]], source: Source
) -> tuple[tuple[Rule, ...], list[Fault]]:
    """Return the rules in the order of the file, and everything that is wrong with them."""
    rules: list[Rule] = []
    faults: list[Fault] = []
    names: set[str] = set(OWN)
    for index, record in enumerate(records):
        wrong = list(_faults(record, ("rules", index), source))
        name = record.get("rule")
        if isinstance(name, str) and name in names:
            says = f'another rule is called "{name}", or the program\'s own.'
            loc: Loc = ("rules", index, "rule")
            wrong.append(_fault("duplicate", source, loc, says, "Give it a name of its own."))
        names.add(str(name))
        faults += wrong
        if not wrong:
            rules.append(_rule(record))
    return tuple(rules), faults


def _faults(record: Mapping[str, Any], loc: Loc, source: Source) -> Iterator[Fault]:
    name = record.get("kind")
    kind = KINDS.get(name) if isinstance(name, str) else None
    if kind is None:
        says = (
            f"{_called(record, loc)} has no kind."
            if name is None
            else f"{_called(record, loc)} is of the kind {toml_text(name)}, which there is not."
        )
        yield Fault(
            code="missing" if name is None else "unknown_value",
            place=source.place((*loc, "kind")),
            says=says,
            value=None if name is None else toml_text(name),
            allowed=", ".join(KINDS),
            cure=did_you_mean(str(name or ""), KINDS),
        )
        return
    try:
        record_of(kind).model_validate(record)
    except ValidationError as error:
        refused = error.errors(include_url=False)
        for one in refused:
            one["loc"] = (*loc, *one["loc"])
        yield from value_faults(refused, source, _schema(kind))
        return
    yield from _together(record, kind, loc, source)


def _together(
    record: Mapping[str, Any], kind: AnyKind, loc: Loc, source: Source
) -> Iterator[Fault]:
    """Find keys that are right one by one and do not go together."""
    called = _called(record, loc)
    strength, cost, teams = record["strength"], record.get("cost"), record.get("teams", ())
    if strength not in kind.strengths:
        says = f"{called} is a {strength}; {kind.name} can be a {kind.strengths[0]} only."
        cure = f'Write strength = "{kind.strengths[0]}".'
        yield _fault("unknown_value", source, (*loc, "strength"), says, cure, strength)
    if strength == "wish" and cost is None:
        yield _fault("missing", source, loc, f"{called} is a wish and has no cost.", COST)
    if strength == "must" and cost is not None:
        says = f"{called} is a must and has the cost {cost}."
        cure = 'Take the cost out, or write strength = "wish".'
        yield _fault("contradiction", source, (*loc, "cost"), says, cure, str(cost))
    if len(set(teams)) < len(teams):
        says = f"{called} names a team twice."
        yield _fault("duplicate", source, (*loc, "teams"), says, "Name each once.")
    if kind.teams == "several" and len(set(teams)) < 2:
        says = f"{called} needs two teams or more; it names {len(set(teams))}."
        yield _fault("range", source, (*loc, "teams"), says, "Name the teams.")
    if kind.teams == "none" and teams:
        says = f"{called} is about no team, and names some."
        yield _fault("contradiction", source, (*loc, "teams"), says, "Take the teams out.")
    if not kind.stages and record.get("games", "all") != "all":
        says = f"{called} looks at every game, whatever its stage."
        yield _fault("contradiction", source, (*loc, "games"), says, "Take games out.")


def _fault(
    code: str, source: Source, loc: Loc, says: str, cure: str, value: str | None = None
) -> Fault:
    return Fault(code=code, place=source.place(loc), says=says, value=value, cure=cure)


def _called(record: Mapping[str, Any], loc: Loc) -> str:
    name = record.get("rule")
    return f"rule {toml_text(name)}" if isinstance(name, str) else f"rules item {loc[1]}"


@cache
def record_of(kind: AnyKind) -> type[BaseModel]:
    """Return the record of a kind: what every rule has, and the kind's own parameters."""
    return create_model(f"{kind.name}_rule", __base__=(RuleRecord, kind.params))


@cache
def _schema(kind: AnyKind) -> Schema:
    root = create_model("Rules", rules=(tuple[record_of(kind), ...], ()))  # type: ignore[arg-type, misc]
    return Schema(root=root, top_keys=("rules",))


def _rule(record: Mapping[str, Any]) -> Rule:
    own = {name: value for name, value in record.items() if name not in RuleRecord.model_fields}
    return Rule(
        rule=record["rule"],
        kind=record["kind"],
        strength=record["strength"],
        cost=record.get("cost") or 0,
        teams=tuple(map(TeamId, record.get("teams", ()))),
        games=record.get("games", "all"),
        params={name: _param(value) for name, value in own.items()},
        why=record.get("why", ""),
    )


def _param(value: Any) -> Param:
    """Write a day or a time as text, as rules hold them."""
    if isinstance(value, tuple):
        return tuple(str(_param(one)) for one in value)
    if isinstance(value, time):
        return f"{value:%H:%M}"
    return f"{value}" if isinstance(value, date) else value
