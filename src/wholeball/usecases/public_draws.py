"""Hands out what checks a draw of lots that was held: what was published, and the program."""

from wholeball.files.draws import DRAW, MOST_BYTES, VERIFIER
from wholeball.store.models import Season
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.season_draws import FOLDER
from wholeball.usecases.show_noticeboard import NoSuchPage


def draw_file(season: Season, draw: str, file: str) -> bytes:
    """Return a file of a draw that anybody may read; its secret's is none of them.

    Raises:
        NoSuchPage: there is no such draw, it was not held yet, or the file is not for readers.
    """
    if file not in (DRAW, VERIFIER):
        raise NoSuchPage
    try:
        return snapshot_of(season).read(f"{FOLDER}/{draw}/{file}", MOST_BYTES)
    except OSError as missing:
        raise NoSuchPage from missing
