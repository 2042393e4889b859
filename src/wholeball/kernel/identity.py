"""Names what is known by an identity, so that one kind is never passed for another."""

from typing import Literal, NewType, TypeAlias

TeamId = NewType("TeamId", str)
GameId = NewType("GameId", str)
PoolId = NewType("PoolId", str)

Side: TypeAlias = Literal["home", "away"]
"""One of the two sides of a game, as the timetable lists them."""
