"""Tells every page which rooms its reader may enter."""

from dataclasses import dataclass

from django.http import HttpRequest


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A room of the site, and where it begins."""

    label: str
    href: str


def places(_request: HttpRequest) -> dict[str, tuple[Place, ...]]:
    """Return the rooms in the order of the menu."""
    return {
        "places": (
            Place(label="Noticeboard", href="/"),
            Place(label="Desk", href="/desk/"),
            Place(label="Study", href="/study/"),
        )
    }
