"""The collector rests while a folder is read, and is afterwards as it was before."""

import gc
from collections.abc import Iterator

import pytest

from wholeball.files.uncollected import uncollected


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
