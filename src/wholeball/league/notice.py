"""Holds what the league has told the public of a night: it is on, off, or the next word comes."""

from dataclasses import dataclass
from datetime import date, time
from typing import Literal, TypeAlias

from wholeball.kernel.identity import SiteId

NoticeState: TypeAlias = Literal["on", "off", "later"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    """One public word on a night, of a field, of a site, or of everything where both are None.

    `next_word` is a local time, there where the state is "later".
    """

    night: date
    state: NoticeState
    site: SiteId | None = None
    field: str | None = None
    next_word: time | None = None
    says: str = ""

    def covers(self, field: str, site: SiteId | None) -> bool:
        """Tell whether the word is about a field of a site."""
        return self.field in (None, field) and self.site in (None, site)
