"""Holds where games are played, and whom to call there."""

from dataclasses import dataclass

from wholeball.kernel.identity import SiteId


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """A place with fields, and what its emergency page says; empty where nobody wrote it down.

    `gate_opener` lets the ambulance in, `calls` dials, `meets` waits for it at the gate.
    """

    site: SiteId
    address: str = ""
    gate: str = ""
    gate_opener: str = ""
    aed: str = ""
    calls: str = ""
    meets: str = ""
    shelter: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A field of a site by the name that the timetable uses."""

    field: str
    site: SiteId
