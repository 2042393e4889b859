"""Writes a site of its own until its disk is full, by SQLite's own limit; run by `in_site`.

Source: SQLite's documentation, "PRAGMA max_page_count": a write that needs one page more is
refused with SQLITE_FULL.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from http import HTTPStatus
from pathlib import Path
from typing import Any

from django.core.management import call_command
from django.db import connection


@contextmanager
def no_room() -> Iterator[None]:
    """Let the database have no page more than it has."""
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA max_page_count")
        (most,) = cursor.fetchone()
        cursor.execute("PRAGMA max_page_count = 1")
        try:
            yield
        finally:
            cursor.execute(f"PRAGMA max_page_count = {most}")


def entries_on_a_full_disk() -> dict[str, Any]:
    """Add entries until one is refused; return the refusal, and what is stored then and later."""
    from cases.sealed import GAME, sealed  # noqa: PLC0415 - set up first
    from cases.stored import a_season, written_by  # noqa: PLC0415
    from wholeball.game.envelope import Entry, stored_line  # noqa: PLC0415
    from wholeball.game.happenings import Noted  # noqa: PLC0415
    from wholeball.kernel.faults import WholeballError  # noqa: PLC0415

    call_command("migrate", verbosity=0)
    name = f"games/{GAME}.jsonl"
    record, log, code = written_by(a_season()), list[Entry](), ""

    def add() -> None:
        entry = sealed(Noted(text="x" * 400), log)
        record.append(name, stored_line(entry) + b"\n")
        log.append(entry)

    add()
    with no_room():
        while not code:
            try:
                add()
            except WholeballError as refused:
                code = refused.code
        stored = record.read(name, 100_000_000)
    acknowledged = b"".join(stored_line(one) + b"\n" for one in log)
    add()
    return {
        "code": code,
        "is_what_was_acknowledged": stored == acknowledged,
        "goes_on_after": len(record.read(name, 100_000_000).splitlines()) == len(log),
    }


def desk_on_a_full_disk(folder: str) -> dict[str, Any]:
    """Report incidents until one is refused; return how, and what the season holds of it."""
    from django.urls import reverse  # noqa: PLC0415 - set up first

    from cases.desk_season import a_desk  # noqa: PLC0415

    call_command("migrate", verbosity=0)
    desk = a_desk(Path(folder))
    official = desk.people["official"]
    address = reverse("desk:report_incident", args=("harrow-fen", "autumn", "A1"))
    sent, host = {"says": "A tackle. " * 200}, {"host": "localhost"}
    with no_room():
        kept, answer = desk.texts(), official.post(address, sent, headers=host)
        while answer.status_code == HTTPStatus.FOUND:
            kept, answer = desk.texts(), official.post(address, sent, headers=host)
        changed = desk.texts() != kept
        front = desk.people["coordinator"].get("/harrow-fen/autumn/", headers=host)
    says = answer.content.decode()
    told = {"status": answer.status_code, "says": says, "changed": changed}
    return {**told, "front": front.status_code}
