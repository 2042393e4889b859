"""Finds what speaks against starting the site: its secret, its database, its clock."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path, PurePosixPath
from typing import Final, Literal

from django.db import DatabaseError, transaction
from django.db.backends.base.base import BaseDatabaseWrapper

from wholeball.desk.id_key import NAME as ID_KEY_FILE
from wholeball.desk.id_key import refuse_key
from wholeball.kernel.faults import WholeballError
from wholeball.site.environment import SECRET, Environment
from wholeball.store import triggers

SHORTEST: Final = 32
FEWEST_SIGNS: Final = 8
DEFAULT: Final = "django-insecure"
BEHIND: Final = timedelta(hours=12)
"""Half a day: who is a whole day behind is found, whenever in the day the last entry came."""
MOUNTS: Final = Path("/proc/mounts")
SHARES: Final = frozenset(
    {"9p", "afs", "ceph", "cifs", "fuse.glusterfs", "fuse.sshfs", "ncpfs", "nfs", "nfs4"}
    | {"smb2", "smb3", "smbfs"}
)
"""Kinds of file system that are reached over a network, as Linux names them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing that speaks against starting, and its cure; a warning starts all the same."""

    code: str
    says: str
    cure: str
    level: Literal["refuse", "warn"] = "refuse"

    def __str__(self) -> str:
        """Return what is so, and then the cure."""
        return f"{self.says} {self.cure}"


def refuse(findings: Iterable[Finding]) -> None:
    """Say all that forbids a start at once.

    Raises:
        WholeballError: at least one finding is no mere warning.
    """
    grave = [finding for finding in findings if finding.level == "refuse"]
    if grave:
        told = "\n".join(map(str, grave))
        raise WholeballError(
            f"The site does not start.\n{told}",
            fix="Nothing was changed; start it again after that.",
            code=grave[0].code,
        )


def secret_findings(here: Environment) -> list[Finding]:
    """Return what is wrong with the secret that signs sessions and links."""
    make = f"Set {SECRET} to {SHORTEST} or more signs of chance, the same on every machine."
    if not here.secret:
        return [Finding(code="config", says=f"{SECRET} is missing.", cure=make)]
    if here.secret.startswith(DEFAULT):
        return [
            Finding(code="config", says=f"{SECRET} is a default that others know.", cure=make)
        ]
    if len(here.secret) < SHORTEST or len(set(here.secret)) < FEWEST_SIGNS:
        return [Finding(code="config", says=f"{SECRET} can be guessed.", cure=make)]
    return []


def debug_findings(here: Environment) -> list[Finding]:
    """Return whether strangers would read the program's faults, with what it holds just then."""
    if not (here.is_debug and here.is_production):
        return []
    return [
        Finding(
            code="config",
            says="WHOLEBALL_DEBUG is on where others reach the site.",
            cure="Leave it out: what fails is logged.",
        )
    ]


def id_key_findings(here: Environment) -> list[Finding]:
    """Return what is wrong with the key that student ids become codes under."""
    if not here.id_key:
        return []
    try:
        refuse_key(here.id_key, here.data / ID_KEY_FILE)
    except WholeballError as refused:
        return [Finding(code=refused.code, says=refused.says, cure=refused.fix)]
    return []


def database_findings(connection: BaseDatabaseWrapper) -> list[Finding]:
    """Return why nothing could be written; what is tried is taken back. 3 queries."""
    try:
        with transaction.atomic(using=connection.alias), connection.cursor() as cursor:
            cursor.execute("CREATE TABLE wholeball_can_write (a integer)")
            transaction.set_rollback(True, using=connection.alias)
    except DatabaseError as failed:
        return [
            Finding(
                code="storage",
                says=f"{connection.settings_dict['NAME']}: the database cannot be written:"
                f" {str(failed).strip()}.",
                cure="Let this account write there, or name another place by WHOLEBALL_DATA.",
            )
        ]
    return []


def trigger_findings(connection: BaseDatabaseWrapper) -> list[Finding]:
    """Return whether the database would let somebody change what is only ever added. 1 query."""
    lost = triggers.missing(connection)
    if not lost:
        return []
    return [
        Finding(
            code="storage",
            says=f"The database does not guard what is only ever added: {', '.join(lost)}.",
            cure="Let this account make triggers there, and run the migration again.",
        )
    ]


def share_findings(path: Path, mounts: str) -> list[Finding]:
    """Return whether a database file would lie on a share, where SQLite loses writes.

    `mounts` is what Linux says of its file systems, a line each: device, place, kind.
    Source: SQLite, "Write-Ahead Logging": it does not work over a network file system.
    """
    kind = _kind_of_file_system(PurePosixPath(path), mounts)
    if kind not in SHARES:
        return []
    return [
        Finding(
            code="storage",
            says=f"{path} lies on a share of the network ({kind}), where SQLite loses writes.",
            cure="Name a folder of this machine by WHOLEBALL_DATA, or use PostgreSQL.",
        )
    ]


def clock_findings(newest: datetime | None, now: datetime) -> list[Finding]:
    """Return whether this machine's clock is well behind the newest entry that is stored."""
    if newest is None or newest - now < BEHIND:
        return []
    return [
        Finding(
            code="clock",
            says=f"The clock says {now:%Y-%m-%d %H:%M}, but the newest entry is of"
            f" {newest:%Y-%m-%d %H:%M} (UTC).",
            cure="Set the clock of this machine; nothing else is changed by it.",
            level="warn",
        )
    ]


def _kind_of_file_system(path: PurePosixPath, mounts: str) -> str:
    """Return the kind of the deepest file system that holds the path; "" where none is known."""
    held = [
        (len(PurePosixPath(place).parts), kind)
        for _, place, kind, *_ in map(str.split, mounts.splitlines())
        if path.is_relative_to(place.replace("\\040", " "))
    ]
    return max(held)[1] if held else ""
