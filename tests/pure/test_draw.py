"""A draw of lots: the published example, fairness, and what gives a bad draw away."""

import hashlib
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import permutations, product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wholeball.kernel.faults import WholeballError
from wholeball.season.draw import (
    SPAN,
    Commitment,
    Draw,
    below,
    commit,
    draw,
    permutation,
    verify,
)

NAMES = tuple(f"team {letter}" for letter in "ABCDEFGH")
COMMITTED = commit("G17:lots", NAMES, "coordinator-secret-001")
DRAWN = draw(COMMITTED, secret="coordinator-secret-001", public="2026-09-15")  # noqa: S106  published
CHI_SQUARED_23_DF = 49.73
"""Exceeded by chance once in 1,000 fair runs (chi-squared with 23 degrees of freedom)."""


def test_the_worked_example_gives_its_commit_seed_and_order() -> None:
    assert (
        Commitment(
            label="G17:lots",
            participants=NAMES,
            commit="3f39b06ded1bebe0a60735869111daebb49473bea4c4fd73de8e13ae1eaaf42c",
        )
        == COMMITTED
    )
    assert (
        Draw(
            label="G17:lots",
            participants=NAMES,
            secret="coordinator-secret-001",  # noqa: S106  published
            public="2026-09-15",
            seed="b524f00a8978faffb74e7d3c161ec398a77ec7cbfeb9f445ff231f60bd818093",
            order=tuple(NAMES[place] for place in (1, 4, 7, 6, 5, 2, 0, 3)),
        )
        == DRAWN
    )
    assert verify(COMMITTED, DRAWN) == ()


def test_the_participants_hash_is_that_of_the_sorted_lines() -> None:
    committed = commit("label", ["Ü", "B", "A"], "secret")
    assert committed.participants == ("A", "B", "Ü")
    assert committed.participants_hash == hashlib.sha256(b"A\nB\n\xc3\x9c").hexdigest()


@settings(deadline=None)  # a busy machine is no fault
@given(names=st.permutations(NAMES), secret=st.text(min_size=1, max_size=8))
def test_the_order_in_which_participants_are_given_never_matters(
    names: list[str], secret: str
) -> None:
    assert commit("label", names, secret) == commit("label", NAMES, secret)


@settings(deadline=None)  # a busy machine is no fault
@given(
    secret=st.text(min_size=1, max_size=8),
    public=st.text(min_size=1, max_size=8),
    n=st.integers(2, 40),
)
def test_every_draw_is_a_permutation_that_verifies(secret: str, public: str, n: int) -> None:
    names = [f"{number}" for number in range(n)]
    committed = commit("label", names, secret)
    drawn = draw(committed, secret=secret, public=public)
    assert sorted(drawn.order) == sorted(names)
    assert verify(committed, drawn) == ()


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"label": "G18:lots"}, "label"),
        ({"participants": NAMES[:-1]}, "participants"),
        ({"secret": "another"}, "secret"),
        ({"public": "2026-09-16"}, "seed"),
        ({"seed": "00" * 32}, "seed"),
        ({"order": NAMES}, "order"),
    ],
)
def test_a_draw_with_one_field_changed_does_not_verify(
    changed: dict[str, Any], says: str
) -> None:
    wrong = verify(COMMITTED, replace(DRAWN, **changed))
    assert any(says in one for one in wrong)


@pytest.mark.parametrize(
    "changed",
    [{"label": "x"}, {"participants": NAMES[::-1]}, {"commit": "00" * 32}],
)
def test_a_commitment_with_one_field_changed_does_not_verify(
    changed: dict[str, Any],
) -> None:
    assert verify(replace(COMMITTED, **changed), DRAWN) != ()


def test_everything_that_is_wrong_is_told_at_once() -> None:
    wrong = verify(COMMITTED, replace(DRAWN, label="x", secret="y", public="z"))  # noqa: S106  a test
    assert len(wrong) == 4


@pytest.mark.parametrize(
    ("label", "names", "secret", "code"),
    [
        ("", NAMES, "s", "no_label"),
        ("l", NAMES, "", "no_secret"),
        ("l", ["A"], "s", "bad_participants"),
        ("l", ["A", "A"], "s", "bad_participants"),
        ("l", ["A", "B\nC"], "s", "bad_participants"),
        ("l", ["A", ""], "s", "bad_participants"),
    ],
)
def test_a_commitment_that_could_be_read_two_ways_is_refused(
    label: str, names: list[str], secret: str, code: str
) -> None:
    with pytest.raises(WholeballError) as refused:
        commit(label, names, secret)
    assert refused.value.code == code


def test_another_secret_and_an_empty_public_text_are_refused() -> None:
    with pytest.raises(WholeballError) as wrong:
        draw(COMMITTED, secret="coordinator-secret-002", public="2026-09-15")  # noqa: S106  a test
    with pytest.raises(WholeballError) as empty:
        draw(COMMITTED, secret="coordinator-secret-001", public="")  # noqa: S106  published
    assert (wrong.value.code, empty.value.code) == ("wrong_secret", "no_public_text")


def test_a_number_past_the_last_whole_multiple_is_passed_over() -> None:
    assert SPAN % 3 == 1
    assert below(iter([SPAN - 1, 5]), 3) == 2
    assert below(iter([SPAN - 2, 5]), 3) == 2 == (SPAN - 2) % 3
    assert below(iter([SPAN - 1]), 4) == 3


def test_24_000_shuffles_of_four_are_fair() -> None:
    counts = Counter(permutation(_seed(run), "fair", 4) for run in range(24_000))
    assert _chi_squared(counts, list(permutations(range(4)))) < CHI_SQUARED_23_DF


def test_the_measure_of_fairness_catches_a_shuffle_that_swaps_with_any_place() -> None:
    counts = Counter(_naive_shuffle(_seed(run), 4) for run in range(24_000))
    assert _chi_squared(counts, list(permutations(range(4)))) > CHI_SQUARED_23_DF


def test_the_naive_shuffle_of_three_favours_some_orders_by_5_to_4_of_27() -> None:
    counts = Counter(_swapped(list(range(3)), chosen) for chosen in product(range(3), repeat=3))
    assert sorted(counts.values()) == [4, 4, 4, 5, 5, 5]


def test_a_byte_modulo_ten_favours_six_digits_and_rejection_none() -> None:
    biased = Counter(byte % 10 for byte in range(256))
    fair = Counter(byte % 10 for byte in range(256) if byte < 256 - 256 % 10)
    assert [biased[digit] for digit in range(10)] == [26] * 6 + [25] * 4
    assert set(fair.values()) == {25}


def _seed(run: int) -> bytes:
    return hashlib.sha256(f"run {run}".encode()).digest()


def _naive_shuffle(seed: bytes, n: int) -> tuple[int, ...]:
    numbers: Iterator[int] = iter(seed)
    return _swapped(list(range(n)), [next(numbers) % n for _ in range(n)])


def _swapped(places: list[int], chosen: tuple[int, ...] | list[int]) -> tuple[int, ...]:
    for place, other in enumerate(chosen):
        places[place], places[other] = places[other], places[place]
    return tuple(places)


def _chi_squared(counts: Counter[tuple[int, ...]], cells: list[tuple[int, ...]]) -> float:
    expected = counts.total() / len(cells)
    return sum((counts[cell] - expected) ** 2 / expected for cell in cells)
