"""Shows people what is theirs, and takes what they choose about themselves."""

from typing import get_args

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from wholeball.kernel.faults import WholeballError
from wholeball.league.person import Shown
from wholeball.noticeboard.forms import FeedForm, NameForm
from wholeball.usecases import own_season as use


@require_safe
@never_cache
@login_required
def own(request: HttpRequest) -> HttpResponse:
    """Lead to the season in which the reader has a part; where there are several, list them."""
    seasons = use.own_seasons(request.user)
    if len(seasons) == 1:
        return redirect("noticeboard:own_season", seasons[0].organisation.slug, seasons[0].slug)
    return render(request, "noticeboard/own.html", {"seasons": seasons})


@require_safe
@never_cache
@login_required
def season(request: HttpRequest, organisation: str, season: str) -> HttpResponse:
    """Return the reader's own part of a season."""
    told = use.own_season(
        request.user,
        organisation,
        season,
        now=timezone.now(),
        root=reverse("noticeboard:front", args=(organisation, season)),
    )
    names = [
        (
            one,
            NameForm(initial={"person": one.person, "shown": one.shown}, auto_id=f"id_{at}_%s"),
        )
        for at, one in enumerate(told.players)
    ]
    context = {"told": told, "names": names, "address": (organisation, season)}
    return render(request, "noticeboard/own_season.html", context)


@require_safe
@never_cache
@login_required
def team(request: HttpRequest, organisation: str, season: str, team: str) -> HttpResponse:
    """Return the roster of the reader's own team."""
    at = (organisation, season)
    found, roster = use.own_team(request.user, at, team, now=timezone.now())
    context = {"season": found, "team": team, "roster": roster}
    return render(request, "noticeboard/own_team.html", context)


@require_POST
@login_required
def name(request: HttpRequest, organisation: str, season: str) -> HttpResponseBase:
    """Keep how the public reads the reader's name."""
    use.refuse_others(request.user, organisation, season)
    form = NameForm(request.POST)
    if not form.is_valid():
        messages.error(request, "Nothing was changed: choose one of the three ways.")
        return redirect("noticeboard:own_season", organisation, season)
    shown = next(one for one in get_args(Shown) if one == form.cleaned_data["shown"])
    person, now = form.cleaned_data["person"], timezone.now()
    try:
        use.choose_own_name(request.user, (organisation, season), person, shown, now=now)
    except WholeballError as error:
        messages.error(request, str(error))
    else:
        messages.success(request, "Your choice holds on every page from now on.")
    return redirect("noticeboard:own_season", organisation, season)


@require_POST
@never_cache
@login_required
def make_feed(request: HttpRequest, organisation: str, season: str) -> HttpResponseBase:
    """Make a feed and show its address, this once."""
    use.refuse_others(request.user, organisation, season)
    form = FeedForm(request.POST)
    if not form.is_valid():
        messages.error(request, "Nothing was made: choose one of your calendars.")
        return redirect("noticeboard:own_season", organisation, season)
    at, subject = (organisation, season), form.cleaned_data["subject"]
    token = use.make_own_feed(request.user, at, subject, now=timezone.now())
    context = {
        "href": request.build_absolute_uri(reverse("noticeboard:feed", args=[token])),
        "address": at,
    }
    return render(request, "noticeboard/feed_made.html", context)


@require_POST
@login_required
def close_feed(
    request: HttpRequest, organisation: str, season: str, feed: int
) -> HttpResponseBase:
    """Close a feed."""
    use.close_own_feed(request.user, (organisation, season), feed, now=timezone.now())
    messages.success(request, "The feed is closed: its address opens nothing any more.")
    return redirect("noticeboard:own_season", organisation, season)
