"""The number of a page is counted with its noun, as one or as many."""

import pytest

from wholeball.reports.shell import Spot


@pytest.mark.parametrize(
    ("count", "many", "told"),
    [
        (0, None, ("0", "results")),
        (1, None, ("1", "result")),
        (2, None, ("2", "results")),
        (1, "results in all", ("1", "result")),
        (2, "results in all", ("2", "results in all")),
        (1_000, None, ("1,000", "results")),
    ],
)
def test_one_is_told_with_its_noun_and_every_other_count_with_that_of_many(
    count: int, many: str | None, told: tuple[str, str]
) -> None:
    spot = Spot.counting(count, "result", many)
    assert (spot.number, spot.label) == told
