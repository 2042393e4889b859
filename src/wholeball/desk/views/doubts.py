"""Shows what a coordinator should look at in a season, each remark with where it is mended."""

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from wholeball.desk.leads import Lead, lead_of
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.usecases.show_doubts import Group, Remark, show_doubts


@require_safe
@at_desk(COORDINATORS)
def to_look_at(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List every remark of a day, today otherwise: doubts, then notes."""
    day = given.asked(request, "day")["day"]
    desk.saw("what is to look at")
    shown = show_doubts(desk.read(), at=desk.at, day=given.day(day) if day else None)
    doubts, notes = _led(desk, shown.doubts), _led(desk, shown.notes)
    return page(request, desk, "doubts", shown=shown, doubts=doubts, notes=notes)


def _led(
    desk: Desk, groups: tuple[Group, ...]
) -> list[tuple[str, list[tuple[Remark, Lead | None]]]]:
    """Return each matter with its remarks and their links."""
    return [
        (group.about, [(one, lead_of(one, desk.where)) for one in group.remarks])
        for group in groups
    ]
