"""Says what stands on the sheets of a night beside the games: weather, emergencies, checks.

All of it are cautions; the institution's own policy comes first.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from wholeball.kernel.identity import SiteId
from wholeball.league.place import Site
from wholeball.reports.safety import LOCAL_FIRST

NOT_WRITTEN: Final = "not written down"
"""What marks a blank that a person fills in by hand."""

CALL_FIRST: Final = "Call the emergency number first. Then the supervisor."
EMERGENCY_NUMBER: Final = "Emergency number"
NO_SHELTER: Final = "Trees, tents, dugouts are no shelter."
WEATHER: Final = (
    "Thunder heard or a flash seen at the field stops play at once, whatever a detector says.",
    f"All leave the field for the shelter and stay there. {NO_SHELTER}",
    "The wait that the house policy sets begins anew with each new thunder or flash.",
    "Anyone may stop play. Only the supervisor resumes it.",
)
POLICY_FIRST: Final = LOCAL_FIRST
CHECKS: Final = (
    "Both goals anchored, front and back; each pulled at by hand",
    "Nets tied to the frame; no hook or peg stands out",
    "Nobody climbs or hangs on a goal: both teams have been told",
    "Surface walked: no holes, glass, stones or standing water",
    "Lights burn over the whole field",
)
MOVED: Final = "A goal was moved: anchors checked again, and when"
NOT_IN_ORDER: Final = (
    "A goal that is not anchored is not played with. What is not in order keeps its box empty: "
    "nobody plays there until the supervisor has decided."
)
OPEN_GAME: Final = (
    "A side is still to be known: print again for the scorecard and the gate list."
)
OFF_GAME: Final = (
    "Called off: no scorecard and no gate list is in here. If it is on again, print again."
)
SEE_SUPERVISOR: Final = "See the supervisor before play"
NO_ROSTER: Final = "No roster. Write down who is here; ask the supervisor about each."
GIVE_NUMBER: Final = (
    "Mark the box of each who is here. Where no number stands, give one and write it in. The "
    "three digits are the last of the ID."
)
STUB: Final = "For the officials alone. Fill in after the captains have left, and hand it to the supervisor."


SITE_LABELS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "address": "Address to give",
        "gate": "Gate for the ambulance",
        "gate_opener": "Opens the gate",
        "aed": "AED",
        "calls": "Calls",
        "meets": "Meets the ambulance",
        "shelter": "Shelter",
    }
)
"""How an emergency page calls what it says of a site, in its order."""


def site_lines(site: Site | None) -> tuple[tuple[str, str], ...]:
    """Return what an emergency page says of a site, label and text; empty is to be written."""
    known = site or Site(site=SiteId(""))
    return tuple((label, getattr(known, name)) for name, label in SITE_LABELS.items())


def unwritten(site: Site | None) -> tuple[str, ...]:
    """Return the labels of an emergency page behind which nobody wrote anything yet."""
    return tuple(label for label, text in site_lines(site) if not text)


def role_word(role: str) -> str:
    """Return a role as a label: "Fourth official"."""
    return role.replace("_", " ").capitalize()
