"""Keeps searches for a timetable: what is asked, how far each is, and what was found."""

from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Any, Final

from wholeball.store.models import Account, Search, Season
from wholeball.store.writing import alone

SILENT: Final = timedelta(seconds=60)
"""A worker that has said nothing for so long is gone."""


def begin_search(
    season: Season,
    account: Account,
    *,
    kind: str,
    asked: Mapping[str, Any],
    base: str,
    at: datetime,
) -> Search:
    """Keep a search that waits for its turn; what a gone worker left is given up. 2 queries."""
    with alone():
        give_up_left(at)
        return Search.objects.create(
            season=season,
            account=account,
            kind=kind,
            asked=dict(asked),
            base=base,
            version=season.version,
            made_at=at,
            beat=at,
        )


def give_up_left(now: datetime) -> int:
    """Mark as failed what a worker that is gone left running; return how many. 1 query."""
    left = Search.objects.filter(state="running", beat__lt=now - SILENT)
    refused = ["The site stopped while this ran. Start it again."]
    return left.update(state="failed", found={"refused": refused})


def searches_of(season: Season, *, most: int) -> list[Search]:
    """Return the latest searches of a season with who asked, newest first. 1 query."""
    every = Search.objects.filter(season=season).select_related("account")
    return list(every.order_by("-pk")[:most])


def searches_under_way(season: Season, now: datetime) -> list[Search]:
    """Return the searches of a season that run or wait for their turn, oldest first. 1 query."""
    every = Search.objects.filter(season=season, state__in=("waiting", "running")).order_by(
        "pk"
    )
    return [one for one in every if not is_silent(one, now)]


def search_of(season: Season, number: int) -> Search | None:
    """Return a search of a season, or None. 1 query."""
    return Search.objects.filter(season=season, pk=number).select_related("account").first()


def is_silent(search: Search, now: datetime) -> bool:
    """Tell whether a search runs by its row and its worker is gone."""
    return search.state == "running" and search.beat < now - SILENT


def ask_to_stop(search: Search) -> None:
    """Ask a search to end with the best that it has. 1 query."""
    with alone():
        Search.objects.filter(pk=search.pk).update(wants_stop=True)


def note_beat(search: int, at: datetime, **progress: object) -> None:
    """Note that a search is worked at, and how far it is. 1 query."""
    with alone():
        Search.objects.filter(pk=search).update(state="running", beat=at, **progress)


def wants_stop(search: int) -> bool:
    """Tell whether somebody asked a search to stop, or threw it away. 1 query."""
    return not Search.objects.filter(pk=search, wants_stop=False).exists()


def note_end(search: int, at: datetime, found: Mapping[str, Any]) -> None:
    """Note what was found, or why nothing was. 1 query."""
    state = "failed" if "refused" in found else "done"
    with alone():
        Search.objects.filter(pk=search).update(state=state, beat=at, found=dict(found))


def forget_search(search: Search) -> None:
    """Throw a search and what it found away. 1 query."""
    with alone():
        search.delete()
