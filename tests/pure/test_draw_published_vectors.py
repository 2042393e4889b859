"""Published vectors for what a draw is built from: SHA-256, HMAC, and RFC 3797's selection."""

import hashlib
import hmac
from itertools import count
from math import comb, log2

import pytest

KEY = "9319./2.5.8.10.12./9.18.26.34.41.45./"
"""RFC 3797 section 6: the canonical form of its three sources of randomness."""


def test_sha_256_of_abc_and_of_nothing_are_those_of_fips_180() -> None:
    assert hashlib.sha256(b"abc").hexdigest() == (
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    )
    assert hashlib.sha256(b"").hexdigest() == (
        "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    )


def test_hmac_sha_256_gives_cases_1_and_2_of_rfc_4231() -> None:
    assert hmac.digest(b"\x0b" * 20, b"Hi There", "sha256").hex() == (
        "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7"
    )
    assert hmac.digest(b"Jefe", b"what do ya want for nothing?", "sha256").hex() == (
        "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"
    )


def test_rfc_3797_section_6_selects_its_eleven_of_25() -> None:
    assert _selected(KEY, pool=25, wanted=11) == [17, 7, 2, 16, 25, 23, 8, 24, 19, 13, 22]


def test_rfc_3797_section_6_first_and_tenth_digests_are_those_published() -> None:
    assert _digest(KEY, 0).hex().upper() == "990DD0A5692A029A98B5E01AA28F3459"
    assert _digest(KEY, 9).hex().upper() == "31CB111C4A4EBE9287CEAE16FE51B909"


@pytest.mark.parametrize(
    ("pool", "bits"),
    [
        (20, 18),
        (25, 22),
        (30, 25),
        (35, 28),
        (40, 30),
        (50, 34),
        (60, 37),
        (75, 40),
        (100, 44),
        (120, 47),
    ],
)
def test_rfc_3797_section_3_3_entropy_for_ten_of_a_pool(pool: int, bits: int) -> None:
    assert round(log2(comb(pool, 10)) + 0.5) == bits


def _selected(key: str, *, pool: int, wanted: int) -> list[int]:
    """RFC 3797 section 4: each digest, modulo who is left, picks from those left."""
    left = list(range(1, pool + 1))
    picks = (int.from_bytes(_digest(key, index), "big") for index in count())
    return [left.pop(next(picks) % len(left)) for _ in range(wanted)]


def _digest(key: str, index: int) -> bytes:
    two_bytes = index.to_bytes(2, "big")
    framed = two_bytes + key.encode() + two_bytes
    return hashlib.md5(framed, usedforsecurity=False).digest()
