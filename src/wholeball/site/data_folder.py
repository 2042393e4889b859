"""Makes the folder that the site keeps its data in, and the secret that signs its sessions."""

import os
import secrets
from pathlib import Path
from typing import Final

from wholeball.kernel.faults import WholeballError
from wholeball.site.environment import SECRET_FILE, Environment

OURS_ALONE: Final = 0o700
SECRET_BYTES: Final = 48


def make_data_folder(here: Environment) -> None:
    """Make the folder, and in it a secret where none is given and nobody else reaches the site.

    In production the secret is never made up: each machine would have its own.

    Raises:
        WholeballError: the folder cannot be made or written, or others can read the secret.
    """
    try:
        here.data.mkdir(mode=OURS_ALONE, parents=True, exist_ok=True)
        if not here.secret and not here.is_production:
            _write_secret(here.data / SECRET_FILE)
    except OSError as failed:
        raise WholeballError(
            f"{here.data}: the data folder cannot be written: {failed.strerror}.",
            fix="Let this account write there, or name another folder by WHOLEBALL_DATA.",
            code="storage",
        ) from failed
    _refuse_open_secret(here.data / SECRET_FILE)


def _write_secret(path: Path) -> None:
    """Write a new secret that only this account can read."""
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "w", encoding="ascii") as file:
        file.write(secrets.token_urlsafe(SECRET_BYTES) + "\n")


def _refuse_open_secret(path: Path) -> None:
    if os.name == "posix" and path.is_file() and path.stat().st_mode & 0o077:
        raise WholeballError(
            f"{path}: other accounts of this machine can read the secret.",
            fix=f"Write: chmod 600 {path}",
            code="config",
        )
