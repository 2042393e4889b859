"""Lines of TOML files are said without their signs where changes are listed."""

import pytest

from wholeball.store.toml_words import in_words


@pytest.mark.parametrize(
    ("line", "says"),
    [
        (
            "ladder = [{ lead = 10, minutes_left = 12 }, { lead = 6, minutes_left = 4 }]",
            "ladder: lead 10, minutes left 12 / lead 6, minutes left 4",
        ),
        ("ladder = []", "ladder: none"),
        ('roles = ["referee", "scorekeeper"]', "roles: referee, scorekeeper"),
        ("byes = true    # an odd number", "byes: yes"),
        ("games_each = 5", "games each: 5"),
        ('why = ""', "why: nothing"),
        ("first_day = 2027-01-18", "first day: 2027-01-18"),
        ("[mercy]", "[mercy]"),
        ("[[rules]]", "[[rules]]"),
        ("# a comment", "# a comment"),
        ("", ""),
        ("ladder = [", "ladder = ["),
    ],
)
def test_a_line_is_said_as_people_would(line: str, says: str) -> None:
    assert in_words(line) == says
