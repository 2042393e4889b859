"""A score is one piece of a text, and nothing else of the text changes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.reports.whole_scores import score_parts


@pytest.mark.parametrize(
    ("text", "scores"),
    [
        ("Counts 3\u20132.", ["3\u20132"]),
        ("Played 13\u20130, counts 0\u20133", ["13\u20130", "0\u20133"]),
        ("the years 2025\u20132026", []),
        ("3-2 is no score of a page", []),
        ("A\u2013B", []),
    ],
)
def test_a_score_is_found_in_a_text(text: str, scores: list[str]) -> None:
    assert [one.text for one in score_parts(text) if one.is_score] == scores


@given(st.text("0123456789\u2013 a", max_size=20))
def test_the_pieces_are_the_text(text: str) -> None:
    assert "".join(one.text for one in score_parts(text)) == text
