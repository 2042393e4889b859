"""Loads rulebooks that are wrong, and says the faults that they are refused with."""

import pytest

from wholeball.kernel.faults import Fault, InputFaults
from wholeball.rulebook.load import load


def faults_of(text: str) -> tuple[Fault, ...]:
    """Return the faults of a rulebook that is refused."""
    with pytest.raises(InputFaults) as refused:
        load(text.encode(), file="house.toml")
    return refused.value.faults
