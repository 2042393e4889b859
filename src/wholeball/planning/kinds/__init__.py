"""Is the registry of the kinds of rules: one entry a kind, and an unknown kind is an error."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from wholeball.planning.kind import AnyKind
from wholeball.planning.kinds.early import EARLY
from wholeball.planning.kinds.limits import LIMITS
from wholeball.planning.kinds.order import ORDER
from wholeball.planning.kinds.pairs import PAIRS
from wholeball.planning.kinds.season import SEASON
from wholeball.planning.kinds.times import TIMES

KINDS: Final[Mapping[str, AnyKind]] = MappingProxyType(
    {kind.name: kind for kind in (*TIMES, *LIMITS, *PAIRS, *ORDER, *SEASON, *EARLY)}
)
