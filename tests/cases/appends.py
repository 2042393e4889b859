"""Adds entries to a game's log for ever, and says each number once it is stored.

It runs as `python -m cases.appends` on the site of a data folder, until somebody kills it.
"""

import time
from datetime import UTC, datetime
from typing import Final

import django
from django.core.management import call_command

SLUG: Final = "autumn"


def main() -> None:
    """Go on where the log ends; a line is printed only after its entry was stored."""
    from cases.sealed import GAME, sealed  # noqa: PLC0415 - set up first
    from cases.stored import a_season  # noqa: PLC0415
    from wholeball.game.codec import read_log  # noqa: PLC0415
    from wholeball.game.envelope import stored_line  # noqa: PLC0415
    from wholeball.game.happenings import Noted  # noqa: PLC0415
    from wholeball.store.models import Season  # noqa: PLC0415
    from wholeball.store.record import DatabaseRecord  # noqa: PLC0415
    from wholeball.store.writing import Writer  # noqa: PLC0415

    call_command("migrate", verbosity=0)
    begins, name = time.monotonic(), f"games/{GAME}.jsonl"
    season = Season.objects.filter(slug=SLUG).first() or a_season(SLUG.title())
    record = DatabaseRecord(season, Writer(account=None, at=datetime.now(UTC)))
    stands = record.read(name, 10_000_000) if record.has(name) else b""
    log = list(read_log(stands, game=GAME, file=name))
    while True:
        entry = sealed(Noted(text="Still playing."), log)
        record.append(name, stored_line(entry) + b"\n")
        log.append(entry)
        print(entry.said.seq, entry.hash, time.monotonic() - begins, flush=True)  # noqa: T201


if __name__ == "__main__":
    django.setup()
    main()
