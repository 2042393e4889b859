"""Answers with the public pages of a season; each is made by one use case."""

from datetime import date

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from wholeball.noticeboard.served import file_served, served
from wholeball.usecases import noticeboard_pages as pages
from wholeball.usecases.public_draws import draw_file as draw_file_of
from wholeball.usecases.show_noticeboard import front_of, tables_of


@require_safe
def front(request: HttpRequest, organisation: str, season: str) -> HttpResponse:
    """Return the front page, tonight first."""
    return served(request, (organisation, season), "front", front_of, is_of_today=True)


@require_safe
def tables(request: HttpRequest, organisation: str, season: str) -> HttpResponse:
    """Return the list of standings."""
    return served(request, (organisation, season), "standings", tables_of)


@require_safe
def table(
    request: HttpRequest, organisation: str, season: str, pool: int, after: int | None = None
) -> HttpResponse:
    """Return the standings of one pool, the newest or those after a round."""
    return served(
        request,
        (organisation, season),
        f"standings:{pool}:{'' if after is None else after}",
        lambda board: pages.table_of(board, pool, after),
    )


@require_safe
def why(
    request: HttpRequest, organisation: str, season: str, pool: int, after: int, place: int
) -> HttpResponse:
    """Return the reason for a place of a large pool."""
    return served(
        request,
        (organisation, season),
        f"why:{pool}:{after}:{place}",
        lambda board: pages.why_of(board, pool, after, place),
    )


@require_safe
def calendar(
    request: HttpRequest, organisation: str, season: str, week: int | None = None
) -> HttpResponse:
    """Return a week of the timetable, the one that is played next unless another is asked."""
    return served(
        request,
        (organisation, season),
        f"calendar:{'' if week is None else week}",
        lambda board: pages.week_page(board, week),
        is_of_today=week is None,
    )


@require_safe
def night(request: HttpRequest, organisation: str, season: str, day: str) -> HttpResponse:
    """Return a night of the timetable."""
    try:
        asked = date.fromisoformat(day)
    except ValueError as error:
        raise Http404(day) from error
    return served(
        request,
        (organisation, season),
        f"night:{asked.isoformat()}",
        lambda board: pages.night_of(board, asked),
    )


@require_safe
def team(request: HttpRequest, organisation: str, season: str, team: str) -> HttpResponse:
    """Return the page of a team."""
    return served(
        request,
        (organisation, season),
        f"team:{team}",
        lambda board: pages.team_of(board, team),
    )


@require_safe
def field(request: HttpRequest, organisation: str, season: str, field: str) -> HttpResponse:
    """Return the page of a field."""
    return served(
        request,
        (organisation, season),
        f"field:{field}",
        lambda board: pages.field_of(board, field),
    )


@require_safe
def bracket(request: HttpRequest, organisation: str, season: str, number: int) -> HttpResponse:
    """Return a bracket."""
    return served(
        request,
        (organisation, season),
        f"bracket:{number}",
        lambda board: pages.bracket_of(board, number),
    )


@require_safe
def draws(request: HttpRequest, organisation: str, season: str) -> HttpResponse:
    """Return the draws of lots."""
    return served(request, (organisation, season), "draws", pages.draws_of)


@require_safe
def draw_file(
    request: HttpRequest, organisation: str, season: str, draw: str, file: str
) -> HttpResponse:
    """Return what was published of a draw, or the program that checks it."""
    return file_served(
        request, (organisation, season), file, lambda found: draw_file_of(found, draw, file)
    )


@require_safe
def results(
    request: HttpRequest, organisation: str, season: str, after: int | None = None
) -> HttpResponse:
    """Return the results of a round, the newest unless another is asked."""
    return served(
        request,
        (organisation, season),
        f"results:{'' if after is None else after}",
        lambda board: pages.round_of(board, after),
    )


@require_safe
def game(request: HttpRequest, organisation: str, season: str, game: str) -> HttpResponse:
    """Return the page of a game."""
    return served(
        request,
        (organisation, season),
        f"game:{game}",
        lambda board: pages.game_of(board, game),
    )


@require_safe
def rules(request: HttpRequest, organisation: str, season: str) -> HttpResponse:
    """Return the house rules, what is different first."""
    return served(request, (organisation, season), "rules", pages.rules_of)


@require_safe
def chapter(request: HttpRequest, organisation: str, season: str, number: int) -> HttpResponse:
    """Return a chapter of the house rules."""
    return served(
        request,
        (organisation, season),
        f"rules:{number}",
        lambda board: pages.chapter_of(board, number),
    )


@require_safe
def ground(request: HttpRequest, organisation: str, season: str) -> HttpResponse:
    """Return the field of play to scale."""
    return served(request, (organisation, season), "ground", pages.ground_of)
