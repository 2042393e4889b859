"""Rehearses a restore: into an empty place of its own, where every result is derived again."""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

from wholeball.kernel.faults import WholeballError


def drill(path: Path) -> str:
    """Return what a restore of this backup says; the site's own data are not touched.

    Raises:
        WholeballError: it does not come back as it was.
    """
    with tempfile.TemporaryDirectory() as folder:
        there = {**os.environ, "WHOLEBALL_DATA": folder, "DATABASE_URL": ""}
        told = subprocess.run(  # noqa: S603 - this program, with the file that was named
            [sys.executable, "-m", "wholeball", "restore", str(path.absolute())],
            env=there,
            capture_output=True,
            text=True,
            check=False,
        )
    if told.returncode:
        raise WholeballError(
            f"The drill failed. {told.stderr.strip()}",
            fix="The site's own data were not touched.",
            code="drill",
        )
    return f"Drill: {told.stdout.strip()}"
