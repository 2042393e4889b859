"""Says on which page somebody begins who has just signed in, or has just got a role."""

from typing import Final

from django.urls import reverse

from wholeball.store.models import Account, Season
from wholeball.store.reader import Reader, reader_of

AT_DESK: Final = frozenset({"coordinator", "supervisor", "official", "scorekeeper"})
"""Roles whose work is at the desk: all of a season, or nights and games of their own."""
ON_A_TEAM: Final = frozenset({"captain", "player"})


def first_page(account: Account) -> str:
    """Return where somebody's own pages begin; without any role, the noticeboard. 2 queries."""
    reader = reader_of(account)
    roles = {seat.role for seat in reader.seats}
    if _runs_an_empty_place(reader):
        return reverse("start")
    if roles & AT_DESK:
        return reverse("desk:home")
    return reverse("noticeboard:own" if roles & ON_A_TEAM else "noticeboard:home")


def _runs_an_empty_place(reader: Reader) -> bool:
    """Tell whether somebody coordinates an organisation, and no season of theirs has begun."""
    runs = {
        seat.organisation
        for seat in reader.seats
        if seat.role == "coordinator" and seat.season is None
    }
    theirs = {seat.organisation for seat in reader.seats}
    return bool(runs) and not Season.objects.filter(organisation__in=theirs).exists()
