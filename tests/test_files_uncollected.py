"""The collector rests while a folder is read, and is afterwards as it was before."""

import gc
import weakref
from collections.abc import Iterator
from pathlib import Path

import pytest

from wholeball.files.folder import read_folder
from wholeball.files.uncollected import LARGE, set_aside, uncollected
from wholeball.league.texts import LastingTexts, Made

SEASON = Path("examples/lantern-hill")


@pytest.fixture(autouse=True)
def _on_again() -> Iterator[None]:
    yield
    gc.enable()


def test_the_collector_rests_inside_and_works_again_afterwards() -> None:
    with uncollected():
        assert not gc.isenabled()
    assert gc.isenabled()


def test_the_collector_works_again_after_a_refusal() -> None:
    with pytest.raises(ValueError, match="no season"), uncollected():
        raise ValueError("no season")
    assert gc.isenabled()


def test_a_collector_that_somebody_stopped_stays_stopped() -> None:
    gc.disable()
    with uncollected():
        assert not gc.isenabled()
    assert not gc.isenabled()


class Knot:
    """Holds itself, so that only the collector finds that nobody holds it."""

    def __init__(self) -> None:
        self.self = self


def test_what_is_set_aside_is_passed_over_until_the_next_time() -> None:
    knot = Knot()
    seen = weakref.ref(knot)
    try:
        set_aside()
        del knot
        gc.collect()
        assert seen() is not None
        assert gc.get_freeze_count() > 0
        set_aside()
        assert seen() is None
    finally:
        gc.unfreeze()


@pytest.mark.parametrize(
    ("size", "is_aside"), [(LARGE - 1, False), (LARGE, True)], ids=["small", "large"]
)
def test_a_large_season_that_is_kept_is_set_aside_the_first_time(
    size: int, *, is_aside: bool
) -> None:
    texts = {
        path.relative_to(SEASON).as_posix(): path.read_bytes()
        for path in SEASON.rglob("*")
        if path.is_file()
    }
    spare = size - sum(map(len, texts.values())) + len(texts["README.md"])
    texts["README.md"] = b"x" * spare
    made = Made()
    try:
        read_folder(LastingTexts(place="a season", texts=texts, made=made))
        assert bool(gc.get_freeze_count()) is is_aside
        gc.unfreeze()
        read_folder(LastingTexts(place="a season", texts=texts, made=made.next()))
        assert gc.get_freeze_count() == 0
    finally:
        gc.unfreeze()
