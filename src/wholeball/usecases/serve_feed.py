"""Gives the calendar that a token opens."""

from typing import get_args

from wholeball.files.folder import read_folder
from wholeball.store.derived import derived
from wholeball.store.feeds import feed_of, history_of
from wholeball.store.snapshot import Snapshot
from wholeball.usecases.feed import Feed, feed
from wholeball.usecases.feed_games import Kind


def serve_feed(token: str) -> bytes | None:
    """Return the calendar behind a token, or None where it opens nothing. 3 queries where kept.

    Raises:
        InputFaults: the facts of the season do not fit together.
    """
    found = feed_of(token)
    if found is None:
        return None
    season = found.season
    kind = next(one for one in get_args(Kind) if one == found.kind)

    def make(seen: Snapshot) -> bytes:
        return feed(
            Feed(
                read=read_folder(seen),
                season_id=f"{season.organisation.slug}/{season.slug}",
                kind=kind,
                subject=found.subject,
                history=history_of(season),
            )
        )

    return derived(season, f"feed:{kind}:{found.subject}", make)
