"""Runs a module as a program that works only while nobody else wants the machine.

It stands back before it loads anything, so that what takes long to load is loaded that way too.
"""

import os
import runpy
import sys
from typing import Final

_LAST: Final = 19
"""The lowest priority where the system has no word for one below all others."""


def stand_back() -> None:
    """Let this process work only while no other wants to, as far as the system can say so."""
    if hasattr(os, "SCHED_IDLE"):
        os.sched_setscheduler(0, os.SCHED_IDLE, os.sched_param(0))
    elif hasattr(os, "nice"):
        os.nice(_LAST)


if __name__ == "__main__":
    stand_back()
    runpy.run_module(sys.argv[1], run_name="__main__")
