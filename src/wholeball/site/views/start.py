"""Begins the first season: from a preset of the rulebook, or by what somebody has already."""

from datetime import UTC, datetime
from http import HTTPStatus

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from wholeball.kernel.faults import WholeballError
from wholeball.site.forms import StartForm
from wholeball.store.models import Account, Membership, Organisation
from wholeball.usecases.begin_season import begin_season


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def start(request: HttpRequest) -> HttpResponse:
    """Return the ways to begin; a preset begins a season at once."""
    account, organisation = _coordinator(request)
    form = StartForm(request.POST if request.method == "POST" else None)
    if not form.is_bound:
        return _page(request, form)
    if not form.is_valid():
        return _page(request, form, HTTPStatus.UNPROCESSABLE_ENTITY)
    try:
        season = begin_season(
            organisation, by=account, at=datetime.now(UTC), **form.cleaned_data
        )
    except WholeballError as refused:
        form.add_error(None, str(refused))
        return _page(request, form, HTTPStatus.UNPROCESSABLE_ENTITY)
    messages.success(request, f"{season.name} has begun. Its teams come next.")
    return redirect("/desk/")


def _coordinator(request: HttpRequest) -> tuple[Account, Organisation]:
    """Return who asks, and the organisation that they coordinate all of. 2 queries.

    Raises:
        Http404: they coordinate none.
    """
    account = request.user
    if isinstance(account, Account):
        seats = Membership.objects.filter(
            account=account, role="coordinator", season__isnull=True
        )
        seat = seats.select_related("organisation").first()
        if seat is not None:
            return account, seat.organisation
    raise Http404


def _page(
    request: HttpRequest, form: StartForm, status: HTTPStatus = HTTPStatus.OK
) -> HttpResponse:
    return render(request, "site/start.html", {"form": form}, status=status)
