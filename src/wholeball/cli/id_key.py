"""Finds the secret key for student ids, or makes one; it is never kept in a season folder."""

import os
import secrets
import stat
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from wholeball.files.bounded import is_there, read_at_most
from wholeball.files.folder_record import FolderRecord
from wholeball.files.student_ids import SHORTEST_KEY, IdKey
from wholeball.kernel.faults import WholeballError

VARIABLE: Final = "WHOLEBALL_ID_KEY"
_MOST: Final = 10_000
_OWNER_ONLY: Final = 0o600
_OTHERS: Final = stat.S_IRWXG | stat.S_IRWXO


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundKey:
    """The key, and the file it is in or will be in; None where the environment gave it."""

    key: IdKey
    file: Path | None
    is_new: bool = False

    def keep(self) -> None:
        """Write a new key into its file, which only its owner may read.

        Raises:
            WholeballError: the disk refuses, or somebody made one meanwhile.
        """
        if self.file is None or not self.is_new:
            return
        try:
            self.file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            made = os.open(self.file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, _OWNER_ONLY)
            with os.fdopen(made, "wb") as file:
                file.write(self.key.secret + b"\n")
        except OSError as error:
            raise WholeballError(
                f"The key for student ids cannot be kept in {self.file}: {error.strerror}.",
                fix=f"Nothing was changed. Mend that, or give a key of your own in {VARIABLE}.",
                code="key",
            ) from error


def found_key(record: FolderRecord) -> FoundKey:
    """Return the key that the environment gives, that is kept for this person, or a new one.

    Raises:
        WholeballError: the key is too short, open to others, or would be in the season folder.
    """
    given = os.environ.get(VARIABLE)
    if given is not None:
        return FoundKey(key=_key(given.encode(errors="surrogateescape"), VARIABLE), file=None)
    file = _key_file()
    if file.resolve().is_relative_to(record.path.resolve()):
        raise WholeballError(
            f"The key for student ids would be in the season folder: {file}.",
            fix=f"Move the folder elsewhere, or give a key of your own in {VARIABLE}.",
            code="key",
        )
    if not is_there(file):
        return FoundKey(key=IdKey(secrets.token_hex(32).encode()), file=file, is_new=True)
    return FoundKey(key=_kept(file), file=file)


def _key_file() -> Path:
    """Return where a person's programs keep their settings (XDG Base Directory 0.8)."""
    said = Path(os.environ.get("XDG_CONFIG_HOME", ""))
    base = said if said.is_absolute() else Path.home() / ".config"
    return base / "wholeball" / "id.key"


def _kept(file: Path) -> IdKey:
    try:
        mode = file.stat().st_mode
        secret = read_at_most(file, _MOST)
    except OSError as error:
        raise WholeballError(
            f"The key for student ids, {file}, cannot be read: {error.strerror}.",
            fix="Nothing was changed. Mend that, or bring the file back from a copy.",
            code="key",
        ) from error
    if mode & _OTHERS:
        raise WholeballError(
            f"Others on this machine may read the key for student ids, {file}.",
            fix=f"Nothing was changed. Close it to them: chmod 600 {file}",
            code="key",
        )
    return _key(secret, str(file))


def _key(given: bytes, where: str) -> IdKey:
    secret = given.strip()
    if len(secret) < SHORTEST_KEY:
        raise WholeballError(
            f"The key for student ids in {where} has {len(secret)} characters.",
            fix=f"Give one of {SHORTEST_KEY} or more that nobody can guess, and keep a copy.",
            code="key",
        )
    return IdKey(secret)
