"""Finds the season at an address for whoever may read what it publishes."""

from collections.abc import Callable
from typing import NamedTuple

from django.contrib.auth.models import AnonymousUser
from django.http import Http404

from wholeball.store.models import Account, Season
from wholeball.store.reader import PUBLIC, reader_of
from wholeball.store.scope import season_for, seasons_for

Asking = Account | AnonymousUser | None


class Found(NamedTuple):
    """A season, and whether anybody may read it."""

    season: Season
    is_public: bool


def season_at(organisation: str, season: str, *, account: Callable[[], Asking]) -> Found:
    """Return a season; only where it is not public is the account asked for. 1 query, or 3.

    Raises:
        Http404: there is none, or it is not for this reader.
    """
    try:
        return Found(season_for(PUBLIC, organisation, season), is_public=True)
    except Http404:
        asking = account()
        if asking is None:
            raise
        return Found(season_for(reader_of(asking), organisation, season), is_public=False)


def public_seasons() -> list[Season]:
    """Return every season that anybody may read, newest first. 1 query."""
    return seasons_for(PUBLIC)
