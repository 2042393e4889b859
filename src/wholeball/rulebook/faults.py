"""Turns what the schema refuses into faults a coordinator can mend."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, Final, get_args

from pydantic_core import ErrorDetails

from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.lines import Loc
from wholeball.kernel.nearest import did_you_mean, nearest
from wholeball.rulebook.book import Rulebook, parts
from wholeball.rulebook.value import Value

HEAD_KEYS: Final = ("schema", "base", "name", "source")
_LONGEST: Final = 80
_TAGS: Final = frozenset({"word", "number", "figure"})
_OFTEN_MEANT: Final = {
    "head_to_head": "among_level or h2h_points",
    "goal_difference": "difference",
    "goals_for": "goals",
    "fair_play": "conduct",
    "coin_toss": "lots",
}
_TYPES: Final = {
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "bool_type": "true or false",
    "string_type": "text in quotes",
    "decimal_type": "a number",
    "is_instance_of": "a number",
    "tuple_type": "a list in brackets",
    "model_type": "a table",
    "dict_type": "a table",
    "time_type": "a time such as 12:00:00",
    "date_type": "a day such as 2026-09-15",
    "finite_number": "a finite number",
}


class Source:
    """A person's file: its name and, found once there is a fault, its lines."""

    def __init__(self, file: str, at: dict[Loc, int]) -> None:
        self.file = file
        self.at = at

    def place(self, loc: Loc) -> Place:
        """Return where a key stands, or the nearest table around it that the file has."""
        for length in range(len(loc), 0, -1):
            if loc[:length] in self.at:
                return Place(
                    file=self.file, line=self.at[loc[:length]], article=article_of(loc)
                )
        return Place(file=self.file, article=article_of(loc))

    def has(self, loc: Loc) -> bool:
        return loc in self.at


def article_of(loc: Loc) -> str:
    """Return the path of the article that a key belongs to: "goalkeeper.hold"."""
    kind: type[Value] = Rulebook
    path: list[str] = []
    for name in loc:
        inner = parts(kind).get(str(name))
        if inner is None:
            break
        path.append(str(name))
        kind = inner
    return ".".join(path) or str(loc[0])


def value_faults(errors: Iterable[ErrorDetails], source: Source) -> list[Fault]:
    """Return one fault for each thing the schema refused, in the order of the file."""
    faults = [_fault(error, source) for error in errors]
    return sorted(faults, key=lambda fault: fault.place.line or 0)


def _fault(error: ErrorDetails, source: Source) -> Fault:
    loc = _cleaned(error["loc"])
    judged = _judged(error, loc)
    shown = toml_text(error["input"])
    named = _named(loc)
    return Fault(
        code=judged.code,
        place=source.place(loc),
        says=f"{named} {judged.says or f'is {shown}'}.",
        value=shown,
        allowed=judged.allowed,
        cure=judged.cure,
    )


def _named(loc: Loc) -> str:
    if loc[0] in HEAD_KEYS:
        return _dotted(loc)
    article = article_of(loc)
    return f"[{article}] {_dotted(loc[article.count('.') + 1 :])}".rstrip()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Judged:
    code: str
    allowed: str
    cure: str
    says: str = ""


def _judged(error: ErrorDetails, loc: Loc) -> _Judged:
    kind, value = error["type"], error["input"]
    if isinstance(value, Decimal) and not value.is_finite():
        return _Judged(code="range", allowed="a finite number", cure="Give a finite number.")
    if kind in _TYPES:
        return _Judged(
            code="type", allowed=_TYPES[kind], cure=_of_type(value, _TYPES[kind], loc)
        )
    match kind:
        case "extra_forbidden":
            known = _keys_at(loc[:-1])
            cure = did_you_mean(str(loc[-1]), known)
            says = "is no table of a rulebook" if len(loc) == 1 else "is not known"
            return _Judged(code="unknown_key", allowed=", ".join(known), cure=cure, says=says)
        case "missing":
            return _Judged(
                code="missing", allowed="a value", cure="Give it a value.", says="is missing"
            )
        case "literal_error":
            return _word(error["input"], error)
        case _:
            return _bounded(error, loc)


def _own_words(error: ErrorDetails) -> _Judged:
    message = error["msg"]
    says = f"is not allowed: {message}"
    return _Judged(code=error["type"], allowed=message, cure="Change one of them.", says=says)


def _word(value: object, error: ErrorDetails) -> _Judged:
    known = re.findall(r"'([^']*)'", error["ctx"]["expected"]) or [
        error["ctx"]["expected"].lower()
    ]
    allowed = ", ".join(known)
    if not isinstance(value, str):
        return _Judged(
            code="range" if isinstance(value, bool) else "type",
            allowed=allowed,
            cure=f"Use one of: {allowed}.",
        )
    meant = _OFTEN_MEANT.get(nearest(value, _OFTEN_MEANT) or "")
    cure = f"Did you mean {meant}?" if meant else did_you_mean(value, known)
    return _Judged(code="unknown_value", allowed=allowed, cure=cure)


def _of_type(value: object, wanted: str, loc: Loc) -> str:
    if isinstance(value, str) and re.fullmatch(r"-?\d+", value) and "number" in wanted:
        return f"Write {loc[-1]} = {value}, without quotes."
    return f"Give {wanted}."


def _bounded(error: ErrorDetails, loc: Loc) -> _Judged:
    least, most = _bounds_at(loc)
    context = error.get("ctx", {})
    least = context.get("ge", context.get("min_length", least))
    most = context.get("le", context.get("max_length", most))
    if least is None or most is None:
        allowed = f"{least} or more" if most is None else f"at most {most}"
    else:
        allowed = f"{least} to {most}"
    if error["type"].startswith(("string", "too")):
        unit = "characters" if error["type"].startswith("string") else "items"
        says = f"has {len(error['input']):,} {unit}"
        return _Judged(
            code="range", allowed=f"{allowed} {unit}", cure=f"Give {allowed}.", says=says
        )
    return _Judged(code="range", allowed=allowed, cure=f"Give {allowed}.")


def _bounds_at(loc: Loc) -> tuple[Any, Any]:
    kinds = _kinds_at(loc[:-1])
    fields = [kind.model_fields[str(loc[-1])] for kind in kinds if loc[-1] in kind.model_fields]
    found = [limit for field in fields for limit in field.metadata]
    least = next((limit.ge for limit in found if hasattr(limit, "ge")), None)
    most = next((limit.le for limit in found if hasattr(limit, "le")), None)
    return least, most


def _keys_at(loc: Loc) -> list[str]:
    if not loc:
        return [*parts(Rulebook), "also", *HEAD_KEYS]
    return [name for kind in _kinds_at(loc) for name in kind.model_fields]


def _kinds_at(loc: Loc) -> list[type[Value]]:
    kinds: list[type[Value]] = [Rulebook]
    for name in loc:
        if isinstance(name, str):
            fields = [kind.model_fields.get(name) for kind in kinds]
            kinds = [kind for field in fields if field for kind in _records(field.annotation)]
    return kinds


def _records(annotation: object) -> list[type[Value]]:
    if isinstance(annotation, type) and issubclass(annotation, Value):
        return [annotation]
    return [kind for inner in get_args(annotation) for kind in _records(inner)]


def _cleaned(loc: Loc) -> Loc:
    """Drop the tags that pydantic puts into a location for the branch of a union it took."""
    if loc[0] == "head":
        return ("schema",) if loc[1] == "schema_version" else loc[1:]
    kept: list[str | int] = []
    for index, name in enumerate(loc):
        is_branch = index >= 2 and loc[index - 2] == "criteria" and isinstance(name, str)
        if not is_branch and name not in _TAGS:
            kept.append(name)
    return tuple(kept)


def _dotted(loc: Loc) -> str:
    words = ""
    for name in loc:
        words += f" item {name + 1}" if isinstance(name, int) else f".{name}"
    return words.strip(". ")


def toml_text(value: object) -> str:
    """Return a value as a person would write it in TOML, cut where it is long."""
    match value:
        case bool():
            text = str(value).lower()
        case str():
            text = f'"{value}"'
        case tuple() | list():
            text = f"[{', '.join(toml_text(item) for item in value)}]"
        case dict():
            inner = ", ".join(f"{name} = {toml_text(item)}" for name, item in value.items())
            text = f"{{ {inner} }}"
        case _:
            text = str(value)
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}..."
