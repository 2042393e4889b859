"""Says what keeps people safe, and that local policy comes before all of it."""

from dataclasses import dataclass
from typing import Final

LOCAL_FIRST: Final = (
    "These are cautions, not medical or weather advice. The institution's own policy comes "
    "first wherever it says more or says otherwise."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One thing to be careful about, and where it comes from."""

    title: str
    says: str
    source: str


CAUTIONS: Final = (
    Caution(
        title="Goals",
        says="A goal that is not anchored is not played with. The crew pulls at both goals by "
        "hand before the first game; nobody climbs or hangs on one.",
        source="IFAB Laws of the Game, Law 1.10 (anchoring); the rest common practice, no source",
    ),
    Caution(
        title="Thunder or a flash",
        says="Thunder heard or a flash seen at the field stops play, whatever a detector or a "
        "distance says, and starts the wait anew. Anyone may stop play; only the supervisor "
        "resumes it, after the wait that local policy sets.",
        source="common practice, no source",
    ),
    Caution(
        title="Head injury",
        says="A player with a suspected head injury is out for the day. Nobody at the field "
        "decides otherwise, and local clearance comes before the next game.",
        source="common practice, no source",
    ),
    Caution(
        title="Bleeding",
        says="A bleeding player leaves the field until the bleeding has stopped and the wound "
        "is covered.",
        source="IFAB Laws of the Game, Law 5 (from memory)",
    ),
    Caution(
        title="Heat, cold and air",
        says="The supervisor may add breaks, shorten games or call a night off, as local policy "
        "says.",
        source="common practice, no source",
    ),
    Caution(
        title="An emergency",
        says="The night sheet says who calls, what address to give and who meets the ambulance.",
        source="common practice, no source",
    ),
)
