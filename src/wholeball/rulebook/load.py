"""Loads a rulebook from TOML: all of it, or every fault it has."""

from dataclasses import dataclass
from typing import Any, Final

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.lines import lines
from wholeball.kernel.nearest import did_you_mean
from wholeball.kernel.refusals import (
    Source,
    hidden,
    hidden_faults,
    refuse_version,
    toml_text,
    value_faults,
)
from wholeball.kernel.toml import decode, read_toml
from wholeball.rulebook.book import SCHEMA, Rulebook, parts
from wholeball.rulebook.contradictions import CHECKS, Contradiction, contradictions
from wholeball.rulebook.editions import NEWEST, edition_keys, edition_values
from wholeball.rulebook.keys import HEAD_KEYS, SCHEMA_OF_RULEBOOK, article_of, loc_of
from wholeball.rulebook.overlay import overlay
from wholeball.rulebook.value import Article

UNNAMED: Final = "House rules"


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """A rulebook, and what about it is doubtful or worth a note."""

    rulebook: Rulebook
    remarks: tuple[Fault, ...]


def load(data: bytes, *, file: str) -> Loaded:
    """Return the rulebook that a TOML file states.

    Raises:
        InputFaults: one fault of the file as such (limits, encoding, syntax, ...), or all
            faults of its values at once.
    """
    said = read_toml(data, file=file)
    refuse_version(said, reads=SCHEMA, source=lambda: _source(data, file))
    laid = _laid(said)
    try:
        book = Rulebook.model_validate(laid)
    except ValidationError as error:
        raise InputFaults(_all_faults(error, laid, said, _source(data, file))) from error
    faults, remarks = _judged(book, said, data, file)
    if faults:
        raise InputFaults(faults)
    return Loaded(rulebook=book, remarks=remarks)


def _laid(said: dict[str, Any]) -> dict[str, Any]:
    tables = {name: value for name, value in said.items() if name not in HEAD_KEYS}
    base = said.get("base", NEWEST)
    under = edition_values(base if base in edition_keys() else NEWEST)
    source = said.get("source", "")
    laid = overlay(Rulebook, under, tables, source=source if isinstance(source, str) else "")
    laid["head"] = {
        "schema_version": SCHEMA,
        "base": base,
        "name": said.get("name", UNNAMED),
        "source": source,
    }
    return laid


def _source(data: bytes, file: str) -> Source:
    return Source(file, lines(decode(data, file=file)))


def _all_faults(
    error: ValidationError, laid: dict[str, Any], said: dict[str, Any], source: Source
) -> list[Fault]:
    """Return the schema's faults, and those of whatever else is whole enough to be asked."""
    broken = {name for name, kind in parts(Rulebook).items() if not _is_whole(kind, laid[name])}
    unbroken = Rulebook.model_validate(
        {
            **edition_values(NEWEST),
            **{name: laid[name] for name in parts(Rulebook) if name not in broken},
        }
    )
    asked = (
        check
        for check in CHECKS
        if broken.isdisjoint(path.split(".")[0] for path in check.paths)
    )
    clashes = [clash for check in asked for clash in check.find(unbroken)]
    faults = [
        *value_faults(_readable(error, said), source, SCHEMA_OF_RULEBOOK),
        *(_clash(clash, source) for clash in clashes if clash.level == "fault"),
        *_head_faults(said, source),
    ]
    return sorted(faults, key=lambda fault: fault.place.line or 0)


def _readable(error: ValidationError, said: dict[str, Any]) -> list[ErrorDetails]:
    """Return what the schema refuses, without texts that nobody can read, which say so."""
    unseen = {loc for loc, _ in hidden(said)}
    cleaned = SCHEMA_OF_RULEBOOK.cleaned
    return [one for one in error.errors(include_url=False) if cleaned(one["loc"]) not in unseen]


def _is_whole(kind: type[Article], values: object) -> bool:
    try:
        kind.model_validate(values)
    except ValidationError:
        return False
    return True


def _judged(
    book: Rulebook, said: dict[str, Any], data: bytes, file: str
) -> tuple[list[Fault], tuple[Fault, ...]]:
    clashes = contradictions(book)
    head = _head_faults(said, Source(file, {}))
    if not clashes and not head and "base" in said:
        return [], ()
    source = _source(data, file)
    found = [*_head_faults(said, source), *(_clash(clash, source) for clash in clashes)]
    found = sorted(found, key=lambda fault: fault.place.line or 0)
    faults = [fault for fault in found if fault.level == "fault"]
    remarks = [fault for fault in found if fault.level != "fault"]
    return faults, tuple(remarks + _notes(said, file))


def _notes(said: dict[str, Any], file: str) -> list[Fault]:
    if "base" in said:
        return []
    note = Fault(
        code="base_assumed",
        place=Place(file=file, article="base"),
        says=f"No base is named; {NEWEST} is taken.",
        cure=f'Write base = "{NEWEST}", so that a newer program reads the same.',
        level="note",
    )
    return [note]


def _clash(clash: Contradiction, source: Source) -> Fault:
    loc = next(
        (loc for loc in map(loc_of, clash.keys) if source.has(loc)), loc_of(clash.keys[0])
    )
    place = source.place(loc, article_of(loc))
    return Fault(
        code=clash.code, place=place, says=clash.says, cure=clash.cure, level=clash.level
    )


def _head_faults(said: dict[str, Any], source: Source) -> list[Fault]:
    base = said.get("base", NEWEST)
    faults = []
    known = edition_keys()
    if isinstance(base, str) and base not in known:
        faults.append(
            Fault(
                code="unknown_value",
                place=source.place(("base",)),
                says=f"base is {toml_text(base)}, which is no edition of the Laws.",
                value=toml_text(base),
                allowed=", ".join(known),
                cure=did_you_mean(base, known),
            )
        )
    if "head" in said:
        faults.append(_no_table(source))
    return faults + hidden_faults(said, source, SCHEMA_OF_RULEBOOK)


def _no_table(source: Source) -> Fault:
    return Fault(
        code="unknown_key",
        place=source.place(("head",)),
        says="head is no table or key of this file.",
        allowed=", ".join(SCHEMA_OF_RULEBOOK.top_keys),
        cure="Write name, source and base at the top of the file, above the tables.",
    )
