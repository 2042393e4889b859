"""Tells every page which rooms its reader may enter."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from django.conf import settings
from django.db.models import Q
from django.http import HttpRequest
from django.utils.functional import SimpleLazyObject

from wholeball.site.disk import room_left
from wholeball.site.landing import AT_DESK
from wholeball.store.models import Account, Membership

RUNS: Final = "coordinator"
IN_STUDY: Final = frozenset({"coordinator", "supervisor", "official"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A room of the site, and where it begins."""

    label: str
    href: str


def places(request: HttpRequest) -> dict[str, object]:
    """Return the rooms in the order of the menu; they are looked up where a page shows them.

    `room_left` is how little is left of the disk, where it is too little; `mail_stays` tells
    that no mail goes out.
    """
    found = SimpleLazyObject(lambda: tuple(_places(request)))
    left = SimpleLazyObject(lambda: room_left(Path(settings.DATA_FOLDER)))
    return {"places": found, "room_left": left, "mail_stays": not settings.SENDS_MAIL}


def _places(request: HttpRequest) -> Iterator[Place]:
    """Return the noticeboard, and the rooms that a role of the reader's has pages in. 1 query."""
    yield Place(label="Noticeboard", href="/")
    if not isinstance(request.user, Account):
        return
    held = Membership.objects.filter(account=request.user).annotate(of_all=Q(season=None))
    seats = set(held.values_list("role", "of_all"))
    roles = {role for role, _ in seats}
    if roles & AT_DESK:
        yield Place(label="Desk", href="/desk/")
    if roles & IN_STUDY:
        yield Place(label="Study", href="/study/")
    if RUNS in roles:
        yield Place(label="Invitations", href="/invitation/")
        yield Place(label="People and roles", href="/account/roles/")
    if (RUNS, True) in seats:
        yield Place(label="Begin a season", href="/start/")
