"""Finds the secret key for student ids of this site, or makes one; no season holds it.

That of the environment counts where there is one, else that of the data folder. Of two that
differ neither is used: the same student would have two codes.
"""

import os
import secrets
from hmac import compare_digest
from pathlib import Path
from typing import Final

from django.conf import settings

from wholeball.files.student_ids import SHORTEST_KEY, IdKey
from wholeball.kernel.faults import WholeballError

NAME: Final = "id.key"
VARIABLE: Final = "WHOLEBALL_ID_KEY"
_MOST: Final = 10_000
_OWNER_ONLY: Final = 0o600


def id_key() -> IdKey:
    """Return the site's key: of the environment, else beside its data; the first time a new one.

    Raises:
        WholeballError: the disk refuses, the key is too short, or there are two that differ.
    """
    file, given = Path(settings.DATA_FOLDER) / NAME, settings.ID_KEY
    if given:
        refuse_key(given, file)
        return IdKey(secret_of(given))
    try:
        _make(file)
        secret = file.read_bytes()[:_MOST].strip()
    except OSError as error:
        raise WholeballError(
            f"The key for student ids cannot be kept beside the site's data: {error.strerror}.",
            fix="Nothing was changed. Whoever runs the site mends that.",
            code="key",
        ) from error
    _refuse_short(secret)
    return IdKey(secret)


def refuse_key(given: str, file: Path) -> None:
    """Refuse a key of the environment that is too short, or another than the one that is kept.

    Raises:
        WholeballError: it is; neither is told.
    """
    secret = secret_of(given)
    _refuse_short(secret)
    if file.is_file() and not compare_digest(file.read_bytes()[:_MOST].strip(), secret):
        raise WholeballError(
            f"The key for student ids in {VARIABLE} is another than that in {file}.",
            fix="Nothing was changed. Take out the one that the codes were not made with.",
            code="key",
        )


def secret_of(given: str) -> bytes:
    """Return the bytes of a key of the environment."""
    return given.encode(errors="surrogateescape").strip()


def _refuse_short(secret: bytes) -> None:
    if len(secret) < SHORTEST_KEY:
        raise WholeballError(
            f"The key for student ids has {len(secret)} characters, and needs {SHORTEST_KEY}.",
            fix="Nothing was changed. Whoever runs the site brings it back from a copy.",
            code="key",
        )


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
