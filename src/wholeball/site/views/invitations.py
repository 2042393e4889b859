"""Shows coordinators the links that wait, makes new ones, and closes those that went astray."""

from datetime import UTC, datetime
from http import HTTPStatus

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from wholeball.site.guest_form import GuestForm
from wholeball.site.inviting import (
    WORKS,
    Office,
    close,
    invite_guest,
    mail_link,
    office_of,
    waiting,
)
from wholeball.store.models import Account
from wholeball.store.queries.games import officials_of, teams_of


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
@login_required
def invitations(request: HttpRequest) -> HttpResponse:
    """Return the links that wait; a form that was sent makes one more, which is shown this once."""
    office, now = _office(request), datetime.now(UTC)
    if request.method != "POST":
        return _page(request, office, GuestForm(office=office))
    form = GuestForm(request.POST, office=office)
    if not form.is_valid():
        return _page(request, office, form, status=HTTPStatus.UNPROCESSABLE_ENTITY)
    guest = form.guest()
    href = request.build_absolute_uri(
        reverse("invitation", args=[invite_guest(office, guest, now)])
    )
    made = {"href": href, "email": guest.email}
    if form.cleaned_data.get("mails"):
        fault = mail_link(guest, href)
        made |= {"fault": fault} if fault else {"mailed": "yes"}
    return _page(request, office, GuestForm(office=office), made=made)


@require_POST
@login_required
def close_one(request: HttpRequest, number: int) -> HttpResponseBase:
    """Close a link that waits."""
    if not close(_office(request), number, datetime.now(UTC)):
        raise Http404
    messages.success(request, "The link is closed: it opens nothing any more.")
    return redirect("invitations")


def _office(request: HttpRequest) -> Office:
    """Return what the reader coordinates.

    Raises:
        Http404: nothing.
    """
    office = office_of(request.user) if isinstance(request.user, Account) else None
    if office is None:
        raise Http404
    return office


def _page(
    request: HttpRequest,
    office: Office,
    form: GuestForm,
    *,
    status: HTTPStatus = HTTPStatus.OK,
    made: dict[str, str] | None = None,
) -> HttpResponse:
    context = {
        "form": form,
        "made": made,
        "waiting": waiting(office, datetime.now(UTC)),
        "days": WORKS.days,
        "teams": teams_of(office.seasons),
        "officials": officials_of(office.seasons),
    }
    return render(request, "site/invitations.html", context, status=status)
