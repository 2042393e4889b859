"""Names what is known by an identity, so that one kind is never passed for another."""

from typing import Literal, NewType, TypeAlias

TeamId = NewType("TeamId", str)
GameId = NewType("GameId", str)
PoolId = NewType("PoolId", str)
DivisionId = NewType("DivisionId", str)
BlockId = NewType("BlockId", str)
SiteId = NewType("SiteId", str)
PersonId = NewType("PersonId", str)
"""A person: the keyed digest of a student id, or a code that the folder's keeper chose."""

Side: TypeAlias = Literal["home", "away"]
"""One of the two sides of a game, as the timetable lists them."""
