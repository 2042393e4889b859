"""Keys of a TOML file are changed and all else stays, or nothing is and that is said."""

from codecs import BOM_UTF8
from collections.abc import Callable
from datetime import date

import pytest

from wholeball.files.planning_edit import with_amount
from wholeball.files.rulebook_edit import with_values
from wholeball.files.season_edit import with_days, with_lots
from wholeball.kernel.faults import WholeballError

ORDER = ("Ash", "Birch")


def test_days_and_lots_are_changed_and_what_stands_beside_them_stays() -> None:
    data = b'first_day = 2027-01-04  # a Monday\nlast_day = 2027-02-14\nname = "Eights"\n'
    days = with_days(data, first=date(2027, 1, 11), last=date(2027, 2, 21))
    assert days == data.replace(b"01-04", b"01-11").replace(b"02-14", b"02-21")
    one = with_lots(data, label="places 2 and 3", order=ORDER)
    lots = b'[[lots]]\nlabel = "%s"\norder = ["Ash", "Birch"]\n'
    assert one == data + lots % b"places 2 and 3"
    two = with_lots(one, label="seeds", order=ORDER)
    assert two.replace(b"\n\n", b"\n") == data + lots % b"places 2 and 3" + lots % b"seeds"


def test_the_mark_with_which_some_editors_begin_a_file_stays() -> None:
    text = BOM_UTF8 + b"meetings = 1\n"
    assert with_amount(text, games_each=None, meetings=2) == BOM_UTF8 + b"meetings = 2\n"


def test_games_each_and_meetings_take_the_place_of_each_other() -> None:
    new = with_amount(b"", games_each=None, meetings=2)
    assert new == b"schema = 1\nmeetings = 2\n"
    assert with_amount(new, games_each=5, meetings=1) == b"schema = 1\ngames_each = 5\n"


@pytest.mark.parametrize(
    ("edit", "says"),
    [
        (lambda: with_days(b"[", first=date.min, last=date.max), "The first and the last day"),
        (lambda: with_lots(b"lots = 1", label="seeds", order=ORDER), "The lots"),
        (lambda: with_amount(b"a = ", games_each=1, meetings=1), "How much each team plays"),
        (lambda: with_values(b"mercy = 1", "mercy", {"lead": 8}), "mercy"),
    ],
)
def test_what_does_not_let_itself_be_changed_is_named(
    edit: Callable[[], bytes], says: str
) -> None:
    with pytest.raises(WholeballError, match=f"^{says} cannot be changed without the rest in "):
        edit()
