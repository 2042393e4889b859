"""Tests that writing a table costs no more queries for many rows, and tells no row that is refused."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from cases.stored import a_season, written_by
from wholeball.kernel.faults import WholeballError

pytestmark = pytest.mark.django_db


def test_writing_takes_as_many_queries_for_many_rows_as_for_one() -> None:
    taken = []
    for number, rows in enumerate((1, 2_000)):
        record = written_by(a_season(f"Season {number}"))
        players = "".join(f"Reds,P{row}\n" for row in range(rows))
        with CaptureQueriesContext(
            connection,
        ) as queries:
            record.write({"rosters.csv": f"team,name\n{players}".encode()})
        taken.append(len(queries))
    assert taken[0] == taken[1]


def test_a_row_that_is_refused_is_not_told_by_the_database() -> None:
    record = written_by(a_season())
    with pytest.raises(WholeballError) as refused:
        record.write({"people.csv": b"person,gender\nk7,woman\nk7,woman\n"})
    assert refused.value.code == "duplicate"
    assert "woman" not in refused.value.says
    assert "k7" not in refused.value.says
