"""Tells every page which rooms its reader may enter."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from django.http import HttpRequest
from django.utils.functional import SimpleLazyObject

from wholeball.site.landing import AT_DESK
from wholeball.store.models import Account, Membership

IN_STUDY: Final = frozenset({"coordinator", "supervisor", "official"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A room of the site, and where it begins."""

    label: str
    href: str


def places(request: HttpRequest) -> dict[str, object]:
    """Return the rooms in the order of the menu; they are looked up where a page shows them."""
    return {"places": SimpleLazyObject(lambda: tuple(_places(request)))}


def _places(request: HttpRequest) -> Iterator[Place]:
    """Return the noticeboard, and the rooms that a role of the reader's has pages in. 1 query."""
    yield Place(label="Noticeboard", href="/")
    if not isinstance(request.user, Account):
        return
    roles = set(Membership.objects.filter(account=request.user).values_list("role", flat=True))
    if roles & AT_DESK:
        yield Place(label="Desk", href="/desk/")
    if roles & IN_STUDY:
        yield Place(label="Study", href="/study/")
