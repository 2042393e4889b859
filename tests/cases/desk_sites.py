"""Has what tests write down of a site at the desk, and sends and reads it."""

from typing import Any, Final

from django.test import Client

from cases.board_season import tonight
from cases.desk_season import at
from wholeball.store.models import Season
from wholeball.store.snapshot import snapshot_of

NIGHT: Final = tonight().date()
TEXTS: Final = ("address", "gate", "gate_opener", "aed", "calls", "meets", "shelter")
EMPTY: Final = dict.fromkeys(TEXTS, "")
WEIR: Final = {
    "site": "Weir",
    "address": "1 Weir Lane",
    "gate": "East gate",
    "gate_opener": "Kim",
    "aed": "Porch",
    "calls": "the supervisor",
    "meets": "the trail official",
    "shelter": "Gym, by the west door",
}


def texts(season: Season) -> dict[str, str]:
    found = snapshot_of(Season.objects.get(pk=season.pk)).texts
    return {name: data.decode() for name, data in found.items()}


def post(client: Client, name: str, told: dict[str, Any], *more: str) -> Any:
    version = f"{Season.objects.order_by('pk').first().version}"  # type: ignore[union-attr]
    return client.post(at(name, *more), {"version": version, **told})
