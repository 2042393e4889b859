"""Leads to the rules of the season that somebody officiates in."""

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_safe

from wholeball.store.permissions import may_study
from wholeball.store.reader import reader_of
from wholeball.store.scope import seasons_for
from wholeball.study.views import given


@require_safe
@login_required
def home(request: HttpRequest) -> HttpResponse:
    """Lead to the one season whose rules somebody studies; where there are several, list them."""
    given.asked(request)
    doors = [
        (one, reverse("study:happened", args=(one.organisation.slug, one.slug)))
        for one in seasons_for(reader_of(request.user), may_study)
    ]
    if len(doors) == 1:
        return redirect(doors[0][1])
    return render(request, "study/home.html", {"doors": doors})
