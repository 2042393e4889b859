"""Finds somebody's draft of the timetable, beside the one that is published."""

from dataclasses import dataclass

from wholeball.desk.views.access import Desk
from wholeball.files.timetable import FILE
from wholeball.store.drafts import Whose, draft_of
from wholeball.store.models import Draft
from wholeball.usecases.move_game import Desk as Worked
from wholeball.usecases.move_game import desk_of, published_timetable
from wholeball.usecases.publish_timetable import changes_between, is_newest


@dataclass(frozen=True, slots=True, kw_only=True)
class Drafted:
    """A timetable as somebody would have it; `changed` is what others published meanwhile."""

    whose: Whose
    draft: Draft | None
    worked: Worked
    base: bytes
    changed: tuple[str, ...]

    @property
    def step(self) -> int:
        """The number of the step that is looked at."""
        return 0 if self.draft is None else self.draft.step

    @property
    def text(self) -> bytes:
        """The timetable as it would be."""
        return self.worked.text


def whose_timetable(desk: Desk) -> Whose:
    """Return whose draft of the timetable somebody at a desk works on."""
    return Whose(season=desk.season, account=desk.account, file=FILE)


def drafted(desk: Desk) -> Drafted:
    """Return somebody's draft, or the timetable as it is where they have none."""
    whose = whose_timetable(desk)
    record = desk.read()
    published = published_timetable(record)
    draft = draft_of(whose)
    base = published if draft is None else draft.base.encode()
    text = published if draft is None else draft.text.encode()
    return Drafted(
        whose=whose,
        draft=draft,
        worked=desk_of(record, published=published, text=text),
        base=base,
        changed=() if is_newest(record, base) else changes_between(base, published),
    )
