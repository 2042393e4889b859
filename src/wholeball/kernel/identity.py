"""Names what is known by an identity, so that one kind is never passed for another."""

from typing import NewType

TeamId = NewType("TeamId", str)
GameId = NewType("GameId", str)
PoolId = NewType("PoolId", str)
