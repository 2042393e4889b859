"""Lets somebody in by the link that they were sent; looking at it changes nothing."""

from datetime import UTC, datetime
from http import HTTPStatus

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods

from wholeball.kernel.faults import WholeballError
from wholeball.site.invitations import (
    INVITED,
    accept,
    digest_of,
    open_invitation,
)
from wholeball.site.landing import first_page
from wholeball.store.models import Account


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def invitation(request: HttpRequest, token: str) -> HttpResponse:
    """Return what the link invites to; taking it leads on to an account, or joins this one."""
    digest = digest_of(token)
    found = open_invitation(digest, datetime.now(UTC))
    if found is None:
        return render(request, "site/no_invitation.html", status=HTTPStatus.NOT_FOUND)
    if request.method != "POST":
        return render(request, "site/invitation.html", {"invitation": found})
    if not isinstance(request.user, Account):
        request.session[INVITED] = digest
        if found.email:
            messages.info(request, f"The invitation is for {found.email}: use that address.")
        return redirect("account_signup")
    try:
        accept(digest, request.user, datetime.now(UTC))
    except WholeballError as refused:
        messages.error(request, str(refused))
        return redirect("account")
    request.session.cycle_key()
    return redirect(first_page(request.user))
