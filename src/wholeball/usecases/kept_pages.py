"""Keeps the pages of a public season as they were made, until a fact of it or the day changes."""

import hashlib
import json
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from wholeball.files.folder import read_folder
from wholeball.store.derived import derived, key_of
from wholeball.store.models import Season
from wholeball.store.snapshot import Snapshot
from wholeball.usecases.show_noticeboard import Around, Board
from wholeball.usecases.tonight import promised


@dataclass(frozen=True, kw_only=True)
class Asked:
    """A page of a season: its name, how it is made, and whether it says anything of today."""

    season: Season
    name: str
    make: Callable[[Board], str]
    around: Around
    now: datetime
    is_of_today: bool = False


@dataclass(frozen=True, kw_only=True)
class Kept:
    """Under which name a page is kept, for which moment, and its tag."""

    name: str
    moment: str
    etag: str


def kept_as(asked: Asked) -> Kept:
    """Return how a page is kept. No query, 1 for a page of today.

    Nothing of the season is read for it, unless nothing was kept since its last change.
    """
    key, name = key_of(asked.season), f"page:{asked.name}"
    moment = _today(asked) if asked.is_of_today else ""
    names = (key, name, moment, asked.around.root, *asked.around.styles)
    digest = hashlib.sha256(" ".join(names).encode()).hexdigest()
    return Kept(name=name, moment=moment, etag=f'"{digest[:32]}"')


def kept_page(asked: Asked, kept: Kept) -> bytes:
    """Return a page, made where none is kept. 1 query where one is.

    Raises:
        NoSuchPage: nothing of the season stands there.
        InputFaults: the facts of the season do not fit together.
    """

    def make(seen: Snapshot) -> bytes:
        return asked.make(board_of(seen, asked.around, asked.now)).encode()

    return derived(asked.season, kept.name, make, moment=kept.moment)


def board_of(seen: Snapshot, around: Around, now: datetime) -> Board:
    """Return a season to be shown, as it was at one version."""
    return Board(record=seen, read=read_folder(seen), around=around, now=now)


def _today(asked: Asked) -> str:
    """Return the day where the league plays, and how many promised times of it have passed."""
    said = json.loads(derived(asked.season, "clock", _clock))
    local = asked.now.astimezone(ZoneInfo(said["timezone"]))
    night = local.date().isoformat()
    passed = sum(at <= f"{local:%H:%M}" for at in said["promised"].get(night, ()))
    return f"{night}:{passed}"


def _clock(seen: Snapshot) -> bytes:
    """Return what of the front page changes by the clock alone."""
    read = read_folder(seen)
    nights = {one.night for one in read.planning.notices}
    said = {
        "timezone": read.season.league.timezone,
        "promised": {
            night.isoformat(): [f"{at:%H:%M}" for at in promised(read, night)]
            for night in sorted(nights)
        },
    }
    return json.dumps(said).encode()
