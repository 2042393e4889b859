"""Finds what a reader may see: what is missing and what is forbidden are the same to them."""

from typing import Final, Protocol

from django.http import Http404

from wholeball.store.models import Organisation, Season
from wholeball.store.permissions import is_coordinator, may_run_desk, may_see_notices
from wholeball.store.queries.games import (
    games_of_crew,
    games_of_nights,
    has_game,
    has_team,
    nights_of_crew,
)
from wholeball.store.reader import Reader, Seat

_NOWHERE: Final = "There is no such page, or it is not for you."
_OF_NIGHTS: Final = "supervisor"
_OF_GAMES: Final = ("official", "scorekeeper")


class May(Protocol):
    """Tells whether a reader may do something in a season."""

    def __call__(self, reader: Reader, season: Season, /) -> bool:
        """Tell whether they may."""


def season_for(
    reader: Reader, organisation: str, season: str, may: May = may_see_notices
) -> Season:
    """Return a season by its address, for somebody who may do something in it. 1 query.

    Raises:
        Http404: there is none, or the reader may not.
    """
    every = Season.objects.select_related("organisation")
    found = every.filter(organisation__slug=organisation, slug=season).first()
    if found is None or not may(reader, found):
        raise Http404(_NOWHERE)
    return found


def seasons_for(reader: Reader, may: May = may_see_notices) -> list[Season]:
    """Return every season in which a reader may do something, newest first. 1 query."""
    every = Season.objects.select_related("organisation").order_by("-pk")
    return [season for season in every if may(reader, season)]


def organisation_for(reader: Reader, slug: str) -> Organisation:
    """Return an organisation, for one who coordinates all of it. 1 query.

    Raises:
        Http404: there is none, or the reader does not.
    """
    found = Organisation.objects.filter(slug=slug).first()
    if found is None or not any(
        one.role == "coordinator" and one.season is None and one.organisation == found.pk
        for one in reader.seats
    ):
        raise Http404(_NOWHERE)
    return found


def games_for(reader: Reader, season: Season, may: May = may_run_desk) -> frozenset[str] | None:
    """Return the games that a reader works at; None for all of them. 2 queries a role.

    Only roles count that may by themselves: what somebody works at as a scorekeeper is not
    theirs to certify because they are a supervisor on another night.

    The coordinator works at all. An official or a scorekeeper works at those whose crew names
    them, and a supervisor at those of every night on which a crew does; a scorekeeper or a
    supervisor who goes by no name of officials.csv works at all.
    """
    if is_coordinator(reader, season):
        return None
    games: set[str] = set()
    for seat in reader.seats_in(season):
        if not may(Reader(account=reader.account, seats=(seat,)), season):
            continue
        own = _games_of(seat, season)
        if own is None:
            return None
        games |= own
    return frozenset(games)


def game_for(reader: Reader, season: Season, game: str, may: May = may_run_desk) -> str:
    """Return the name of a game that a reader works at, by `may`. 1 query, and 2 a role.

    Raises:
        Http404: there is none, or the reader does not.
    """
    own = games_for(reader, season, may)
    if (own is not None and game not in own) or not has_game(season, game):
        raise Http404(_NOWHERE)
    return game


def team_for(reader: Reader, season: Season, team: str) -> str:
    """Return the name of a team that a reader looks after: their own as captain. 1 query.

    Raises:
        Http404: there is none, or the reader does not.
    """
    is_own = is_coordinator(reader, season) or team in reader.teams_in(season, role="captain")
    if not is_own or not has_team(season, team):
        raise Http404(_NOWHERE)
    return team


def persons_for(reader: Reader, season: Season) -> frozenset[str] | None:
    """Return the codes of whom a reader may see what is private; None for everybody.

    The coordinator sees everybody, a player or a captain themselves, and nobody else anybody.
    """
    if is_coordinator(reader, season):
        return None
    roles = ("player", "captain")
    return frozenset().union(*(reader.persons_in(season, role=role) for role in roles))


def _games_of(seat: Seat, season: Season) -> frozenset[str] | None:
    if seat.role == _OF_NIGHTS:
        if not seat.person:
            return None
        return games_of_nights(season, nights_of_crew(season, seat.person))
    if seat.role in _OF_GAMES:
        is_whole = seat.role == "scorekeeper" and not seat.person
        return None if is_whole else games_of_crew(season, seat.person)
    return frozenset()
