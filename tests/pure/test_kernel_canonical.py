"""The same value always gives the same bytes, and another value others."""

import hashlib
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.canonical import Plain, canonical_bytes, digest

PLAIN: st.SearchStrategy[Plain] = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(st.characters(codec="utf-8")),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.text(st.characters(codec="utf-8")), inner, max_size=3)
    ),
    max_leaves=8,
)


def test_keys_are_sorted_and_letters_stand_as_they_are() -> None:
    value: Plain = {"b": [1, None, True], "a": "é😀"}
    assert canonical_bytes(value) == '{"a":"é😀","b":[1,null,true]}'.encode()


def test_the_digest_is_the_sha_256_of_the_bytes() -> None:
    assert digest({}) == hashlib.sha256(b"{}").hexdigest()


@pytest.mark.parametrize("value", [1.5, [1.0], {"a": [{"b": float("nan")}]}])
def test_a_float_is_refused_wherever_it_stands(value: Plain) -> None:
    with pytest.raises(TypeError, match="whole numbers only"):
        canonical_bytes(value)


@given(PLAIN)
def test_what_was_written_is_read_again_and_written_alike(value: Plain) -> None:
    written = canonical_bytes(value)
    assert json.loads(written) == value
    assert canonical_bytes(json.loads(written)) == written


@given(st.dictionaries(st.text(st.characters(codec="utf-8")), st.integers(), min_size=2))
def test_the_order_of_keys_makes_no_difference(value: dict[str, Plain]) -> None:
    turned = dict(reversed(list(value.items())))
    assert digest(turned) == digest(value)
