"""Makes rules of rosters: teams that share a player or a captain never play at once."""

from collections import Counter
from collections.abc import Collection, Iterator
from itertools import combinations

from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.player import Rosters
from wholeball.planning.rule import Rule
from wholeball.rulebook.sentence import counted


def shared_players(
    rosters: Rosters, teams: Collection[TeamId], *, minutes: int
) -> Iterator[Rule]:
    """Yield a must for every two of these teams that have a person in common, by their codes.

    Their games on one night start so many minutes apart at least. A player without a code is
    known on one roster only.
    """
    on: dict[PersonId, dict[TeamId, None]] = {}
    for team in teams:
        for player in rosters.get(team, ()):
            if player.person is not None:
                on.setdefault(player.person, {})[team] = None
    pairs = Counter(pair for both in on.values() for pair in combinations(both, 2))
    for (one, other), persons in pairs.items():
        verb = "is" if persons == 1 else "are"
        yield Rule(
            rule=f"shared players of {one} and {other}",
            kind="never_at_once",
            strength="must",
            teams=(one, other),
            params={"minutes": minutes},
            why=f"{counted(persons, 'person', 'persons')} {verb} on both rosters",
        )
