"""Types the real commands, in this process, and keeps what they said."""

import io
import json
import os
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from typing import Any, Final, NamedTuple

from wholeball.cli.main import app
from wholeball.cli.output import print_refusal
from wholeball.kernel.faults import WholeballError

_KEY: Final = "WHOLEBALL_ID_KEY"
INVENTED_KEY: Final = "a key for invented students only"


class Told(NamedTuple):
    """What a command ended with and printed."""

    status: int
    out: str
    err: str

    def json(self) -> Any:
        """Return the values it printed."""
        return json.loads(self.out)


class Refused(Exception):
    """A command that should have worked did not."""


@contextmanager
def id_key() -> Iterator[None]:
    """Let student ids become codes by a key of the demonstration's own, for a while."""
    before = os.environ.get(_KEY)
    os.environ[_KEY] = INVENTED_KEY
    try:
        yield
    finally:
        if before is None:
            del os.environ[_KEY]
        else:
            os.environ[_KEY] = before


class Desk:
    """Where commands are typed; `typed` counts them."""

    def __init__(self) -> None:
        self.typed = 0

    def try_(self, *words: object) -> Told:
        """Type a command and return what came of it, refused or not."""
        self.typed += 1
        out, err = io.StringIO(), io.StringIO()
        with redirect_stdout(out), redirect_stderr(err):
            status = _run([str(one) for one in words])
        return Told(status, out.getvalue(), err.getvalue())

    def run(self, *words: object) -> Told:
        """Type a command that should work.

        Raises:
            Refused: it did not.
        """
        told = self.try_(*words)
        if told.status:
            line = " ".join(str(one) for one in words)
            raise Refused(f"wholeball {line}\n{told.out}{told.err}")
        return told


def _run(words: list[str]) -> int:
    try:
        return app(words, standalone_mode=False) or 0
    except WholeballError as error:
        print_refusal(error, writes=True)
        return 1
