"""Declares articles: named claims as data, and what a rulebook makes of them."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from wholeball.rulings.condition import When

Kind: TypeAlias = Literal["law", "permitted", "local", "administrative"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Article:
    """One claim as it is written down.

    Where a rulebook has, for every key of `given`, one of the values named, the article is live:
    when `when` holds, it claims the parts of the answer in `then`, together with those that its
    `outcome` stands for, and displaces the articles `over`. An `outcome` that names a key of the
    rulebook is the value of that key. `path` is the rulebook's article it speaks for, `law` the
    section of the Laws of the Game.
    """

    name: str
    stage: str
    says: str
    law: str
    when: Mapping[str, str] = field(default_factory=dict)
    outcome: str | None = None
    then: Mapping[str, str] = field(default_factory=dict)
    over: str = ""
    path: str | None = None
    given: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """An article under one rulebook, ready to be weighed."""

    name: str
    stage: str
    says: str
    ref: str
    kind: Kind
    when: When
    then: Mapping[str, str]
    over: frozenset[str]
    path: str | None
