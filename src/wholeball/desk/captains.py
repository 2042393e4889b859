"""Keeps the addresses of captains that a spreadsheet named, in the session of who sent it alone.

They are no facts of the season: nobody else sees them, and they end with the session.
"""

from collections.abc import Iterable, Mapping
from typing import Final

from django.contrib.sessions.backends.base import SessionBase

from wholeball.files.team_sheet import Captain
from wholeball.store.models import Season

_KEY: Final = "captains"
MOST: Final = 1_000
"""Captains of one season that a session keeps."""


def keep_captains(session: SessionBase, season: Season, captains: Iterable[Captain]) -> None:
    """Keep who leads which team, beside what was kept before."""
    told = {one.team: [one.name[:120], one.email[:254]] for one in captains}
    if told:
        kept = {**session.get(_KEY, {}).get(f"{season.pk}", {}), **told}
        every = {**session.get(_KEY, {}), f"{season.pk}": dict(list(kept.items())[:MOST])}
        session[_KEY] = every


def kept_captains(session: SessionBase, season: Season) -> Mapping[str, Captain]:
    """Return who leads each team, as far as a spreadsheet said so in this session."""
    kept = session.get(_KEY, {}).get(f"{season.pk}", {})
    return {
        team: Captain(team=team, name=name, email=email) for team, (name, email) in kept.items()
    }
