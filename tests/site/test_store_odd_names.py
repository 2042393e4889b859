"""Tests that names which nothing can have are not there, in either database."""

import pytest

from cases.stored import a_season, written_by

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    "name", ["", "\0", "games/\0.jsonl", "\udcff", "games/..", "/", "a//b", "x" * 201, "a\nb"]
)
def test_a_name_that_nothing_can_have_is_not_there(name: str) -> None:
    record = written_by(a_season())
    record.write({"teams.csv": b"team\nReds\n"})
    assert not record.has(name)
    assert record.names(name) == (("teams.csv",) if not name else ())
    with pytest.raises(OSError, match="No such file"):
        record.read(name, 100)
