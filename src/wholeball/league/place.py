"""Holds where games are played, and whom to call there."""

from collections.abc import Iterable
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
    """A field by the name that the timetable uses; its site is None where it belongs to none yet."""

    field: str
    site: SiteId | None


def sites_of(fields: Iterable[Field]) -> dict[str, SiteId]:
    """Return the site of each field that has one."""
    return {one.field: one.site for one in fields if one.site is not None}
