"""Whole seasons of leagues, held to their official order and figures."""

import pytest

from external.cases import Case, by_id, cases, read
from external.tables import Record, check, table

LEAGUES = cases("leagues.json")
REGULATIONS = read("regulations.json")


@pytest.mark.parametrize("row", by_id(LEAGUES))
def test_the_league_stands_in_its_official_order(row: Case, record_property: Record) -> None:
    check(row, table(row, REGULATIONS), record_property)
