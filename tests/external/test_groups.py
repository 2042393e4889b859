"""Published groups, held to their official order and figures."""

import pytest

from external.cases import Case, by_id, folder, read
from external.tables import Record, check, table

FILES = (
    "groups_worldcup.json",
    "groups_euro.json",
    "groups_qualifying.json",
    "groups_uefa_clubs.json",
)
PRESENT = [name for name in FILES if (folder() / name).is_file()]
if not PRESENT:
    pytest.skip("no file of groups in the folder of check data", allow_module_level=True)
REGULATIONS = read("regulations.json")
GROUPS = {name: read(name)["cases"] for name in PRESENT}


@pytest.mark.parametrize("name", FILES)
def test_a_file_of_groups_that_is_present_holds_rows(name: str) -> None:
    if name not in GROUPS:
        pytest.skip(f"no {name} in the folder of check data")
    assert GROUPS[name]


@pytest.mark.parametrize("row", by_id([row for rows in GROUPS.values() for row in rows]))
def test_the_group_stands_in_its_official_order(row: Case, record_property: Record) -> None:
    check(row, table(row, REGULATIONS), record_property)
