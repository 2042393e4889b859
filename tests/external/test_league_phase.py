"""League phases in which teams did not all meet, held to who went through and how."""

from collections.abc import Sequence

import pytest

from external.cases import Case, by_id, cases, read
from external.tables import Record, hold_the_unresolved_to_account, names, table

PHASES = cases("league_phase.json")
REGULATIONS = read("regulations.json")


@pytest.mark.parametrize("row", by_id(PHASES))
def test_the_league_phase_sends_the_official_teams_on(
    row: Case, record_property: Record
) -> None:
    found = table(row, REGULATIONS)
    record_property("unresolved", len(found.unresolved))
    record_property("absences", len(found.absences))
    hold_the_unresolved_to_account(found)
    teams = names(row)
    place = {teams.index(one.team): one.place for one in found.rows}
    direct = set(row["official"]["direct_1_8"])
    play_off = set(row["official"]["playoff_9_24"])
    assert (len(direct), len(play_off)) == (8, 16)
    out = set(place) - direct - play_off
    for better, worse in ((direct, play_off), (play_off, out)):
        assert max(place[one] for one in better) <= min(place[one] for one in worse)
    _hold_shared_places_to_the_edges(found.unresolved, [direct, play_off, out], teams)


def _hold_shared_places_to_the_edges(
    unresolved: tuple[tuple[str, ...], ...], bands: list[set[int]], teams: Sequence[str]
) -> None:
    """Only teams that nothing parts may stand on both sides of an edge."""
    for shared in unresolved:
        indexes = {teams.index(one) for one in shared}
        assert sum(bool(indexes & band) for band in bands) in (1, 2)
