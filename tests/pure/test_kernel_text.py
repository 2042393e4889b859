"""What nobody can see is refused in a name; what people are really called is not."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.text import unreadable, visible

NAMES = (
    "",
    "Null",
    "O'Brien-Müller III",
    "Zoë",
    "Zoe\u0308",
    "محمد بن علي",
    "\u200f\u05e9\u05dc\u05d5\u05dd\u200e",
    "😀🦵",
    "👩\u200d👧",
    "ក\u200bខ",
    "two\nlines\tand a tab",
    "{{7*7}}<script>",
)


@pytest.mark.parametrize("name", NAMES)
def test_a_name_of_any_script_is_readable(name: str) -> None:
    assert unreadable(name) is None


@pytest.mark.parametrize(
    ("text", "code", "point"),
    [
        ("a\x00b", "control_char", "U+0000"),
        ("a\r", "control_char", "U+000D"),
        ("\x1b[31m", "control_char", "U+001B"),
        ("a\x7f", "control_char", "U+007F"),
        ("a\x85b", "control_char", "U+0085"),
        ("a\u2028b", "control_char", "U+2028"),
        ("a\u2029b", "control_char", "U+2029"),
        ("Ann\u202egnp.exe", "bidi_control", "U+202E"),
        ("\u2066a\u2069", "bidi_control", "U+2066"),
        ("a\u202a\x00", "bidi_control", "U+202A"),
    ],
)
def test_the_first_hidden_character_is_named(text: str, code: str, point: str) -> None:
    assert unreadable(text) == (code, point)


@given(st.text())
def test_a_text_is_readable_unless_it_holds_a_control_a_separator_or_an_override(
    text: str,
) -> None:
    plain = text.replace("\n", "").replace("\t", "")
    kinds = {"LRE", "RLE", "PDF", "LRO", "RLO", "LRI", "RLI", "FSI", "PDI"}
    hidden = any(
        unicodedata.category(one) in {"Cc", "Zl", "Zp"}
        or unicodedata.bidirectional(one) in kinds
        for one in plain
    )
    assert (unreadable(text) is not None) == hidden


@pytest.mark.parametrize("text", NAMES)
def test_a_readable_text_is_shown_as_it_is(text: str) -> None:
    assert visible(text) == text


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[2J", "\\x1b[2J"),
        ("a\x00\r", "a\\x00\\x0d"),
        ("\x9b2J", "\\x9b2J"),
        ("Ann\u202egnp.exe", "Ann\\u202egnp.exe"),
        ("a\u2028b", "a\\u2028b"),
    ],
)
def test_what_nobody_can_see_is_shown_as_its_escape(text: str, shown: str) -> None:
    assert visible(text) == shown


@given(st.text())
def test_what_is_shown_is_always_readable(text: str) -> None:
    assert unreadable(visible(text)) is None
