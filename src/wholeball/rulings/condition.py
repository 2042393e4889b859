"""Writes conditions as data: which facts or answers must have one of which values."""

from collections.abc import Mapping
from typing import Final, TypeAlias

When: TypeAlias = Mapping[str, frozenset[str]]
"""Names of facts and answers, each with the values that are enough; all must hold.

A name that has no value yet, or that was not asked, has none of them.
"""
Known: TypeAlias = Mapping[str, str]
"""What is known of a situation so far: facts by name, and answers of settled stages."""

NOT: Final = "not"


def condition(said: Mapping[str, str], values: Mapping[str, frozenset[str]]) -> When:
    """Return a condition from its short form: values apart by spaces, or "not" and values.

    "not open" means asked and another one: a fact that was not asked is not "not open".

    Raises:
        ValueError: a name or value that nothing declares.
    """
    return {name: _values(name, words.split(), values) for name, words in said.items()}


def _values(
    name: str, words: list[str], values: Mapping[str, frozenset[str]]
) -> frozenset[str]:
    if name not in values:
        raise ValueError(f"{name} is neither a fact nor an answer")
    is_denied = words[:1] == [NOT]
    named = frozenset(words[1:] if is_denied else words)
    unknown = sorted(named - values[name])
    if unknown or not named:
        raise ValueError(f"{name} has no value {' '.join(unknown) or '(none given)'}")
    return values[name] - named if is_denied else named


def holds(when: When, known: Known) -> bool:
    """Tell whether every name has one of its values."""
    for name, values in when.items():  # noqa: SIM110 - asked so often that a generator costs
        if known.get(name) not in values:
            return False
    return True
