"""Ends a command that asks people, and writes, where it was refused or stopped."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

import typer

from wholeball.cli.output import printing_refusals
from wholeball.league.record import LeagueRecord

STOPPED: Final = 130
"""The status of a command that somebody stopped by Ctrl-C, as shells have it."""


@contextmanager
def refusals(record: LeagueRecord, *, what: str = "an answer") -> Iterator[None]:
    """Say why nothing was written, and end with the status for it.

    `what` had not come to its end where the input did.
    """
    try:
        with printing_refusals(file=record.place, as_json=False, writes=True):
            yield
    except EOFError as ended:
        print(f"\nThe input ended before {what} did. Nothing was written.")
        raise typer.Exit(1) from ended
    except UnicodeDecodeError as other:
        print("\nThe input is not UTF-8. Nothing was written.")
        raise typer.Exit(1) from other
    except KeyboardInterrupt as stopped:
        print("\nNothing was written.")
        raise typer.Exit(STOPPED) from stopped
