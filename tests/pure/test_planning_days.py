"""Days are told one by one, and those on end by the first and the last."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from wholeball.planning.days import day, spans

MONDAY = date(2027, 1, 4)


def days(*numbers: int) -> list[date]:
    return [MONDAY + timedelta(days=one) for one in numbers]


def test_two_days_on_end_are_named_and_three_are_a_span() -> None:
    assert list(spans(days(0, 1))) == ["Monday 4 January", "Tuesday 5 January"]
    assert list(spans(days(0, 1, 2))) == ["Monday 4 January to Wednesday 6 January"]


def test_days_that_are_not_on_end_stay_apart_in_their_order() -> None:
    assert list(spans(days(7, 0, 2, 3, 4, 5))) == [
        "Monday 11 January",
        "Monday 4 January",
        "Wednesday 6 January to Saturday 9 January",
    ]
    assert list(spans([])) == []


@given(st.lists(st.integers(0, 40)))
def test_every_day_is_named_or_lies_in_a_span(numbers: list[int]) -> None:
    said = list(spans(days(*numbers)))
    named = [part for one in said for part in one.split(" to ")]
    assert set(named) <= {day(one) for one in days(*numbers)}
    if numbers:
        assert named[0] == day(days(numbers[0])[0])
        assert named[-1] == day(days(numbers[-1])[0])
    assert len(said) <= len(numbers)
