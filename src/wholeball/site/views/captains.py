"""Invites the captains of a season: a link a team, made once the coordinator says so."""

from datetime import UTC, datetime
from http import HTTPStatus

from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods

from wholeball.desk.captains import kept_captains
from wholeball.site.captains_form import CaptainsForm
from wholeball.site.inviting import (
    WORKS,
    Guest,
    Office,
    captains_of,
    invite_guest,
    mail_link,
    office_of,
)
from wholeball.store.models import Account, Season


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
@login_required
def captains(request: HttpRequest) -> HttpResponse:
    """Ask where captains are reached; a form that was sent makes their links, shown this once."""
    office = office_of(request.user) if isinstance(request.user, Account) else None
    if office is None:
        raise Http404
    season = _season(request, office)
    if request.method != "POST":
        return _page(request, office, season, _form(request, season))
    form = _form(request, season)
    if not form.is_valid():
        return _page(request, office, season, form, status=HTTPStatus.UNPROCESSABLE_ENTITY)
    mails = form.cleaned_data.get("mails", False)
    made = [_made(request, office, one, mails=mails) for one in form.guests()]
    return _page(request, office, season, None, made=made)


def _season(request: HttpRequest, office: Office) -> Season:
    """Return the season that is named, or else the newest.

    Raises:
        Http404: the reader coordinates no season, or not that one.
    """
    named = request.GET.get("season", "")
    for one in office.seasons:
        if named in ("", f"{one.pk}"):
            return one
    raise Http404


def _form(request: HttpRequest, season: Season) -> CaptainsForm:
    told = (request.POST,) if request.method == "POST" else ()
    return CaptainsForm(
        *told,
        season=season,
        teams=captains_of(season, datetime.now(UTC)),
        known=kept_captains(request.session, season),
    )


def _made(request: HttpRequest, office: Office, guest: Guest, *, mails: bool) -> dict[str, str]:
    """Make a link and mail it if that is wished, and return what is said of it."""
    token = invite_guest(office, guest, datetime.now(UTC))
    href = request.build_absolute_uri(reverse("invitation", args=[token]))
    fault = mail_link(guest, href) if mails else ""
    mailed = "yes" if mails and not fault else ""
    return {"team": guest.team, "email": guest.email, "href": href, "mailed": mailed}


def _page(
    request: HttpRequest,
    office: Office,
    season: Season,
    form: CaptainsForm | None,
    *,
    status: HTTPStatus = HTTPStatus.OK,
    made: list[dict[str, str]] | None = None,
) -> HttpResponse:
    teams = captains_of(season, datetime.now(UTC))
    context = {
        "form": form or _blank(request, season),
        "made": made,
        "season": season,
        "others": [one for one in office.seasons if one != season],
        "led": [(team, says) for team, says in teams.items() if says],
        "days": WORKS.days,
    }
    return render(request, "site/captains.html", context, status=status)


def _blank(request: HttpRequest, season: Season) -> CaptainsForm:
    """Return the form for the teams that nobody leads after links were made."""
    return CaptainsForm(
        season=season,
        teams=captains_of(season, datetime.now(UTC)),
        known=kept_captains(request.session, season),
    )
