"""Finds the secret key for student ids of this site, or makes one; no season holds it."""

import os
import secrets
from pathlib import Path
from typing import Final

from django.conf import settings

from wholeball.files.student_ids import SHORTEST_KEY, IdKey
from wholeball.kernel.faults import WholeballError

NAME: Final = "id.key"
_MOST: Final = 10_000
_OWNER_ONLY: Final = 0o600


def id_key() -> IdKey:
    """Return the key that stands beside the site's data; the first time, a new one.

    Raises:
        WholeballError: the disk refuses, or what stands there is too short.
    """
    file = Path(settings.DATA_FOLDER) / NAME
    try:
        _make(file)
        secret = file.read_bytes()[:_MOST].strip()
    except OSError as error:
        raise WholeballError(
            f"The key for student ids cannot be kept beside the site's data: {error.strerror}.",
            fix="Nothing was changed. Whoever runs the site mends that.",
            code="key",
        ) from error
    if len(secret) < SHORTEST_KEY:
        raise WholeballError(
            f"The key for student ids has {len(secret)} characters.",
            fix="Nothing was changed. Whoever runs the site brings it back from a copy.",
            code="key",
        )
    return IdKey(secret)


def _make(file: Path) -> None:
    """Write a new key where there is none; of two who do so at once, one is first."""
    if file.exists():
        return
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    staged = file.with_name(f".{file.name}.{secrets.token_hex(4)}")
    made = os.open(staged, os.O_WRONLY | os.O_CREAT | os.O_EXCL, _OWNER_ONLY)
    with os.fdopen(made, "wb") as out:
        out.write(f"{secrets.token_hex(32)}\n".encode())
        out.flush()
        os.fsync(out.fileno())
    try:
        os.link(staged, file)
    except FileExistsError:
        pass
    finally:
        staged.unlink()
