"""A low rating takes the reason that was answered when it was asked for, as long as that stands.

No outside source: that a low rating needs a reason is common practice.
"""

from itertools import permutations

import pytest

from wholeball.game.event import Event, Moment
from wholeball.game.happenings import Answered, Rated, Retracted
from wholeball.game.rating_reasons import with_reasons
from wholeball.game.state import Rating

AT = Moment(1, 0)


def rated(reason: str = "") -> Rating:
    return Rating(event="r", at=AT, side="away", by="official", hundredths=200, reason=reason)


def event(number: int, what: Answered | Rated | Retracted) -> Event:
    return Event("r" if number == 0 else f"e{number}", AT, (1, number, "desk", number), what)


GIVEN = event(0, Rated(side="away", by="official", hundredths=200))


def answer(number: int, reason: str, *, asked: str = "rating_reason") -> Event:
    said = Answered(target="r", asked=asked, answer="as_it_is", by="supervisor", reason=reason)
    return event(number, said)


@pytest.mark.parametrize(
    ("events", "reason"),
    [
        ([], ""),
        ([answer(1, "Shouting.")], "Shouting."),
        ([answer(1, " ")], ""),
        ([answer(1, "Shouting.", asked="rating_cap")], ""),
        ([answer(1, "Shouting."), event(2, Retracted(target="e1"))], ""),
        ([answer(1, "Shouting."), answer(2, "Spat.")], "Spat."),
    ],
    ids=["none", "answered", "blank", "another question", "taken back", "the last"],
)
def test_the_answer_that_stands_is_the_reason(events: list[Event], reason: str) -> None:
    for mixed in permutations([GIVEN, *events]):
        assert with_reasons((rated(),), mixed) == (rated(reason),)


def test_a_reason_that_was_written_down_stays() -> None:
    assert with_reasons((rated("Spat."),), [GIVEN, answer(1, "Shouting.")]) == (rated("Spat."),)
