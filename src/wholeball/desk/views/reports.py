"""Shows standings with reasons, brackets and the season's report, and hands tables out."""

from typing import Final, get_args

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, WHO_WORK, Desk, at_desk, page
from wholeball.files.exports import Format
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.usecases.page_parts import (
    RESULTS,
    STANDINGS,
    bracket_parts,
    report_part,
    standings_part,
    table_file,
)
from wholeball.usecases.show_bracket import show_bracket

_TYPES: Final[dict[Format, str]] = {
    "csv": "text/csv; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}
_TABLES: Final = (
    (RESULTS, "Results"),
    (STANDINGS, "Standings of all pools"),
    ("season-report-weeks", "Weeks"),
    ("season-report-divisions", "Divisions"),
)


@require_safe
@at_desk(WHO_WORK)
def standings(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show the standings of a pool after a round, each place with its reason.

    It opens on the first pool that has a result.
    """
    asked = given.asked(request, "pool", "round")
    pool = given.whole(asked["pool"], what="pool") if asked["pool"] else None
    round_ = given.whole(asked["round"], what="round") if asked["round"] else None
    here = reverse("desk:standings", args=desk.where)
    is_worked_at = desk.may()
    shown = standings_part(
        desk.read(),
        pool=pool,
        round_=round_,
        href=lambda number, after: f"{here}?pool={number}&round={after}",
        game_href=lambda game: _game_href(desk, game) if is_worked_at(game) else "",
        at=desk.at,
    )
    return page(request, desk, "standings", shown=shown)


@require_safe
@at_desk(COORDINATORS)
def bracket(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show who goes on and why, and the brackets."""
    number = given.asked(request, "bracket")["bracket"]
    shown = bracket_parts(
        desk.read(),
        number=given.whole(number or "1", what="bracket"),
        game_href=lambda game: _game_href(desk, game),
        at=desk.at,
    )
    return page(request, desk, "bracket", shown=shown)


@require_POST
@at_desk(COORDINATORS)
def draw(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Draw every bracket that was not drawn yet."""
    version = given.version(given.posted(request, (given.VERSION,)))
    try:
        show_bracket(desk.write(version), draw=True)
    except WholeballError as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, "The bracket is drawn. Later results do not move it.")
    return redirect("desk:bracket", *desk.where)


@require_safe
@at_desk(COORDINATORS)
def report(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show the season in numbers, with pictures."""
    given.asked(request)
    html = report_part(desk.read(), at=desk.at)
    return page(request, desk, "report", html=html, tables=_TABLES)


@require_safe
@at_desk(COORDINATORS)
def table(request: HttpRequest, desk: Desk, name: str, kind: str) -> HttpResponse:
    """Hand a table out as CSV or as a workbook."""
    given.asked(request)
    known = next((one for one in get_args(Format) if one == kind), None)
    if known is None:
        raise Http404
    return HttpResponse(
        table_file(desk.read(), name, known),
        content_type=_TYPES[known],
        headers={"Content-Disposition": f'attachment; filename="{name}.{known}"'},
    )


def _game_href(desk: Desk, game: GameId) -> str:
    return reverse("desk:game", args=(*desk.where, game))
