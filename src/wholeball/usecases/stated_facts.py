"""Reads facts that somebody states, and finds what follows from them or contradicts them."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError
from wholeball.kernel.nearest import did_you_mean
from wholeball.rulings.fact import Fact
from wholeball.rulings.space import Space
from wholeball.rulings.spaces import GAME, SPACES

_SPACE_OF: Final = {fact.name: space for space in SPACES for fact in space.facts}
_FACTS: Final = {fact.name: fact for space in SPACES for fact in space.facts}


def read_facts(words: Iterable[str]) -> dict[str, str]:
    """Return facts from words such as moment=open.

    Raises:
        InputFaults: every word that is no fact, or has a value that the fact does not have.
    """
    facts: dict[str, str] = {}
    faults: list[Fault] = []
    for word in words:
        name, _, value = word.partition("=")
        found = _fault(word, facts)
        if found is None:
            facts[name] = value
        else:
            faults.append(found)
    if faults:
        raise InputFaults(faults)
    return facts


def _fault(word: str, before: Mapping[str, str]) -> Fault | None:
    name, equals, value = word.partition("=")
    if not equals:
        says, code, cure = f"{word!r} is no fact.", "syntax", "Write name=value."
    elif name not in _FACTS:
        says, code, cure = f"{name!r} is no fact.", "unknown_fact", did_you_mean(name, _FACTS)
    elif value not in _FACTS[name].values:
        cure = did_you_mean(value, _FACTS[name].values)
        says, code = f"{name} has no value {value!r}.", "unknown_value"
    elif before.get(name, value) != value:
        says, code = f"{name} is {before[name]} and {value}.", "contradiction"
        cure = "Leave one of them out."
    else:
        return None
    return Fault(code=code, place=Place(file="--facts"), says=says, value=value, cure=cure)


def space_of(facts: Iterable[str]) -> Space:
    """Return the space that facts belong to; the game itself where there are none.

    Raises:
        WholeballError: some are about the game and some about persons and procedure.
    """
    by_space = {_SPACE_OF[name].name: name for name in facts}
    if len(by_space) > 1:
        one, other = by_space.values()
        raise WholeballError(
            f"{one} and {other} are never asked together.",
            fix=f"Leave out {one} or {other}.",
            code="contradiction",
        )
    return next((space for space in SPACES if space.name in by_space), GAME)


def with_what_follows(facts: Mapping[str, str], space: Space) -> dict[str, str]:
    """Return facts with those that no situation with them can lack.

    Raises:
        WholeballError: no situation has them all.
    """
    known = dict(facts)
    waiting = list(facts)
    while waiting:
        stated = space.fact(waiting.pop())
        for name, values, because in _demands(stated, known[stated.name], space):
            if name in known and known[name] not in values:
                raise _contradiction(stated.name, name, known, because)
            if name not in known and len(values) == 1:
                (known[name],) = values
                waiting.append(name)
    _refuse_impossible(known, space)
    return {fact.name: known[fact.name] for fact in space.facts if fact.name in known}


def _refuse_impossible(known: Mapping[str, str], space: Space) -> None:
    facts = {fact.name: fact for fact in space.facts}
    for name, value in known.items():
        because = facts[name].contradicted(value, known)
        if because is not None:
            says, cure = f"{name} cannot be {value}: {because}.", f"Change {name}."
        elif not _may_be_asked(facts[name], known, facts):
            says = f"{name} is never asked where the other facts are so."
            cure = f"Leave {name} out, or change what makes it out of place."
        else:
            continue
        raise WholeballError(says, fix=cure, code="contradiction")


def _may_be_asked(fact: Fact, known: Mapping[str, str], facts: Mapping[str, Fact]) -> bool:
    """Tell whether some way to ask for a fact is still open; answers may turn out anyhow."""
    return not fact.asked_when or any(
        all(
            known[name] in values
            if name in known
            else name not in facts or _may_be_asked(facts[name], known, facts)
            for name, values in gate.items()
        )
        for gate in fact.asked_when
    )


def _demands(
    stated: Fact, value: str, space: Space
) -> Iterator[tuple[str, frozenset[str], str]]:
    """Yield what a value demands of facts before it: the name, the values left, and why."""
    facts = {fact.name: fact for fact in space.facts}
    yield from _asked_only(stated, facts)
    for cut in (cut for cut in stated.cuts if value in cut.values and len(cut.when) == 1):
        for name, shut in cut.when.items():
            if name in facts and not facts[name].asked_when:
                yield name, frozenset(facts[name].values) - shut, cut.because


def _asked_only(
    stated: Fact, facts: Mapping[str, Fact]
) -> Iterator[tuple[str, frozenset[str], str]]:
    """Yield what every way to ask for a fact demands, and what must be asked for that."""
    gates = stated.asked_when
    for name in (name for name in (gates[0] if gates else {}) if name in facts):
        if all(name in gate for gate in gates):
            values = frozenset().union(*(gate[name] for gate in gates))
            yield name, values, f"{stated.name} is not asked then"
            yield from _asked_only(facts[name], facts)


def _contradiction(
    stated: str, name: str, known: Mapping[str, str], because: str
) -> WholeballError:
    return WholeballError(
        f"{stated} cannot be {known[stated]} where {name} is {known[name]}: {because}.",
        fix=f"Change {stated} or {name}, or leave one of them out.",
        code="contradiction",
    )
